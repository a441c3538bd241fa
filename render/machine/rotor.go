package machine

import (
	"fullfree/linkage"
	"fullfree/solve"
)

// turnJSON is how an output goes over a full turn of the control, as a sinusoid of one
// turn. Amplitude, mean and residue are in the output's unit.
type turnJSON struct {
	Mean        float64  `json:"mean"`
	Amplitude   float64  `json:"amplitude"`
	MostAt      *float64 `json:"most_at"`                // of the control, degrees; null where the amplitude is too little to tell
	MostAzimuth *float64 `json:"most_azimuth,omitempty"` // of a blade: from over the tail, counted with the rotation
	Residue     float64  `json:"residue"`                // the most that the output is off the sinusoid
}

// turnOf is that of an output; nil where the control makes no full turn.
func turnOf(run *linkage.Run, o solve.OutputTravel) *turnJSON {
	k := o.Cycle
	if k == nil {
		return nil
	}
	told := &turnJSON{Mean: k.Mean, Amplitude: k.Amplitude, MostAt: k.MostAt, Residue: k.Residue}
	if b, ok := solve.BladeOf(run, o.Output); ok && k.MostAt != nil {
		at := b.At(*k.MostAt)
		told.MostAzimuth = &at
	}
	return told
}

// rotorJSON is what the controls of a rotor do to the pitch of its blades.
type rotorJSON struct {
	Turns      string      `json:"turns"` // "anticlockwise" or "clockwise", seen from above
	Azimuth    string      `json:"azimuth"`
	Collective *string     `json:"collective"` // null where no control moves the mean more than the cyclic pitch
	At         []float64   `json:"collective_at"`
	Cyclic     []stickJSON `json:"cyclic"`
	// CyclicByCollective is the most that the collective changes the cyclic pitch, and
	// CollectiveByCyclic the most that full cyclic changes the collective; degrees.
	CyclicByCollective *float64         `json:"cyclic_by_collective"`
	CollectiveByCyclic *float64         `json:"collective_by_cyclic"`
	Differ             *float64         `json:"blades_differ"` // at one azimuth, degrees; null of one blade
	Blades             []bladePitchJSON `json:"blades"`
}

// stickJSON is a control of the cyclic pitch, and which way the hand goes to the ends of
// its travel; empty where the file doesn't say.
type stickJSON struct {
	Control string                `json:"control"`
	At      [2]float64            `json:"at"`
	Toward  [2]linkage.Direction  `json:"toward"`
	Blades  [2][]stickAzimuthJSON `json:"least"` // by end, then by blade
}

// stickAzimuthJSON is where the stick all the way to one end takes off most pitch, and how
// much, degrees.
type stickAzimuthJSON struct {
	Azimuth *float64 `json:"azimuth"`
	By      float64  `json:"by"`
}

// bladePitchJSON is the pitch of one blade, plus with the leading edge up where the file says
// which edge leads.
type bladePitchJSON struct {
	Output      string          `json:"output"`
	Azimuth     float64         `json:"azimuth"`      // with the control at neutral
	LeadingEdge bool            `json:"leading_edge"` // the file says which it is
	Pitch       []pitchCellJSON `json:"pitch"`
}

// pitchCellJSON is the pitch around a turn at one setting.
type pitchCellJSON struct {
	Held      map[string]float64 `json:"held"` // all others stand at neutral
	Mean      *float64           `json:"mean"` // null where the run can't be set so
	Amplitude *float64           `json:"amplitude"`
	MostAt    *float64           `json:"most_at"` // azimuth; null too where the amplitude is too little to tell
	OverTail  *float64           `json:"over_tail"`
	OverRight *float64           `json:"over_right"`
	OverNose  *float64           `json:"over_nose"`
	OverLeft  *float64           `json:"over_left"`
}

// leastAtJSON is where around the turn pitch is least by what the hand does.
type leastAtJSON struct {
	Azimuth *float64 `json:"azimuth"` // degrees from over the tail, with the rotation; null where too little moves to tell
	By      float64  `json:"by"`      // how far the hand moves the cyclic pitch, degrees
	Toward  bool     `json:"toward"`  // the hand is where the requirement's when says, else the other way
}

// leastAt is that of a judgement; nil where there is none.
func leastAt(j *solve.Judgement) *leastAtJSON {
	switch {
	case j.Requirement.Kind != linkage.CyclicSense:
		return nil
	case j.Worst != nil:
		return &leastAtJSON{&j.Reaches, j.By, j.End == "there"}
	case j.Why == solve.TooLittleCyclic:
		return &leastAtJSON{By: j.By}
	}
	return nil
}

// cyclicWayJSON is a control and the output of a blade whose cyclic pitch it moves.
type cyclicWayJSON struct {
	Control string `json:"control"`
	Output  string `json:"output"`
}

func rotorOf(r *solve.Rotor) *rotorJSON {
	if r == nil {
		return nil
	}
	out := &rotorJSON{Turns: "anticlockwise", Azimuth: r.Azimuth.Name, At: []float64{}, Cyclic: []stickJSON{}}
	if r.Rotor.Clockwise {
		out.Turns = "clockwise"
	}
	if r.Collective != nil {
		out.Collective, out.At = &r.Collective.Name, r.At[:]
	}
	figure := func(v float64, ok bool) *float64 {
		if !ok {
			return nil
		}
		return &v
	}
	out.CyclicByCollective, out.CollectiveByCyclic, out.Differ = figure(r.CyclicByCollective()), figure(r.CollectiveByCyclic()), figure(r.Differ())
	for i, s := range r.Sticks {
		told := stickJSON{Control: s.Control.Name, At: s.At, Toward: s.Toward}
		for end := range told.Blades {
			told.Blades[end] = []stickAzimuthJSON{}
			for b := range r.Blades {
				at, by := r.LeastWith(&r.Blades[b], i, end)
				told.Blades[end] = append(told.Blades[end], stickAzimuthJSON{at, by})
			}
		}
		out.Cyclic = append(out.Cyclic, told)
	}
	for i := range r.Blades {
		b := &r.Blades[i]
		told := bladePitchJSON{Output: b.Output.Name, Azimuth: b.Azimuth, LeadingEdge: b.Pitch != 0, Pitch: []pitchCellJSON{}}
		for k := range b.Cells {
			told.Pitch = append(told.Pitch, pitchCellOf(r, &b.Cells[k]))
		}
		out.Blades = append(out.Blades, told)
	}
	return out
}

func pitchCellOf(r *solve.Rotor, c *solve.PitchCell) pitchCellJSON {
	out := pitchCellJSON{Held: map[string]float64{}}
	if r.Collective != nil {
		out.Held[r.Collective.Name] = r.At[c.Collective]
	}
	if c.Stick >= 0 {
		out.Held[r.Sticks[c.Stick].Control.Name] = r.Sticks[c.Stick].At[c.End]
	}
	if c.Told {
		out.Mean, out.Amplitude, out.MostAt = &c.Mean, &c.Amplitude, c.MostAt
		out.OverTail, out.OverRight, out.OverNose, out.OverLeft = &c.At[0], &c.At[1], &c.At[2], &c.At[3]
	}
	return out
}
