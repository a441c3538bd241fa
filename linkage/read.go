package linkage

import (
	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"
)

// reader turns one file into a Run. It tells everything that is wrong, so it
// reads on after a fault; what can't be relied on afterwards is in bad.
type reader struct {
	src *Source
	// lines is the text of src with line ends as the parser knows them, each byte at
	// its place (oneLineEnd).
	lines []byte
	// file is the name of src where the run is to be a member of an aircraft; else empty.
	file   string
	run    *Run
	faults *Faults
	set    settings
	// top are the kinds of blocks that the file may have.
	top []string

	names map[string]named
	// dims are the blocks of named dimensions, also in the file's order; dimPath is
	// which dimension is being worked out for which.
	dims      map[string]*dims
	dimsOrder []*dims
	dimPath   []*dim
	// symmetry is the coordinate that changes its sign in a mirror image, 0 for x; -1:
	// the run names none. badSymmetry says that it is faulty, which is told.
	symmetry    int
	badSymmetry bool
	mirrored    []*block // the blocks that are mirror images, written out
	images      map[string]image
	// bare says that what is read stands in no file: there are no names.
	bare    bool
	ghosts  map[string]bool // names declared wrongly, which is told there
	order   []string        // of names
	members map[any]*members

	// The blocks, in the order of what they became in the run.
	parts      []*partBlock
	rods       []*rodBlock
	joints     []*block
	cables     []*cableBlock
	pairs      []*block
	controls   []*block
	outputs    []*block
	stops      []*block
	pins       []*block
	rotors     []*block
	tolerances []*block
	// tolerance is the one that counts of tolerances; nil where there is none.
	tolerance    *block
	requirements []*block
	measurements []*block
	riggings     []*block
	varies       []*block

	// asked is what is to vary besides what the file says.
	asked []string

	// pairless says that cables may be in a pair that could not be read.
	pairless bool
	// bad are the parts and rods with a fault, and the cables that can't be
	// measured: what is told of them would only be told wrongly.
	bad map[any]bool
	// spelling is how many faults the parsing found; what is told later of the
	// same lines follows from them.
	spelling int
	// silent counts what is wrong but needn't be told, since it follows from
	// a fault that is.
	silent int
}

func newReader(src *Source) *reader {
	return &reader{
		src: src, lines: oneLineEnd(src.Text), run: &Run{Source: src}, faults: &Faults{Source: src}, symmetry: -1, top: topKinds,
		names: map[string]named{}, dims: map[string]*dims{}, ghosts: map[string]bool{}, members: map[any]*members{}, bad: map[any]bool{},
	}
}

// Read reads a run from a file, with some of its numbers set to others. The
// error is *Faults and holds everything that is wrong, the reader's limits on
// hostile input included; it never panics. An aircraft file, which names others, is
// refused: ReadWith reads it.
func Read(src *Source, set ...Setting) (*Run, error) { return ReadWith(src, nil, set...) }

// ReadWith is Read of a run file or of an aircraft file, whose runs are read by open,
// each by the name that the aircraft file has for it. Of an aircraft all runs are one
// (Run.Aircraft), and a Setting names the run first: "pedals.left-link.length".
func ReadWith(src *Source, open Opener, set ...Setting) (*Run, error) {
	r, err := readerOf(src, open, set...)
	if err != nil {
		return nil, err
	}
	return r.run, nil
}

// readerOf returns a reader that has read a file; nil is an empty one. The error is
// *Faults.
func readerOf(src *Source, open Opener, set ...Setting) (*reader, error) {
	return readerFor(src, open, nil, set...)
}

// readerFor is readerOf with more that may vary.
func readerFor(src *Source, open Opener, vary []string, set ...Setting) (*reader, error) {
	if src == nil {
		src = &Source{}
	}
	r := newReader(src)
	r.asked, r.run.written.set = vary, set
	r.readAll(open, set)
	if err := r.faults.Err(); err != nil {
		return nil, err
	}
	return r, nil
}

// readAll reads the whole file.
func (r *reader) readAll(open Opener, set []Setting) {
	body, ok := r.parse()
	if ok && isAircraft(body) {
		r.readAircraft(body, open, set)
		r.dropFollowing()
		return
	}
	r.readSettings(set)
	if ok {
		r.read(body)
		r.dropMirrored()
		r.dropFollowing()
	}
}

