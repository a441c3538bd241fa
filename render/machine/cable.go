package machine

import (
	"fullfree/linkage"
	"fullfree/render"
	"fullfree/solve"
)

// cableJSON is how one cable is drawn in a sweep. Tensions are null for a cable
// that acts alone, whose tension isn't known.
type cableJSON struct {
	Name    string        `json:"name"`
	Unit    linkage.Unit  `json:"unit"`
	Neutral *float64      `json:"neutral"`
	Least   *float64      `json:"least"`
	Most    *float64      `json:"most"`
	At      *float64      `json:"at"`
	Slack   []stretchJSON `json:"slack"`
}

// stretchJSON is a stretch of a control's travel.
type stretchJSON struct {
	From float64 `json:"from"`
	To   float64 `json:"to"`
}

type lostMotionJSON struct {
	Part string       `json:"part"`
	Unit linkage.Unit `json:"unit"`
	Most float64      `json:"most"`
	At   float64      `json:"at"`
}

func cablesOf(s *solve.Sweep) []cableJSON {
	list := []cableJSON{}
	for _, c := range s.Cables {
		told := cableJSON{Name: c.Cable.Name, Unit: c.Unit, Neutral: c.Neutral, Least: c.Least, Most: c.Most, At: c.At, Slack: []stretchJSON{}}
		for _, slack := range c.Slack {
			told.Slack = append(told.Slack, stretchJSON{slack[0], slack[1]})
		}
		list = append(list, told)
	}
	return list
}

func lostMotionOf(s *solve.Sweep) *lostMotionJSON {
	if s.LostMotion == nil {
		return nil
	}
	return &lostMotionJSON{s.LostMotion.Part.Name, s.LostMotion.Unit, s.LostMotion.Most, s.LostMotion.At}
}

// cableEffectJSON is what a turn out of an adjuster does in one sweep. Low and
// High are of the ends of the travel; null: no telling.
type cableEffectJSON struct {
	Cable        string          `json:"cable"`
	Sweep        int             `json:"sweep"`
	Side         string          `json:"side"`
	PerTurn      []perTurnJSON   `json:"per_turn"` // parts, outputs, then the tension of cables of pairs
	Low          *float64        `json:"low"`
	High         *float64        `json:"high"`
	Requirements []worstTurnJSON `json:"requirements"`
}

// worstTurnJSON is how far the worst value of a requirement goes for a turn out.
type worstTurnJSON struct {
	Kind    string       `json:"kind"`
	Name    string       `json:"name"`
	Unit    linkage.Unit `json:"unit"`
	PerTurn *float64     `json:"per_turn"` // null: no telling
}

// centeringJSON is how a pair is to be set so that what it holds stands as drawn;
// turns is null where a cable has no adjuster.
type centeringJSON struct {
	Pair    string              `json:"pair"`
	Part    *string             `json:"part"`
	Tension map[string]float64  `json:"tension"`
	Turns   *map[string]float64 `json:"turns"` // out positive
}

func cableEffectsOf(r *solve.Result, effects []solve.CableEffect) []cableEffectJSON {
	list := []cableEffectJSON{}
	for _, e := range effects {
		told := cableEffectJSON{Cable: e.End.Cable.Name, Sweep: e.Sweep, Side: e.End.Side, PerTurn: perTurnsOf(e.PerTurn), Low: e.Low, High: e.High, Requirements: []worstTurnJSON{}}
		for i, per := range e.Worst {
			j := &r.Requirements[i]
			told.Requirements = append(told.Requirements, worstTurnJSON{string(j.Requirement.Kind), j.Requirement.Name, j.Unit, per})
		}
		list = append(list, told)
	}
	return list
}

func centeringsOf(run *linkage.Run, centerings []*solve.Centering) []centeringJSON {
	list := []centeringJSON{}
	for i, c := range centerings {
		told := centeringJSON{Pair: run.Pairs[i].Name, Tension: map[string]float64{}}
		if c != nil {
			turns := map[string]float64{}
			for k, cable := range c.Pair.Cables {
				told.Tension[cable.Name] = c.Tension[k]
				turns[c.Ends[k].String()] = c.Turns[k]
			}
			told.Part, told.Turns = &c.Part.Name, &turns
		}
		list = append(list, told)
	}
	return list
}

// setCableJSON is how a cable is set.
type setCableJSON struct {
	Name      string       `json:"name"`
	Core      *float64     `json:"core"`  // outside the conduit with no load on it; null for an open cable
	Drawn     *float64     `json:"drawn"` // null for an open cable
	CableEnds []setEndJSON `json:"cable_ends"`
}

func setCablesOf(run *linkage.Run) []setCableJSON {
	list := []setCableJSON{}
	for _, c := range run.Cables {
		set := setCableJSON{Name: c.Name, Core: render.CoreOf(c), CableEnds: []setEndJSON{}}
		if !c.Open() {
			set.Drawn = &c.Drawn
		}
		for _, e := range c.Ends {
			set.CableEnds = append(set.CableEnds, setEndJSON{e.Side, e.Engaged, e.Spare()})
		}
		list = append(list, set)
	}
	return list
}
