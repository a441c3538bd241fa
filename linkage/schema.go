package linkage

import (
	"fmt"
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"
)

// blockKind is what a kind of block may hold.
type blockKind struct {
	label      string // what its label is; "" where it has none
	optional   string // what a second label is; "" where there is none
	attributes []string
	// free says that attributes may have any name.
	free    bool
	blocks  []string
	instead map[string]string // what to do instead of an attribute often tried
}

// topKinds are the kinds of blocks of a file, in the order they are told in.
var topKinds = []string{"run", dimsKind, "fixed", "part", "rod", "joint", "cable", "pair", "control", "output", "stop", "pin", "rotor", toleranceKind, "require", "taped", "gauged", "measured", varyKind}

// The blocks of an aircraft file; memberKind is its run block.
const (
	aircraftKind = "aircraft"
	memberKind   = "run of an aircraft"
	samePartKind = "same-part"
)

// aircraftKinds are the kinds of blocks of an aircraft file, in the order they are told in.
var aircraftKinds = []string{aircraftKind, "run", samePartKind, "require", "measured"}

// cableEndKind is the kind of an end block in a cable, which holds less than that
// of a rod.
const cableEndKind = "end of a cable"

// blockKinds are all kinds of blocks.
var blockKinds = map[string]blockKind{
	"run": {label: "a title", attributes: []string{"units", "view", "forward", "up", "right", "symmetry", "sketch", "uncertain", "rigged-at", "airframe", "craft"},
		instead: map[string]string{"file": `a run block names a file where runs are joined: write aircraft "title" {} above, and then only what joins them`}},
	dimsKind: {label: "a name", free: true},
	"fixed": {
		label: "a name", attributes: []string{"axis", "points", "bolts", "exact", toleranceKind}, blocks: []string{"round", "edge"},
		instead: map[string]string{
			mirrorName:   "what is fixed is written out: parts, rods, joints, controls, outputs and stops can be mirrored",
			"pivot":      "what is fixed doesn't turn: make it a part",
			"slide":      "what is fixed doesn't slide: make it a part",
			"slides":     "what is fixed doesn't slide: make it a part",
			"ball":       "what is fixed doesn't tilt: make it a part",
			"floats":     "what is fixed doesn't move: make it a part",
			"joint-play": "what is fixed has no joint of its own: what turns on it has",
			"arms":       "what is fixed has no pivot for arms to be measured from: give points",
		},
	},
	"part": {label: "a name", attributes: []string{"pivot", "axis", "slide", "slides", "ball", "floats", "square-to", "points", "arms", "bolts", "exact", toleranceKind, "joint-play", mirrorName}, blocks: []string{"round", "edge"}},
	"round": {label: "a name", attributes: []string{"at", "radius", "z"},
		instead: map[string]string{"diameter": "a round is given by its radius, half of that"}},
	"edge": {label: "a name", attributes: []string{"through", "thick", "diameter", "z"},
		instead: map[string]string{"radius": "an edge is given by how thick it is, twice that"}},
	"rod": {label: "a name", attributes: []string{"from", "to", "length", "diameter", "misalignment", "points", "second-path", "play", toleranceKind, "joint-play", mirrorName}, blocks: []string{"end"}},
	"joint": {label: "a name", attributes: []string{"of", "joint-play", mirrorName},
		instead: map[string]string{
			"from":   "a joint makes two points one: write of = [upper.tip, lower.tip]",
			"to":     "a joint makes two points one: write of = [upper.tip, lower.tip]",
			"length": "a joint has no length: what keeps two points apart is a rod",
			"axis":   "a joint is a ball between two points; where their parts turn about parallel axes it is the hinge that it looks like",
			"play":   "what a joint gives is its joint-play",
		}},
	"rotor": {attributes: []string{"hub", "turns"}},
	"end": {label: "a side", attributes: []string{"thread", "hand", "engaged", "home", "exposed", "least", "most", "step", "shank", "joint-play"},
		instead: map[string]string{
			"pitch":    "the pitch follows from the thread's name, thread = \"1/4-28\"",
			"diameter": "the diameter follows from the thread's name, thread = \"1/4-28\"",
		}},
	"cable": {label: "a name", attributes: []string{"from", "to", "conduit", "core", "pushes", "stiffness", "spring", "radius", "winds", "run", "wire"}, blocks: []string{"end"},
		instead: map[string]string{
			mirrorName:   "cables are written out: parts, rods, joints, controls, outputs and stops can be mirrored",
			"length":     "a cable has no length: core is what is outside its conduit, and run the free length of one on quadrants",
			"pretension": "cables are drawn up in pairs: pretension belongs in their pair block",
			"diameter":   "the size of an open cable is told with its wire, " + wireExample,
		}},
	cableEndKind: {label: "a side", attributes: []string{"thread", "hand", "engaged", "least", "most", "step"},
		instead: map[string]string{
			"pitch":    "the pitch follows from the thread's name, thread = \"M6x1\"",
			"diameter": "the diameter follows from the thread's name, thread = \"M6x1\"",
		}},
	"pair": {label: "a name", attributes: []string{"cables", "pretension"},
		instead: map[string]string{
			"of":      "a pair is of its cables: write cables = [one, other]",
			"tension": "what the cables are drawn up to is the pretension",
		}},
	"control": {label: "a name", attributes: []string{"of", "from", "to", "held", "plus", "minus", "grip", "seen-from", "turns", "detents", mirrorName}},
	"output":  {label: "a name", attributes: []string{"of", "along", "tilts", "plus", "minus", "reads", "seen-at", "leading-edge", "against", mirrorName}},
	"stop":    {label: "a name", attributes: []string{"of", "at", "side", "touch", "adjust", "step", toleranceKind, mirrorName}},
	"pin":     {label: "a name", attributes: []string{"of", "at", "within"}},
	varyKind:  {label: "a name", attributes: []string{"of", "among", "low", "high", "step"}},
	toleranceKind: {attributes: []string{"points", "pivots", "rods", "stops", "joint-play"},
		instead: map[string]string{
			"play":    "what every joint gives is its joint-play",
			"cables":  "how far cables may be out isn't reckoned: they are exact",
			"lengths": "how far each set length may be out is told by rods",
		}},
	"require":  {label: "a kind", optional: "a name"},
	"taped":    {label: "a name", attributes: []string{"from", "to", "is", "within"}},
	"gauged":   {label: "a name", attributes: []string{"from", "to", "is", "within"}},
	"measured": {label: "a name", attributes: []string{"of", "control", "readings", "within", "date"}},

	aircraftKind: {label: "a title", attributes: []string{"craft"}},
	memberKind: {label: "a name", attributes: []string{"file"},
		instead: map[string]string{"units": "the units stand in the run's own file"}},
	samePartKind: {label: "a name", attributes: []string{"of", "turns"}},
}

