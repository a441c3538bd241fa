// Layer: sweep.

package solve

import (
	"math"

	"fullfree/linkage"
)

// Body is a piece that moves: a part, or a rod with points of its own. Exactly
// one of the two is set.
type Body struct {
	Part *linkage.Part
	Rod  *linkage.Rod
}

// Frame is where a body stands: a place of it drawn at p is at Turn p + Shift.
// Turn is a rotation, by rows; Shift is in the run's unit.
type Frame struct {
	Turn  [9]float64
	Shift linkage.Vec
}

// Place returns where the place drawn at p is.
func (f *Frame) Place(p linkage.Vec) linkage.Vec {
	row := func(i int) float64 {
		return float64(f.Turn[i]*p.X) + float64(f.Turn[i+1]*p.Y) + float64(f.Turn[i+2]*p.Z)
	}
	return linkage.Vec{X: row(0), Y: row(3), Z: row(6)}.Add(f.Shift)
}

// SeriesKind is what a series is of.
type SeriesKind string

// The kinds of series.
const (
	SeriesPart        SeriesKind = "part"        // travel from the drawn position
	SeriesOutput      SeriesKind = "output"      // gauge reading
	SeriesRatio       SeriesKind = "ratio"       // of an output to the control
	SeriesRodAngle    SeriesKind = "rod-angle"   // to the arm that it drives
	SeriesTilt        SeriesKind = "tilt"        // of a rod end (misalignment)
	SeriesNeeded      SeriesKind = "needed"      // length that a second path would need
	SeriesTension     SeriesKind = "tension"     // of a cable of a pair
	SeriesFree        SeriesKind = "free"        // how far what a pair holds floats between its cables
	SeriesStop        SeriesKind = "stop"        // how far off a stop is; 0: it touches
	SeriesRequirement SeriesKind = "requirement" // opposite: a + b; together: a - b; steady: the change; clearance: the gap
)

// Series is a quantity that a position has.
type Series struct {
	Kind SeriesKind
	Name string // of the part (also "beam.x"), output, rod, cable, pair or stop; of a requirement its own, which may be empty
	Unit linkage.Unit
	// What it is of: the one that Kind names is set.
	Part        *linkage.Part
	Output      *linkage.Output
	Rod         *linkage.Rod
	Cable       *linkage.Cable
	Pair        *linkage.Pair
	Stop        *linkage.Stop
	Requirement *linkage.Requirement
	End         string // of a tilt: "from" or "to"

	probe   int
	degrees bool // the probe is a sine
	from    float64
}

// Position is everything told of one place of the control.
type PoseSample struct {
	At     float64    // of the control
	Values []*float64 // by Sweep.Series; nil where there is none, as of a ratio where the run is on center
	Frames []Frame    // by Sweep.Bodies
}

// Bodies returns what moves: every part that isn't fixed, then every rod with
// points of its own, in the file's order.
func (w *Sweep) Bodies() []Body {
	if !w.solved() {
		return nil
	}
	if w.only != nil {
		return w.only.bodies(w.whole.Bodies())
	}
	var list []Body
	run := w.of.m.run
	for _, p := range run.Parts {
		if p.Motion != linkage.Fixed {
			list = append(list, Body{Part: p})
		}
	}
	for _, r := range run.Rods {
		if len(r.Points) > 0 {
			list = append(list, Body{Rod: r})
		}
	}
	return list
}