// dropFollowing drops what was told of lines that could not be parsed as meant.
func (r *reader) dropFollowing() {
	lines := map[int]bool{}
	for _, f := range r.faults.List[:r.spelling] {
		lines[f.Span.Line] = true
	}
	kept := r.faults.List[:r.spelling]
	for _, f := range r.faults.List[r.spelling:] {
		if f.Span.Line == 0 || !lines[f.Span.Line] {
			kept = append(kept, f)
		}
	}
	r.faults.List = kept
}

// read reads a file that could be parsed: first every name, so that the order
// of blocks doesn't matter, then what refers to names, then what is measured.
func (r *reader) read(body *hclsyntax.Body) {
	blocks := r.checkTop(body)
	if len(body.Blocks) == 0 && len(body.Attributes) == 0 {
		r.faults.Add(Span{Line: 1, Column: 1}, `there is nothing in the file: it begins run "title" {`)
		return
	}
	r.declareDims(blocks)
	r.readRun(blocks)
	r.checkSettings()
	blocks = r.mirror(blocks)
	r.noteImages()
	for _, b := range blocks {
		r.declareBlock(b)
	}
	r.readDims()
	if len(r.run.Parts) > maxParts {
		r.faults.Add(r.run.Parts[maxParts].Span, "more than %d parts", maxParts)
		return
	}
	for _, p := range r.parts {
		r.sound(p.part, func() { r.readPart(p) })
	}
	r.refuseCarrierCircles()
	for _, rod := range r.rods {
		r.sound(rod.rod, func() { r.readRod(rod) })
		r.readEnds(rod)
	}
	r.refuseRodCircles()
	for i, b := range r.joints {
		r.sound(r.run.Joints[i], func() { r.readJoint(b, r.run.Joints[i]) })
	}
	r.readPairs()
	for _, b := range r.cables {
		r.readCable(b)
	}
	for i, b := range r.controls {
		r.sound(r.run.Controls[i], func() {
			r.readControl(b, r.run.Controls[i])
			b.tellMissing()
		})
	}
	r.checkControls()
	r.readRotors()
	for i, b := range r.outputs {
		r.readOutput(b, r.run.Outputs[i])
		b.tellMissing()
	}
	for i, b := range r.stops {
		r.readStop(b, r.run.Stops[i])
		b.tellMissing()
	}
	r.readPins()
	for _, b := range r.tolerances {
		r.readTolerance(b)
	}
	for i, b := range r.requirements {
		r.readRequirement(b, r.run.Requirements[i])
		b.tellMissing()
	}
	r.readMeasurements()
	r.readRiggings()
	r.place()
	plane := r.checkPlane() && r.run.Plane
	r.checkEdges(plane)
	r.checkRods(plane)
	r.checkJoints()
	r.checkCables(plane)
	r.checkMetal()
	r.checkBalls()
	r.checkLeadingEdges()
	r.checkMeasurements()
	r.run.written.images = r.images
	r.readVaries()
	r.checkTolerance()
	r.tellUnusedSettings()
}

// sound reads a thing, and notes if anything was wrong with it.
func (r *reader) sound(thing any, read func()) {
	before := r.faults.found() + r.silent
	read()
	if r.faults.found()+r.silent > before {
		r.bad[thing] = true
	}
}

