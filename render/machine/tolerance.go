package machine

import (
	"io"
	"math"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/solve/tolerance"
)

// toleranceSchema is the name and version of what is written about builds.
const toleranceSchema = "fullfree.tolerance/1"

type toleranceJSON struct {
	Schema       string        `json:"schema"`
	File         string        `json:"file"`
	Run          string        `json:"run"`
	Units        linkage.Unit  `json:"units"`
	Builds       int           `json:"builds"` // made
	Asked        int           `json:"asked"`  // more where it was stopped
	Seed         uint64        `json:"seed"`
	Bell         bool          `json:"bell"`
	Rigged       []string      `json:"rigged"`     // rods set to the pins, stops to the travel, in every build
	Open         int           `json:"open"`       // builds that can't be assembled: they fail in everything
	Everywhere   int           `json:"everywhere"` // builds looked at in every step too
	Missed       int           `json:"missed"`     // of these, where something came out otherwise
	Redone       bool          `json:"redone"`     // so that all were looked at in every step
	Dimensions   []outByJSON   `json:"dimensions"`
	Requirements []outcomeJSON `json:"requirements"`
	Alone        []aloneJSON   `json:"alone"`
}

type outByJSON struct {
	Dimension string       `json:"dimension"`
	Value     float64      `json:"value"`
	By        float64      `json:"by"` // half-width; of what is rigged half a step
	Unit      linkage.Unit `json:"unit"`
	Rigged    bool         `json:"rigged"`
}

type outcomeJSON struct {
	Kind        string           `json:"kind"`
	Name        string           `json:"name"`
	Unit        linkage.Unit     `json:"unit"`
	Limit       float64          `json:"limit"`
	Nominal     *float64         `json:"nominal"` // worst, without anything out
	Fails       int              `json:"fails"`
	Untold      int              `json:"untold"` // of these, where it can't be judged
	Share       float64          `json:"share"`
	Low         float64          `json:"low"`
	High        float64          `json:"high"`
	Percentiles *percentilesJSON `json:"percentiles"`
	Worst       *worstJSON       `json:"worst"`
	Blame       []blameJSON      `json:"blame"`
	Linear      *float64         `json:"linear"`
	Says        string           `json:"says"`
}

type percentilesJSON struct {
	P5  float64 `json:"5"`
	P50 float64 `json:"50"`
	P95 float64 `json:"95"`
}

type worstJSON struct {
	Value  float64            `json:"value"`
	Number int                `json:"number"` // of the build
	Build  map[string]float64 `json:"build"`
}

type blameJSON struct {
	Dimension string  `json:"dimension"`
	Share     float64 `json:"share"`
}

// aloneJSON is how far one dimension may be out by itself, both ways counted from 0.
type aloneJSON struct {
	Dimension string       `json:"dimension"`
	Unit      linkage.Unit `json:"unit"`
	By        float64      `json:"by"`
	Minus     *float64     `json:"minus"` // null: nothing fails as far as was looked
	Plus      *float64     `json:"plus"`
	Fails     *string      `json:"fails"` // what fails first, on the nearer side
	// What fails on each side.
	MinusFails *string `json:"minus_fails"`
	PlusFails  *string `json:"plus_fails"`
	Looked     float64 `json:"looked"`
}

// ToleranceJSON writes what became of builds for machines, at full precision. File is the
// name of the file as the user gave it. The error is the writer's.
func ToleranceJSON(w io.Writer, file string, a *tolerance.Answer) error {
	if err := a.Whole(); err != nil {
		return err
	}
	run := a.Nominal.Run
	out := toleranceJSON{
		Schema: toleranceSchema, File: file, Run: run.Name, Units: run.Units, Builds: a.Builds, Asked: a.Asked, Seed: a.Seed, Bell: a.Bell,
		Rigged: []string{}, Open: a.Open, Everywhere: a.Everywhere, Missed: a.Missed, Redone: a.Redone,
		Dimensions: []outByJSON{}, Requirements: []outcomeJSON{}, Alone: []aloneJSON{},
	}
	for _, r := range a.RiggedRods {
		out.Rigged = append(out.Rigged, r.Name)
	}
	for _, s := range a.RiggedStops {
		out.Rigged = append(out.Rigged, s.Name)
	}
	for _, d := range a.Dimensions {
		out.Dimensions = append(out.Dimensions, outByJSON{d.Name, d.Value, d.By, d.Unit, d.Rigged})
	}
	for i := range a.Outcomes {
		out.Requirements = append(out.Requirements, outcomeOf(a, &a.Outcomes[i]))
	}
	for i := range a.Alone {
		out.Alone = append(out.Alone, aloneOf(a, &a.Alone[i]))
	}
	return writeJSON(w, out)
}

func outcomeOf(a *tolerance.Answer, o *tolerance.Outcome) outcomeJSON {
	out := outcomeJSON{
		Kind: string(o.Requirement.Kind), Name: o.Requirement.Name, Unit: o.Unit, Limit: o.Limit, Nominal: o.Nominal,
		Fails: o.Fails(), Untold: o.Untold, Share: o.Share, Low: o.Low, High: o.High, Blame: []blameJSON{}, Linear: o.Linear,
		Says: render.OutcomeSays(a, o),
	}
	if p := o.Percentiles; p != nil {
		out.Percentiles = &percentilesJSON{p[0], p[1], p[2]}
	}
	if o.Worst != nil {
		out.Worst = &worstJSON{o.Worst.Value, o.Worst.Number, map[string]float64{}}
		for _, v := range o.Worst.Build {
			out.Worst.Build[v.Name] = v.Value
		}
	}
	for _, b := range o.Blame {
		out.Blame = append(out.Blame, blameJSON(b))
	}
	return out
}

func aloneOf(a *tolerance.Answer, k *tolerance.Alone) aloneJSON {
	out := aloneJSON{Dimension: k.Dimension, Unit: k.Unit, By: k.By, Minus: k.Minus, Plus: k.Plus, Looked: k.Looked}
	name := func(far *float64, r *linkage.Requirement, open bool) *string {
		if far == nil {
			return nil
		}
		said := render.AloneFails(a, r, open)
		return &said
	}
	out.MinusFails, out.PlusFails = name(k.Minus, k.MinusFails, k.MinusOpen), name(k.Plus, k.PlusFails, k.PlusOpen)
	minus, plus := math.Inf(1), math.Inf(1)
	if k.Minus != nil {
		minus = *k.Minus
	}
	if k.Plus != nil {
		plus = *k.Plus
	}
	if out.Fails = out.PlusFails; minus <= plus {
		out.Fails = out.MinusFails
	}
	return out
}