// Series returns what a position tells: parts, outputs and their ratios, the
// angle of each rod, the tilt of its ends, the length that each second path
// would need, the tension of paired cables, how far off each stop is, and what each requirement follows that
// is about a quantity of its own.
func (w *Sweep) Series() []Series {
	if !w.solved() {
		return nil
	}
	if w.only != nil {
		return w.only.series(w.whole.Series())
	}
	s := w.of
	run := s.m.run
	var list []Series
	for i, t := range w.Parts {
		list = append(list, Series{Kind: SeriesPart, Name: t.Name, Unit: t.Unit, Part: t.Part, probe: s.parts[i]})
	}
	for i, t := range w.Outputs {
		list = append(list,
			Series{Kind: SeriesOutput, Name: t.Output.Name, Unit: t.Unit, Output: t.Output, probe: s.outputs[i]},
			Series{Kind: SeriesRatio, Name: t.Output.Name, Unit: t.Ratio.Unit, Output: t.Output, probe: s.ratios[i]})
	}
	for i, r := range run.Rods {
		if !r.SecondPath {
			list = append(list, Series{Kind: SeriesRodAngle, Name: r.Name, Unit: degrees, Rod: r, probe: i, degrees: true})
		} else {
			list = append(list, Series{Kind: SeriesNeeded, Name: r.Name, Unit: s.m.lengthUnit(r.In), Rod: r, probe: s.needed[i]})
		}
		for e, side := range []string{"from", "to"} {
			list = append(list, Series{Kind: SeriesTilt, Name: r.Name, Unit: degrees, Rod: r, End: side, probe: s.tilts[i][e], degrees: true})
		}
	}
	for i, c := range run.Cables {
		if s.tensions[i] >= 0 {
			list = append(list, Series{Kind: SeriesTension, Name: c.Name, Unit: s.m.lengthUnit(c.In).ForceUnit(), Cable: c, probe: s.tensions[i]})
		}
	}
	for i, p := range run.Pairs {
		if len(s.slack[i]) > 0 {
			list = append(list, Series{Kind: SeriesFree, Name: p.Name, Unit: s.m.freedomMeasure(s.m.pulls[i].freedom).unit, Pair: p, probe: s.free[i]})
		}
	}
	for i, stop := range run.Stops {
		list = append(list, Series{Kind: SeriesStop, Name: stop.Name, Unit: s.m.gapUnit(stop), Stop: stop, probe: s.stops + i})
	}
	for _, j := range s.judged {
		r := run.Requirements[j.requirement]
		from := 0.0
		switch {
		case r.Kind == linkage.Steady:
			from = s.origin.v[j.probe]
		case r.Kind == linkage.Sense || r.Kind == linkage.Travel || r.Kind == linkage.Meets || r.Kind == linkage.Reading || isPitch(r.Kind) || j.mirrored || j.apart:
			continue // told by the outputs and parts; only at neutral; two that never meet have no gap
		}
		list = append(list, Series{Kind: SeriesRequirement, Name: r.Name, Unit: j.unit, Requirement: r, probe: j.probe, from: from})
	}
	return list
}

// Position returns the position at x of the control, anywhere explored; false
// outside.
func (w *Sweep) Sample(x float64) (PoseSample, bool) {
	x, ok := w.within(x)
	if !ok {
		return PoseSample{}, false
	}
	s := w.borrow()
	defer w.giveBack(s)
	return s.sampleOf(x, w.Series(), w.Bodies())
}

// positionAt is that with what it tells known.
func (s *sweeper) sampleOf(x float64, series []Series, bodies []Body) (PoseSample, bool) {
	if !s.solveAt(x) {
		return PoseSample{}, false
	}
	p := s.p
	p.m.differentiate(&p.st, p.rates, p.input)
	at := PoseSample{At: x, Values: make([]*float64, len(series))}
	for i := range series {
		at.Values[i] = series[i].value(p)
	}
	for _, b := range bodies {
		at.Frames = append(at.Frames, p.frameOf(b))
	}
	return at, true
}

// value reads a series off the pose last solved.
func (k *Series) value(p *path) *float64 {
	q := &p.probes[k.probe]
	if q.slope && !p.rates.valid {
		return nil
	}
	v, _ := q.value(p)
	if k.degrees {
		v = asinDegrees(v)
	} else {
		v -= k.from
	}
	if math.IsNaN(v) || math.Abs(v) >= math.MaxFloat64 {
		return nil
	}
	return &v
}

// frameOf is a body's frame in the drawing's own coordinates: inside it is
// measured from the middle.
func (p *path) frameOf(b Body) Frame {
	m := p.m
	body := 0
	if b.Part != nil {
		body = m.partBody[m.run.Part(b.Part).Index]
	} else {
		body = m.rodBody[m.run.Rod(b.Rod).Index]
	}
	f := &p.st.frames[body]
	t := &f.turn
	return Frame{
		Turn: [9]float64{t[0].X, t[0].Y, t[0].Z, t[1].X, t[1].Y, t[1].Z, t[2].X, t[2].Y, t[2].Z},
		// Exactly nothing where it stands as drawn.
		Shift: f.shift.Add(m.center.Sub(t.apply(m.center))),
	}
}