// requireKinds are the kinds of requirement, in the order they are told in.
var requireKinds = []Kind{Opposite, Together, Steady, Sense, Travel, OverCenter, RodAngle, Clearance, Misalignment, Stops, Order, Engagement, SecondPath, Taut, Meets, Neutral, Symmetrical, Reading, FreePlay, CollectivePitch, CyclicPitch, CyclicSense}

// requireAttributes are the attributes of each kind of requirement; control
// may stand in all but what is judged at neutral alone.
var requireAttributes = map[Kind][]string{
	Opposite:     {"of", "within", "control"},
	Together:     {"of", "within", "control"},
	Steady:       {"of", "within", "control"},
	Sense:        {"of", "turns", "when", "then", "control"},
	Travel:       {"of", "low", "high", "within", "control"},
	OverCenter:   {"least", "control"},
	RodAngle:     {"least", "control"},
	Clearance:    {"between", "least", "control"},
	Misalignment: {"most", "control"},
	Stops:        {"control"},
	Order:        {"first", "then", "least", "control"},
	Engagement:   {"control"},
	SecondPath:   {"most", "control"},
	Taut:         {"of", "least", "control"},
	Meets:        {"of", "within"},
	Neutral:      {"of", "within"},
	Symmetrical:  {"of", "opposed", "within", "control"},
	Reading:      {"of", "at", "wants", "within", "control"},
	FreePlay:     {"of", "most", "control"},

	CollectivePitch: {"of", "low", "high", "most", "within", "control"},
	CyclicPitch:     {"of", "low", "high", "most", "within", "control"},
	CyclicSense:     {"of", "when", "least-over", "most-over", "within", "control"},
}

// block is a block of the file being read.
type block struct {
	*hclsyntax.Block
	r    *reader
	name string // its label, or its kind where it has none
	// missing are the attributes that need didn't find, with examples;
	// misspelled those that another was probably meant to be.
	missing, examples, misspelled []string
	// mirroring is how it is the mirror image of another; nil where it isn't.
	mirroring *mirroring
}

// newBlock checks a block's labels and what it holds.
func (r *reader) newBlock(b *hclsyntax.Block) *block { return r.newBlockOf(b, r.kind(b.Type)) }

