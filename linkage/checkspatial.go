package linkage

// tilter returns the part, of p and what carries it, that tilts any way; nil where none
// does.
func (p *Part) tilter() *Part {
	for ; p != nil; p = p.carriedBy() {
		if p.Spatial() {
			return p
		}
	}
	return nil
}

// checkMetal tells of metal on what tilts that is no bar: a round is a circle seen end on,
// and an edge of plate has a side, which only show in a plane.
func (r *reader) checkMetal() {
	check := func(pair [2]FeatureRef) {
		for _, f := range pair {
			if f.Part == nil || r.bad[f.Part] || f.Feature >= len(f.Part.Features) {
				continue
			}
			metal := &f.Part.Features[f.Feature]
			tilts := f.Part.tilter()
			if tilts == nil || metal.Shape == Edge && metal.Bar {
				continue
			}
			what := "a round is a circle seen end on"
			if metal.Shape == Edge {
				what = "plate is seen from its edge"
			}
			r.faults.Add(f.Span, "%s, and %s %s: there only bars meet, rods and edges with a diameter", what, shortName(tilts.Name), tilts.freely())
		}
	}
	for _, s := range r.run.Stops {
		if s.Of == nil {
			check(s.Touch)
		}
	}
	for _, q := range r.run.Requirements {
		if q.Kind == Clearance {
			check(q.Between)
		}
	}
}

// checkBalls tells of parts on a ball that nothing holds, neither they nor what they carry,
// and that are asked for all the same. Whether what holds a part is enough, solving tells.
func (r *reader) checkBalls() {
	held := map[*Part]bool{}
	hold := func(p *Part) {
		for ; p != nil; p = p.carriedBy() {
			held[p] = true
		}
	}
	for _, rod := range r.run.Rods {
		if !rod.SecondPath {
			hold(rod.From.Part)
			hold(rod.To.Part)
		}
	}
	for _, j := range r.run.Joints {
		hold(j.Of[0].Part)
		hold(j.Of[1].Part)
	}
	for _, c := range r.run.Cables {
		if c.Open() || c.From == nil || c.To == nil || c.Conduit == nil {
			continue
		}
		for _, leg := range c.Legs() {
			hold(leg[0].Part)
			hold(leg[1].Part)
		}
	}
	asked := r.asksFor()
	for _, p := range r.run.Parts {
		if p.Spatial() && !held[p] && asked[p] && !r.bad[p] && len(r.ghosts) == 0 && r.sane() {
			r.faults.Add(p.Span, "nothing holds %s, which %s: rods or joints must end on it", shortName(p.Name), p.freely())
		}
	}
}

// sane reports whether every rod and joint could be read, so that it is known what holds
// what.
func (r *reader) sane() bool {
	for _, b := range r.rods {
		if r.bad[b.rod] {
			return false
		}
	}
	for _, j := range r.run.Joints {
		if r.bad[j] {
			return false
		}
	}
	return true
}

// asksFor returns the parts that an output or a requirement is about, and what carries them.
func (r *reader) asksFor() map[*Part]bool {
	asked := map[*Part]bool{}
	ask := func(p *Part) {
		for ; p != nil; p = p.carriedBy() {
			asked[p] = true
		}
	}
	askPoint := func(ref *PointRef) {
		if ref != nil {
			ask(ref.Part)
		}
	}
	for _, o := range r.run.Outputs {
		ask(o.Part)
		askPoint(o.Point)
	}
	for _, q := range r.run.Requirements {
		for _, s := range q.Of {
			ask(s.Part)
		}
		askPoint(&q.Points[0])
		askPoint(&q.Points[1])
		ask(q.Between[0].Part)
		ask(q.Between[1].Part)
		for i := range q.Places {
			askPoint(&q.Places[i].Place)
		}
	}
	return asked
}
