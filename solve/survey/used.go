package survey

import "fullfree/linkage"

// usedPoints returns the points of parts that anything depends on.
func usedPoints(run *linkage.Run) map[*linkage.Point]bool {
	used := make(map[*linkage.Point]bool)
	use := func(r *linkage.PointRef) {
		if r != nil {
			used[r.Get()] = true
		}
	}
	for _, r := range run.Rods {
		use(&r.From)
		use(&r.To)
	}
	for _, c := range run.Cables {
		if c.Open() {
			continue
		}
		for _, leg := range c.Legs() {
			use(&leg[0])
			use(&leg[1])
		}
	}
	for _, p := range run.Parts {
		use(p.NamedPivot)
		if p.Motion == linkage.Floats { // its travel is told of their mean
			for i := range p.Points {
				used[&p.Points[i]] = true
			}
		}
	}
	for _, o := range run.Outputs {
		use(o.Point)
	}
	for _, r := range run.Requirements {
		if r.Kind == linkage.Meets {
			use(&r.Points[0])
			use(&r.Points[1])
		}
	}
	return used
}

// ArmsFrom lists the coordinates of Survey.Run that a setting of d moves along: of the
// arms of the parts that pivot there. d is of Survey.Run, or of a run made from or into
// it; of any other place there are none.
func (s *Survey) ArmsFrom(d linkage.Dimension) (list []linkage.Dimension) {
	if !s.Adjusted() {
		return nil
	}
	d, ok := s.Run.Dimension(d)
	if !ok {
		return nil
	}
	for _, p := range s.Run.Parts {
		here := p == d.Part && d.Point < 0 && p.NamedPivot == nil
		if n := p.NamedPivot; n != nil {
			here = n.Part == d.Part && n.Point == d.Point
		}
		if !here {
			continue
		}
		for i := range p.Points {
			if p.Points[i].Arm {
				list = append(list, linkage.Dimension{Part: p, Point: i, Axis: d.Axis})
			}
		}
	}
	return list
}