// kind is what a kind of block may hold: a run block of an aircraft file is another one.
func (r *reader) kind(name string) blockKind {
	if name == "run" && slices.Contains(r.top, aircraftKind) {
		name = memberKind
	}
	return blockKinds[name]
}

// newBlockOf checks the labels of a block of a kind, and what it holds.
func (r *reader) newBlockOf(b *hclsyntax.Block, kind blockKind) *block {
	nb := &block{Block: b, r: r, name: b.Type}
	r.checkLabels(b, kind)
	if len(b.Labels) > 0 {
		nb.name = b.Labels[0]
	}
	attributes := kind.attributes
	if b.Type == "require" {
		var known bool
		attributes, known = requireAttributes[Kind(nb.name)]
		if !known {
			return nb // told where it is read
		}
	}
	r.checkContents(nb, kind, attributes)
	return nb
}

// checkLabels tells of labels missing and too many.
func (r *reader) checkLabels(b *hclsyntax.Block, kind blockKind) {
	if kind.label == "" {
		if len(b.Labels) > 0 {
			r.faults.Add(spanOf(b.LabelRanges[0]), "nothing stands after %s: %s {", b.Type, b.Type)
		}
		return
	}
	most := 1
	if kind.optional != "" {
		most = 2
	}
	if len(b.Labels) == 0 {
		r.faults.Add(spanOf(b.TypeRange), "%s wants %s after it, in quotes: %s \"...\" {", b.Type, kind.label, b.Type)
	}
	if len(b.Labels) > most {
		r.faults.Add(spanOf(b.LabelRanges[most]), "only %s stands after %s", strings.TrimSuffix(kind.label+" and "+kind.optional, " and "), b.Type)
	}
}

// checkContents tells of attributes and blocks that don't belong in b.
func (r *reader) checkContents(b *block, kind blockKind, attributes []string) {
	for _, a := range sortedAttributes(b.Body) {
		if kind.free || slices.Contains(attributes, a.Name) {
			continue
		}
		at := spanOf(a.NameRange)
		switch {
		case kind.instead[a.Name] != "":
			r.faults.Add(at, "%s", kind.instead[a.Name])
		case slices.Contains(kind.blocks, a.Name):
			label := "name"
			switch {
			case a.Name == "end" && b.Type == "cable":
				label = cableSides[0]
			case a.Name == "end":
				label = rodSides[0]
			}
			r.faults.Add(at, "%s is a block: %s %q {", a.Name, a.Name, label)
		default:
			b.misspelled = append(b.misspelled, Nearest(a.Name, attributes))
			r.faults.Add(at, "%s has no attribute %s%s", b.kindName(), shortName(a.Name), r.meant(a.Name, "", itHas, attributes))
		}
	}
	for _, inner := range b.Body.Blocks {
		if slices.Contains(kind.blocks, inner.Type) {
			continue
		}
		at := spanOf(inner.TypeRange)
		switch {
		case slices.Contains(attributes, inner.Type):
			b.misspelled = append(b.misspelled, inner.Type)
			r.faults.Add(at, "%s is an attribute: %s = ...", inner.Type, inner.Type)
		case slices.Contains(r.top, inner.Type):
			r.faults.Add(at, "%s blocks don't stand inside %s: close it with a } first", inner.Type, b.kindName())
		default:
			r.faults.Add(at, "%s holds no block %s%s", b.kindName(), shortName(inner.Type), r.meant(inner.Type, "", itHas, kind.blocks))
		}
	}
}

// kindName says what kind of block b is: "rod", "require steady".
func (b *block) kindName() string {
	if b.Type == "require" {
		return "require " + b.name
	}
	return b.Type
}

// String says which block b is: `rod "left-link"`.
func (b *block) String() string {
	if len(b.Labels) == 0 {
		return b.Type
	}
	return b.Type + " " + shortName(b.Labels[0])
}

// span is the block's header.
func (b *block) span() Span { return spanOf(b.DefRange()) }

// get returns an attribute's value; nil where it is left out.
func (b *block) get(name string) hclsyntax.Expression {
	if a := b.Body.Attributes[name]; a != nil {
		return a.Expr
	}
	return nil
}

// need returns an attribute's value; where it is left out, nil, and
// tellMissing tells. example shows it as it could be.
func (b *block) need(name, example string) hclsyntax.Expression {
	e := b.get(name)
	switch {
	case e != nil:
	case slices.Contains(b.misspelled, name):
		b.r.silent++ // told as an attribute of another name
	default:
		b.missing = append(b.missing, name)
		b.examples = append(b.examples, example)
	}
	return e
}