// declareBlock makes what a block describes and names it, and its points.
func (r *reader) declareBlock(b *block) {
	switch b.Type {
	case "fixed", "part":
		p := &Part{Span: b.span(), Index: len(r.run.Parts)}
		r.run.Parts = append(r.run.Parts, p)
		if b.Type == "part" {
			p.Motion = motionOf(b)
		}
		p.Name = r.declare(b, p)
		pb := &partBlock{block: b, part: p}
		r.parts = append(r.parts, pb)
		r.sound(p, func() { r.declarePart(pb) })
	case "rod":
		rod := &Rod{Span: b.span(), Index: len(r.run.Rods)}
		r.run.Rods = append(r.run.Rods, rod)
		rod.Name = r.declare(b, rod)
		rb := &rodBlock{block: b, rod: rod}
		r.rods = append(r.rods, rb)
		r.sound(rod, func() { r.declareRod(rb) })
	case "joint":
		j := &Joint{Span: b.span(), Index: len(r.run.Joints)}
		r.run.Joints = append(r.run.Joints, j)
		j.Name = r.declare(b, j)
		r.joints = append(r.joints, b)
	case "cable":
		c := &Cable{Span: b.span(), Index: len(r.run.Cables)}
		r.run.Cables = append(r.run.Cables, c)
		c.Name = r.declare(b, c)
		r.cables = append(r.cables, &cableBlock{block: b, cable: c})
	case "pair":
		p := &Pair{Span: b.span(), Index: len(r.run.Pairs)}
		r.run.Pairs = append(r.run.Pairs, p)
		p.Name = r.declare(b, p)
		r.pairs = append(r.pairs, b)
	case "control":
		c := &Control{Span: b.span(), Index: len(r.run.Controls)}
		r.run.Controls = append(r.run.Controls, c)
		c.Name = r.declare(b, c)
		r.controls = append(r.controls, b)
	case "output":
		o := &Output{Span: b.span(), Index: len(r.run.Outputs)}
		r.run.Outputs = append(r.run.Outputs, o)
		o.Name = r.declare(b, o)
		r.outputs = append(r.outputs, b)
	case "stop":
		s := &Stop{Span: b.span(), Index: len(r.run.Stops)}
		r.run.Stops = append(r.run.Stops, s)
		s.Name = r.declare(b, s)
		r.stops = append(r.stops, b)
	case "pin":
		p := &Pin{Span: b.span(), Index: len(r.run.Pins)}
		r.run.Pins = append(r.run.Pins, p)
		p.Name = r.declare(b, p)
		r.pins = append(r.pins, b)
	case "rotor":
		r.rotors = append(r.rotors, b)
	case toleranceKind:
		r.tolerances = append(r.tolerances, b)
	case dimsKind:
		r.declare(b, r.dims[cty.NormalizeString(b.name)])
	case varyKind:
		v := &Vary{Name: b.name, Span: b.span()}
		r.run.Varies = append(r.run.Varies, v)
		r.varies = append(r.varies, b)
	case "require":
		q := &Requirement{Span: b.span(), Kind: Kind(b.name), Index: len(r.run.Requirements)}
		r.run.Requirements = append(r.run.Requirements, q)
		r.requirements = append(r.requirements, b)
	case "taped", "gauged":
		m := &Measurement{Kind: MeasurementKind(b.Type), Span: b.span()}
		r.run.Measurements = append(r.run.Measurements, m)
		r.measurements = append(r.measurements, b)
	case "measured":
		r.run.Riggings = append(r.run.Riggings, &Rigging{Span: b.span()})
		r.riggings = append(r.riggings, b)
	}
}

// readRun reads the run block, of which there must be exactly one.
func (r *reader) readRun(blocks []*block) {
	var first *block
	for _, b := range blocks {
		switch {
		case b.Type != "run":
		case first == nil:
			first = b
		default:
			r.faults.Add(b.span(), "a file has one run block, and one stands on line %d", first.span().Line)
		}
	}
	if first == nil {
		r.run.Span = Span{Line: 1, Column: 1}
		r.faults.Add(r.run.Span, `the file has no run block: it begins run "title" { units = "mm" }`)
		return
	}
	b := first
	r.run.Span = b.span()
	if len(b.Labels) > 0 {
		r.run.Name = b.Labels[0]
	}
	if e := b.need("units", `units = "mm" or units = "in"`); e != nil {
		units, _ := r.choice(e, string(Millimeters), string(Inches))
		r.run.Units = Unit(units)
	}
	r.run.View = b.text("view")
	if e := b.get("craft"); e != nil {
		craft, _ := r.choice(e, string(Airplane), string(Rotorcraft))
		r.run.Craft = Craft(craft)
	}
	r.readDirections(b)
	if e := b.get("symmetry"); e != nil {
		axis, ok := r.choice(e, "x", "y", "z")
		if r.badSymmetry = !ok; ok {
			r.symmetry = int(axis[0] - 'x')
		}
	}
	r.readExactness(b)
	r.readTemperature(b)
	b.tellMissing()
}

// arrow returns a direction of the aircraft in the drawing; nil where the file
// doesn't say.
func (r *reader) arrow(b *block, name string) *Vec {
	e := b.get(name)
	if e == nil {
		return nil
	}
	v, ok := r.direction(e)
	if !ok {
		return nil
	}
	return &v
}
