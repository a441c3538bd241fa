package machine

import (
	"io"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/solve"
)

// effectSchema is the name and version of what is written about what turns do.
const effectSchema = "fullfree.effect/1"

type effectJSON struct {
	Schema    string            `json:"schema"`
	RodEnds   []endEffectJSON   `json:"rod_ends"`
	CableEnds []cableEffectJSON `json:"cable_ends"`
	Pairs     []centeringJSON   `json:"pairs"`
	Assumed   []string          `json:"assumed"`            // as in the check's
	LeftOut   *leftOutJSON      `json:"left_out,omitempty"` // only where something was
}

type endEffectJSON struct {
	Rod     string        `json:"rod"`
	Sweep   int           `json:"sweep"`
	Side    string        `json:"side"`
	PerTurn []perTurnJSON `json:"per_turn"`
}

type perTurnJSON struct {
	Name    string       `json:"name"`
	Unit    linkage.Unit `json:"unit"`
	Neutral *float64     `json:"neutral"` // null where a part stands on center
	AtLow   *float64     `json:"at_low"`
	AtHigh  *float64     `json:"at_high"`
	Around  *float64     `json:"around,omitempty"` // the mean over a full turn of the control; only of what comes round again
}

// EffectJSON writes what a turn of every rod end and nut does for machines, at full
// precision. The error is the writer's.
func EffectJSON(w io.Writer, r *solve.Result, effects render.Effects) error {
	if err := r.Whole(); err != nil {
		return err
	}
	out := effectJSON{Schema: effectSchema, RodEnds: []endEffectJSON{}, CableEnds: cableEffectsOf(r, effects.Cables), Pairs: centeringsOf(r.Run, effects.Centerings), Assumed: render.CheckAssumes(r), LeftOut: leftOutOf(r)}
	for _, e := range effects.Rods {
		out.RodEnds = append(out.RodEnds, endEffectJSON{Rod: e.End.Rod.Name, Sweep: e.Sweep, Side: e.End.Side, PerTurn: perTurnsOf(e.PerTurn)})
	}
	return writeJSON(w, out)
}

func perTurnsOf(list []solve.PerTurn) []perTurnJSON {
	told := []perTurnJSON{}
	for _, t := range list {
		told = append(told, perTurnJSON(t))
	}
	return told
}
