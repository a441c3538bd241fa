package linkage

// rodBlock is a rod being read.
type rodBlock struct {
	*block
	rod *Rod
	// rows are the places of rod.Points.
	rows []pointRow
	// ends are the blocks of rod.Ends.
	ends []endBlock
}

// maxTilt is the most that a rod end can tilt, degrees: the rod then lies
// along the bolt. It is also the largest angle between a rod and an arm.
const maxTilt = 90

// declareRod names a rod's own points.
func (r *reader) declareRod(b *rodBlock) {
	m := &members{}
	r.members[b.rod] = m
	e := b.get("points")
	if e == nil {
		return
	}
	for _, row := range r.table(e) {
		r.add(m, b.String(), row.name, member{"point", len(b.rod.Points), row.span})
		b.rod.Points = append(b.rod.Points, Point{Name: row.name, Span: row.span})
		b.rows = append(b.rows, pointRow{value: row.value})
	}
}

// readRod reads all of a rod but its drawn length, which follows its points.
func (r *reader) readRod(b *rodBlock) {
	rod := b.rod
	if e := b.need("from", "from = part.point"); e != nil {
		rod.From, _ = r.pointRef(e)
	}
	if e := b.need("to", "to = part.point"); e != nil {
		rod.To, _ = r.pointRef(e)
	}
	b.tellMissing()
	dimension := rod.Name + ".length"
	rod.LengthSpan = b.at("length")
	ok := true
	rod.Length, ok = b.number("length", 0)
	set := r.setNumber(dimension, &rod.Length)
	rod.LengthGiven = set || b.get("length") != nil
	if ok && rod.LengthGiven && rod.Length <= 0 {
		r.tellAt(dimension, rod.LengthSpan, "a rod's length is more than 0, hole to hole")
	}
	rod.Diameter = b.atLeast("diameter", 0)
	r.setThickness(rod.Name+".diameter", rod.Diameter)
	rod.Misalignment = b.atLeast("misalignment", 0)
	if m := rod.Misalignment; m != nil && *m > maxTilt {
		r.faults.Add(b.at("misalignment"), "a rod end tilts %d degrees at most", maxTilt)
	}
	for i, row := range b.rows {
		point := &rod.Points[i]
		point.At, _ = r.vector(row.value, rod.Name+"."+point.Name)
	}
	r.readSecondPath(b)
}

// readSecondPath reads whether a rod is a second path, and its play.
func (r *reader) readSecondPath(b *rodBlock) {
	rod := b.rod
	known := true
	if e := b.get("second-path"); e != nil {
		rod.SecondPath, known = r.truth(e)
	}
	if play := b.atLeast("play", 0); play != nil {
		rod.Play = *play
	}
	if b.get("play") != nil && known && !rod.SecondPath {
		r.faults.Add(b.at("play"), "play is what a second path gives each way: it belongs with second-path = true")
	}
	if rod.SecondPath && len(rod.Points) > 0 {
		r.faults.Add(rod.Points[0].Span, "the rod %s is a second path, which drives nothing, so it has no points of its own", shortName(rod.Name))
	}
}
