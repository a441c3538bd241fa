package linkage

import (
	"strconv"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// partBlock is a part being read.
type partBlock struct {
	*block
	part *Part
	rows []pointRow // of part.Points
	// features are the blocks of part.Features.
	features []*block
}

// pointRow is a row of a table of points.
type pointRow struct {
	value hclsyntax.Expression
}

// motionOf is how the part of a block moves.
func motionOf(b *block) Motion {
	switch {
	case b.get("ball") != nil:
		return Tilts
	case b.get("slide") != nil:
		return Slides
	case b.get("pivot") != nil && saysTrue(b.get("slides")):
		return TurnsAndSlides
	case b.get("pivot") != nil:
		return Turns
	case b.get("floats") != nil:
		return Roams
	}
	return Floats
}

// declarePart names a part's points, arms and metal.
func (r *reader) declarePart(p *partBlock) {
	m := &members{}
	r.members[p.part] = m
	for _, a := range sortedAttributes(p.Body) {
		if a.Name != "points" && a.Name != "arms" {
			continue
		}
		kind := map[string]string{"points": "point", "arms": "arm"}[a.Name]
		for _, row := range r.table(a.Expr) {
			r.add(m, p.String(), row.name, member{kind, len(p.part.Points), row.span})
			p.part.Points = append(p.part.Points, Point{Name: row.name, Span: row.span, Arm: a.Name == "arms"})
			p.rows = append(p.rows, pointRow{value: row.value})
		}
	}
	for _, inner := range p.Body.Blocks {
		if inner.Type != "round" && inner.Type != "edge" {
			continue
		}
		b := r.newBlock(inner)
		shape := Round
		if inner.Type == "edge" {
			shape = Edge
		}
		f := Feature{Span: b.span(), Shape: shape}
		if len(inner.Labels) > 0 {
			f.Name = b.name
			r.add(m, p.String(), f.Name, member{inner.Type, len(p.part.Features), spanOf(inner.LabelRanges[0])})
		}
		p.part.Features = append(p.part.Features, f)
		p.features = append(p.features, b)
	}
}

// readPart reads all of a part but where its arms are, which follow its pivot.
func (r *reader) readPart(p *partBlock) {
	part := p.part
	part.Axis = Vec{0, 0, 1}
	if e := p.get("axis"); e != nil {
		part.Axis, _ = r.direction(e)
	}
	r.readSpatial(p)
	if e := p.get("exact"); e != nil {
		part.Exact, _ = r.truth(e)
	}
	part.Tolerance, part.JointPlay = p.atLeast(toleranceKind, 0), p.readPlay()
	if part.Loose() && p.get("joint-play") != nil {
		r.faults.Add(p.at("joint-play"), "%s turns on no pivot, so its joints are those of the rods that hold it: write joint-play in these", p)
	}
	if part.Motion != Fixed {
		r.readMotion(p)
	}
	for i := range p.rows {
		row, point := &p.rows[i], &part.Points[i]
		if !point.Arm {
			point.At, _ = r.vector(row.value, part.Name+"."+point.Name)
			continue
		}
		point.offset, _ = r.vector(row.value, "")
		point.polar = r.polarOf(row.value)
	}
	if part.Motion == Floats && len(part.Points) == 0 {
		r.faults.Add(part.Span, "%s has neither pivot nor slide, so rods must hold it, and it has no points for them: give pivot, slide or points", p)
	}
	if part.Motion == Roams && len(part.Points) == 0 {
		r.faults.Add(part.Span, "%s floats in space, so rods and joints must hold it, and it has no points for them: give points", p)
	}
	r.readBolts(p)
	for i, b := range p.features {
		if part.Features[i].Shape == Round {
			r.readRound(b, part.Name+"."+part.Features[i].Name, &part.Features[i])
		} else {
			r.readEdge(b, part.Name+"."+part.Features[i].Name, &part.Features[i])
		}
	}
}

// readMotion reads what a part turns on or slides along.
func (r *reader) readMotion(p *partBlock) {
	part := p.part
	slide, pivot := p.get("slide"), pivotOf(p.block)
	if slide != nil {
		part.Slide, _ = r.direction(slide)
	}
	switch {
	case pivot == nil:
		if e := p.get("arms"); e != nil {
			instead := "give points"
			if part.Motion == Floats {
				instead = "give it a pivot, as in pivot = [x, y] (or points, if rods alone hold it)"
			}
			r.faults.Add(spanOf(e.Range()), "arms are measured from a pivot, and %s has none: %s", p, instead)
		}
		if part.Motion == Floats && part.Axis != (Vec{0, 0, 1}) && part.Axis != (Vec{0, 0, -1}) && !r.bad[part] {
			r.faults.Add(p.at("axis"), "%s has neither pivot nor slide, so it moves in the plane of the drawing and turns square to it: leave axis out, or give pivot", p)
		}
	case isName(pivot):
		if ref, ok := r.pointRef(pivot); ok {
			switch {
			case ref.Rod != nil:
				r.faults.Add(ref.Span, "a rod can't carry a part: hang a rod on %s instead, or pivot on a part", shortName(ref.String()))
			case ref.Part == part:
				r.faults.Add(ref.Span, "%s can't be carried by itself", p)
			default:
				part.NamedPivot = &ref
				if ref.Part.Motion != Fixed {
					part.Carrier = &ref
				}
				for _, c := range axes {
					r.refuseSetting(part.Name+".pivot"+c, "the pivot of %s is carried by %s: set %s%s", shortName(part.Name), ref, ref, c)
				}
			}
		}
	default:
		part.Pivot, _ = r.vector(pivot, part.Name+".pivot")
		if part.Motion == Slides {
			r.faults.Add(spanOf(pivot.Range()), "%s slides, so it has no pivot of its own: leave pivot out, or name the point that carries its guide, pivot = part.point", p)
		}
	}
}

// readBolts reads the directions of bolts that are not parallel to the axis.
func (r *reader) readBolts(p *partBlock) {
	e := p.get("bolts")
	if e == nil {
		return
	}
	m := r.members[p.part]
	for _, row := range r.table(e) {
		point, ok := m.byName[row.name]
		switch {
		case !ok || point.kind == "round" || point.kind == "edge":
			r.faults.Add(row.span, "%s has no point %s%s", p, shortName(row.name), r.meant(row.name, "", itHas, r.memberList(m, "point", "arm")))
		case p.part.Points[point.index].Bolt != nil:
			r.faults.Add(row.span, "the bolt at %s is given twice", shortName(row.name))
		default:
			bolt, _ := r.direction(row.value)
			p.part.Points[point.index].Bolt = &bolt
		}
	}
}

// readRound reads a round.
func (r *reader) readRound(b *block, name string, f *Feature) {
	f.Through = make([]Vec, 1)
	if e := b.need("at", "at = [x, y]"); e != nil {
		f.Through[0], _ = r.vector(e, name)
	}
	if e := b.need("radius", "radius = 3/8"); e != nil {
		radius, ok := r.number(e)
		ok = r.setNumber(name+".radius", &radius) || ok
		if ok && radius <= 0 {
			r.tellAt(name+".radius", spanOf(e.Range()), "a radius is more than 0")
		}
		f.Radius = radius
	}
	r.readHeights(b, f)
	b.tellMissing()
}

// readEdge reads an edge.
func (r *reader) readEdge(b *block, name string, f *Feature) {
	if e := b.need("through", "through = [[0, 0], [1, 2]]"); e != nil {
		points, ok := r.list(e, -1, "[[0, 0], [1, 2]]")
		if ok && len(points) < 2 {
			r.faults.Add(spanOf(e.Range()), "an edge goes through two points at least")
		}
		for i, point := range points {
			v, _ := r.vector(point, name+"."+strconv.Itoa(i))
			f.Through = append(f.Through, v)
			f.throughSpans = append(f.throughSpans, spanOf(point.Range()))
		}
	}
	thick, diameter := b.atLeast("thick", 0), b.atLeast("diameter", 0)
	if b.get("thick") != nil && b.get("diameter") != nil {
		r.faults.Add(b.at("diameter"), "an edge has either thick, for plate, or diameter, for bar")
	}
	r.setThickness(name+".diameter", diameter)
	r.setThickness(name+".thick", thick)
	switch {
	case diameter != nil:
		f.Radius, f.Bar = *diameter/2, true
	case thick != nil:
		f.Radius = *thick / 2
	}
	r.readHeights(b, f)
	b.tellMissing()
}

// setThickness lets a setting replace how thick something is, where the file tells.
func (r *reader) setThickness(dimension string, thick *float64) {
	if thick != nil && r.setNumber(dimension, thick) && *thick < 0 {
		r.tellAt(dimension, Span{}, "it can't be smaller than 0")
	}
}

// readHeights reads between which heights metal lies.
func (r *reader) readHeights(b *block, f *Feature) {
	if e := b.get("z"); e != nil {
		f.Z, _ = r.interval(e, "height")
	}
}
