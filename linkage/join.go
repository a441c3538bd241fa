package linkage

// join adds a member's elements, copies of those of its own run, to the aircraft's run,
// and makes their names known: "pedals.rocker".
func (r *reader) join(m *Member, own *reader) {
	m.Run = own.run
	c := own.run.copier(nil)
	to, all := c.to, r.run
	before := m.Name + "."
	for i, p := range to.Parts {
		p.In, p.Name, p.Index = m, before+p.Name, len(all.Parts)
		all.Parts = append(all.Parts, p)
		r.know(own, own.run.Parts[i], p, p.Name)
	}
	for i, rod := range to.Rods {
		rod.In, rod.Name, rod.Index = m, before+rod.Name, len(all.Rods)
		all.Rods = append(all.Rods, rod)
		r.know(own, own.run.Rods[i], rod, rod.Name)
	}
	for _, j := range to.Joints {
		j.In, j.Name, j.Index = m, before+j.Name, len(all.Joints)
		all.Joints = append(all.Joints, j)
		r.know(own, nil, j, j.Name)
	}
	r.joinRotor(m, to)
	for _, k := range to.Cables {
		k.In, k.Name, k.Index = m, before+k.Name, len(all.Cables)
		all.Cables = append(all.Cables, k)
		r.know(own, nil, k, k.Name)
	}
	for _, p := range to.Pairs {
		p.In, p.Name, p.Index = m, before+p.Name, len(all.Pairs)
		all.Pairs = append(all.Pairs, p)
		r.know(own, nil, p, p.Name)
	}
	for _, k := range to.Controls {
		k.In, k.Name, k.Index = m, before+k.Name, len(all.Controls)
		all.Controls = append(all.Controls, k)
		r.know(own, nil, k, k.Name)
	}
	for _, o := range to.Outputs {
		o.In, o.Name, o.Index = m, before+o.Name, len(all.Outputs)
		all.Outputs = append(all.Outputs, o)
		r.know(own, nil, o, o.Name)
	}
	for _, s := range to.Stops {
		s.In, s.Name, s.Index = m, before+s.Name, len(all.Stops)
		all.Stops = append(all.Stops, s)
		r.know(own, nil, s, s.Name)
	}
	for _, p := range to.Pins {
		p.In, p.Name, p.Index = m, before+p.Name, len(all.Pins)
		all.Pins = append(all.Pins, p)
		r.know(own, nil, p, p.Name)
	}
	for _, q := range to.Requirements {
		if q.Kind == Reading && q.Control == nil && len(to.Controls) == 1 {
			q.Control = to.Controls[0] // whose place its at is, which the aircraft's others aren't
		}
		q.In, q.Index = m, len(all.Requirements)
		all.Requirements = append(all.Requirements, q)
	}
	for _, k := range to.Measurements {
		k.In = m
		all.Measurements = append(all.Measurements, k)
	}
	for _, g := range to.Riggings {
		g.In = m
		all.Riggings = append(all.Riggings, g)
	}
	for _, name := range to.Named {
		all.Named = append(all.Named, before+name)
		if value, ok := to.NamedValue(name); ok {
			if all.written.dims == nil {
				all.written.dims = map[string]float64{}
			}
			all.written.dims[before+name] = value
		}
	}
	all.Plane = all.Plane && to.Plane
}

// joinRotor makes the rotor of a member that of the aircraft, which has one.
func (r *reader) joinRotor(m *Member, to *Run) {
	switch first := r.run.Rotor; {
	case to.Rotor == nil:
	case first == nil:
		r.run.Rotor = to.Rotor
	default:
		r.faults.Add(m.Span, "%s has a rotor, and %s has one already: of the runs of an aircraft one has a rotor", shortName(m.Name), shortName(first.Hub.In.Name))
	}
}

// know makes an element known by its name in the aircraft; was is what it is copied from
// where that has points or metal of its own.
func (r *reader) know(own *reader, was, is any, name string) {
	r.names[name] = named{thing: is}
	r.order = append(r.order, name)
	if m := own.members[was]; m != nil {
		r.members[is] = m
	}
}