// tellMissing tells of all attributes that were needed and left out.
func (b *block) tellMissing() {
	if len(b.missing) > 0 {
		b.r.faults.Add(b.span(), "%s has no %s: write %s", b, strings.Join(b.missing, ", no "), strings.Join(b.examples, ", "))
	}
}

// number returns the number of an attribute, fallback where it is left out.
func (b *block) number(name string, fallback float64) (float64, bool) {
	e := b.get(name)
	if e == nil {
		return fallback, true
	}
	return b.r.number(e)
}

// optional returns the number of an attribute, nil where it is left out or
// faulty.
func (b *block) optional(name string) *float64 {
	e := b.get(name)
	if e == nil {
		return nil
	}
	value, ok := b.r.number(e)
	if !ok {
		return nil
	}
	return &value
}

// atLeast returns the number of an attribute, nil where it is left out or
// faulty. It must not be smaller than least.
func (b *block) atLeast(name string, least float64) *float64 {
	value := b.optional(name)
	if value != nil && *value < least {
		b.r.faults.Add(b.at(name), "%s can't be smaller than %g", name, least)
		return nil
	}
	return value
}

// moreThanNothing returns the number of an attribute, which must be more than
// 0; nil where it is left out or faulty.
func (b *block) moreThanNothing(name string) *float64 {
	value := b.optional(name)
	if value != nil && *value <= 0 {
		b.r.faults.Add(b.at(name), "%s is more than 0", name)
		return nil
	}
	return value
}

// text returns the text of an attribute, "" where it is left out.
func (b *block) text(name string) string {
	e := b.get(name)
	if e == nil {
		return ""
	}
	value, _ := b.r.text(e)
	return value
}

// at is the place of an attribute's value; the block's own where it is left out.
func (b *block) at(name string) Span {
	if e := b.get(name); e != nil {
		return spanOf(e.Range())
	}
	return b.span()
}

// meant is didYouMean, unless the fault it is for won't be shown.
func (r *reader) meant(given, prefix, lead string, candidates []string) string {
	if r.faults.full() {
		return ""
	}
	return didYouMean(given, prefix, lead, candidates)
}

// sortedAttributes returns a body's attributes in the file's order.
func sortedAttributes(body *hclsyntax.Body) []*hclsyntax.Attribute {
	list := make([]*hclsyntax.Attribute, 0, len(body.Attributes))
	for _, a := range body.Attributes {
		list = append(list, a)
	}
	slices.SortFunc(list, func(a, b *hclsyntax.Attribute) int {
		return a.SrcRange.Start.Byte - b.SrcRange.Start.Byte
	})
	return list
}

// checkTop tells of what doesn't belong at the top of a file, and returns the
// blocks that do.
func (r *reader) checkTop(body *hclsyntax.Body) []*block {
	for _, a := range sortedAttributes(body) {
		r.faults.Add(spanOf(a.NameRange), "%s stands in no block%s", shortName(a.Name), r.inWhich(a.Name))
	}
	var blocks []*block
	for _, b := range body.Blocks {
		if !slices.Contains(r.top, b.Type) {
			r.faults.Add(spanOf(b.TypeRange), "there is no kind of block %s%s", shortName(b.Type), r.meantKind(b.Type))
			for _, label := range b.Labels {
				r.ghosts[cty.NormalizeString(label)] = true
			}
			continue
		}
		blocks = append(blocks, r.newBlock(b))
	}
	return blocks
}

// meantKind says what to do instead of a block of a wrong kind.
func (r *reader) meantKind(word string) string {
	switch word {
	case "round", "edge":
		return ": it stands inside the part it belongs to"
	case "end":
		return ": it stands inside the rod or cable it belongs to"
	}
	if slices.Contains(requireKinds, Kind(word)) {
		return fmt.Sprintf(": write require %q {", word)
	}
	return r.meant(word, "", thereIs, r.top)
}

// inWhich says which kinds of blocks have an attribute.
func (r *reader) inWhich(attribute string) string {
	var kinds []string
	for _, k := range r.top {
		if slices.Contains(r.kind(k).attributes, attribute) || k == "require" && requires(attribute) {
			kinds = append(kinds, k)
		}
	}
	if len(kinds) == 0 {
		return ""
	}
	return ": it belongs in " + strings.Join(kinds, " or ")
}

// requires reports whether a kind of requirement has an attribute.
func requires(attribute string) bool {
	for _, attributes := range requireAttributes {
		if slices.Contains(attributes, attribute) {
			return true
		}
	}
	return false
}
