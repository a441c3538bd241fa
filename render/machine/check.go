package machine

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"io"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/solve"
)

// checkSchema is the name and version of what is written about a check. A key that
// changes its meaning takes a new number, here and in the other schemas.
const checkSchema = "fullfree.check/1"

// The pointers below become null where there is no figure.

type checkJSON struct {
	Schema       string            `json:"schema"`
	File         string            `json:"file"`
	Run          string            `json:"run"`
	Aircraft     string            `json:"aircraft,omitempty"`
	Runs         []memberJSON      `json:"runs,omitempty"`        // of an aircraft
	Units        *string           `json:"units"`                 // null for an aircraft: each run has its own
	Temperature  *float64          `json:"temperature,omitempty"` // degrees Celsius; only of a run looked at at another than it was rigged at
	Holds        *bool             `json:"holds"`
	Requirements []requirementJSON `json:"requirements"`
	NotChecked   []string          `json:"not_checked"`
	NotJudged    []string          `json:"not_judged"` // which way they go
	// CyclicNotJudged are the controls of which it wasn't judged where around the turn they
	// take the pitch off a blade, with the blade's output; left out where there is none.
	CyclicNotJudged []cyclicWayJSON  `json:"cyclic_not_judged,omitempty"`
	Assumed         []string         `json:"assumed"` // what the file leaves to be taken for granted, a sentence each
	Sweeps          []checkSweepJSON `json:"sweeps"`
	Rotor           *rotorJSON       `json:"rotor,omitempty"`    // only where the run has one that turns
	LeftOut         *leftOutJSON     `json:"left_out,omitempty"` // only where something was
}

// memberJSON is a run of an aircraft.
type memberJSON struct {
	Name   string       `json:"name"`
	File   string       `json:"file"`
	SHA256 string       `json:"sha256"`
	Units  linkage.Unit `json:"units"`
}

// inRunJSON is the run of an aircraft that something is of: its name in quotes, null for
// what is across runs; nothing where there is no aircraft.
type inRunJSON = json.RawMessage

// inRun names the member that something of a run is of.
func inRun(run *linkage.Run, in *linkage.Member) inRunJSON {
	switch {
	case run.Aircraft == nil:
		return nil
	case in == nil:
		return inRunJSON("null")
	}
	text, err := json.Marshal(in.Name)
	if err != nil {
		return inRunJSON("null")
	}
	return text
}

type requirementJSON struct {
	Kind      string       `json:"kind"`
	Name      string       `json:"name"`
	Run       inRunJSON    `json:"run,omitempty"`
	Holds     *bool        `json:"holds"`
	Worst     *float64     `json:"worst"`
	At        *float64     `json:"at"`
	Sweep     int          `json:"sweep"`
	Limit     float64      `json:"limit"`
	Unit      linkage.Unit `json:"unit"`
	Band      *float64     `json:"band"`
	Sure      *bool        `json:"sure"`
	NoneFound bool         `json:"none_found,omitempty"`
	LeastAt   *leastAtJSON `json:"least_pitch,omitempty"` // cyclic-sense: where it is, at the worst setting
	Says      string       `json:"says"`
}

type checkSweepJSON struct {
	Control  controlJSON        `json:"control"`
	Held     map[string]float64 `json:"held"`
	Ends     endsJSON           `json:"ends"`
	Stops    []stopJSON         `json:"stops"`
	Parts    []partJSON         `json:"parts"`
	Outputs  []outputJSON       `json:"outputs"`
	Rods     []rodJSON          `json:"rods"`
	Cables   []cableJSON        `json:"cables"`
	Lost     *lostMotionJSON    `json:"lost_motion"` // null where nothing floats
	Critical []criticalJSON     `json:"critical"`
	FreePlay []freePlayJSON     `json:"free_play,omitempty"` // only where some joint is said to give
}

// freePlayJSON is how far a control can be rocked with the outputs held, or an output with
// the control held, from one end of the rock to the other.
type freePlayJSON struct {
	Of        string       `json:"of"`
	Unit      linkage.Unit `json:"unit"`
	AtNeutral *float64     `json:"at_neutral"`
	Most      *float64     `json:"most"`
	At        *float64     `json:"at"`              // of the control, where it is most; null: the same everywhere
	Least     *float64     `json:"least,omitempty"` // there, where two drawings of one joint don't tell how it adds up
	RSS       *float64     `json:"rss"`             // there, in root sum of squares
	AtPoint   *float64     `json:"at_point"`        // most, at the hand's or the output's point, run units; null where it is a length already, or no point is known
	Joints    []jointJSON  `json:"joints"`          // the one that gives most first
}

type jointJSON struct {
	Joint string  `json:"joint"`
	By    float64 `json:"by"`
}

func freePlayOf(s *solve.Sweep) (list []freePlayJSON) {
	for _, f := range s.FreePlay {
		told := freePlayJSON{f.Of.Name(), f.Unit, f.AtNeutral, f.Most, f.At, f.Least, f.RSS, f.AtPoint, []jointJSON{}}
		for _, j := range f.Joints {
			told.Joints = append(told.Joints, jointJSON{j.String(), j.By})
		}
		list = append(list, told)
	}
	return list
}

type controlJSON struct {
	Name     string       `json:"name"`
	Part     string       `json:"part"`
	Unit     linkage.Unit `json:"unit"`
	Low      float64      `json:"low"`
	High     float64      `json:"high"`
	Explored [2]float64   `json:"explored"`
}

type endsJSON struct {
	Low  endJSON `json:"low"`
	High endJSON `json:"high"`
}

type endJSON struct {
	At    float64  `json:"at"`
	Cause string   `json:"cause"`
	By    *string  `json:"by"`
	Wear  *float64 `json:"wear"`
	// Slack is only there where past this stop a cable that only pulls goes slack.
	Slack *slackEndJSON `json:"slack,omitempty"`
}

// slackEndJSON is how the control itself goes on past a stop that doesn't hold it.
type slackEndJSON struct {
	Cable string `json:"cable"`
	Holds bool   `json:"holds"` // some later stop holds the control itself
	// Past is how the control ends then, in the same keys; its cause may be "cable"
	// besides: the cable comes taut again and pulls the part that is named off the
	// stop. Null where it can't be told.
	Past *endJSON `json:"past"`
}

type stopJSON struct {
	Name  string    `json:"name"`
	Run   inRunJSON `json:"run,omitempty"`
	At    *float64  `json:"at"` // null: nowhere explored
	Bites bool      `json:"bites"`
	Miss  *missJSON `json:"miss,omitempty"` // only where it is missed, or bites past on center
}

// missJSON is how a stop is missed on one side of the travel, or what of its gap is
// left on center before it bites.
type missJSON struct {
	Side     string       `json:"side"` // "low" or "high"
	Late     bool         `json:"late"` // it does bite on that side, but past on center
	Gap      float64      `json:"gap"`  // what is left, in unit: the least on that side, or that on center
	Unit     linkage.Unit `json:"unit"`
	At       float64      `json:"at"`        // of the control, there
	OnCenter *string      `json:"on_center"` // the kind of the on-center point there; null where it just comes no nearer
	After    *float64     `json:"after"`     // how far past on center the control comes to the stop, or would if only what locks up let it; null: not met, or not defined
	Near     bool         `json:"near"`      // gap or after is no more than a millimeter or a degree
}

type extentJSON struct {
	Neutral float64 `json:"neutral"`
	AtLow   float64 `json:"at_low"`
	AtHigh  float64 `json:"at_high"`
	Least   float64 `json:"least"`
	Most    float64 `json:"most"`
}

type partJSON struct {
	Name string       `json:"name"`
	Run  inRunJSON    `json:"run,omitempty"`
	Unit linkage.Unit `json:"unit"`
	extentJSON
}

type outputJSON struct {
	Name string       `json:"name"`
	Run  inRunJSON    `json:"run,omitempty"`
	Unit linkage.Unit `json:"unit"`
	extentJSON
	Ratio ratioJSON `json:"ratio"`
	Turn  *turnJSON `json:"turn,omitempty"` // only where the control makes a full turn, of what comes round again
}

type ratioJSON struct {
	Unit    linkage.Unit `json:"unit"`
	Neutral *float64     `json:"neutral"`
	Least   *float64     `json:"least"`
	Most    *float64     `json:"most"`
}

type rodJSON struct {
	Name         string          `json:"name"`
	Run          inRunJSON       `json:"run,omitempty"`
	Length       float64         `json:"length"`
	Drawn        float64         `json:"drawn"`
	Misalignment tiltJSON        `json:"misalignment"`
	Angle        *rodAngle       `json:"angle"`       // null for a second path, which drives nothing
	SecondPath   *secondPathJSON `json:"second_path"` // null for a rod that drives
}

type secondPathJSON struct {
	NeedsLeast float64  `json:"needs_least"`
	NeedsMost  float64  `json:"needs_most"`
	Misfit     float64  `json:"misfit"`
	At         *float64 `json:"at"`
	BestLength float64  `json:"best_length"`
}

type tiltJSON struct {
	From float64 `json:"from"`
	To   float64 `json:"to"`
}

type rodAngle struct {
	Least float64  `json:"least"`
	At    *float64 `json:"at"`
	Part  string   `json:"part"`
}

type criticalJSON struct {
	Kind   string  `json:"kind"`
	At     float64 `json:"at"`
	Part   string  `json:"part"`
	Rod    *string `json:"rod"`
	Margin float64 `json:"margin"`
}

// CheckJSON writes a result for machines, at full precision. File is the name
// of the file as the user gave it. The error is the writer's.
func CheckJSON(w io.Writer, file string, r *solve.Result) error {
	if err := r.Whole(); err != nil {
		return err
	}
	return writeJSON(w, checkOf(file, r))
}

func checkOf(file string, r *solve.Result) checkJSON {
	out := checkJSON{
		Schema:       checkSchema,
		File:         file,
		Run:          r.Run.Name,
		Units:        unitsOf(r.Run),
		Temperature:  r.Run.Temperature,
		Holds:        threeValued(r.Verdict),
		Requirements: []requirementJSON{},
		NotChecked:   []string{},
		NotJudged:    []string{},
		Assumed:      render.CheckAssumes(r),
		Sweeps:       []checkSweepJSON{},
	}
	if r.Run.Aircraft != nil {
		out.Aircraft, out.Runs = r.Run.Name, membersOf(r.Run)
	}
	says := newTeller(r)
	for _, j := range everyJudgement(r) {
		out.Requirements = append(out.Requirements, requirementJSON{
			Kind:      string(j.Requirement.Kind),
			Name:      j.Requirement.Name,
			Run:       inRun(r.Run, j.Member()),
			Holds:     threeValued(j.Verdict),
			Worst:     j.Worst,
			At:        j.At,
			Sweep:     j.Sweep,
			Limit:     j.Limit,
			Unit:      j.Unit,
			Band:      j.Band,
			Sure:      j.Sure,
			NoneFound: j.NoneFound,
			LeastAt:   leastAt(j),
			Says:      says.of(j),
		})
	}
	for _, s := range r.NotJudged {
		out.NotJudged = append(out.NotJudged, s.Name())
	}
	for _, k := range r.CyclicNotJudged {
		out.CyclicNotJudged = append(out.CyclicNotJudged, cyclicWayJSON{k.Control.Name, k.Output.Name})
	}
	for _, kind := range r.NotChecked {
		out.NotChecked = append(out.NotChecked, string(kind))
	}
	for _, s := range r.Sweeps {
		out.Sweeps = append(out.Sweeps, sweepOf(r.Run, s))
	}
	out.Rotor, out.LeftOut = rotorOf(r.Rotor), leftOutOf(r)
	return out
}

func sweepOf(run *linkage.Run, s *solve.Sweep) checkSweepJSON {
	out := checkSweepJSON{
		Control: controlJSON{
			Name: s.Control.Name, Part: s.Control.Of.Name, Unit: s.Unit,
			Low: s.Low, High: s.High, Explored: s.Explored,
		},
		Held:     map[string]float64{},
		Ends:     endsJSON{endOf(s.Ends[0]), endOf(s.Ends[1])},
		Stops:    []stopJSON{},
		Parts:    []partJSON{},
		Outputs:  []outputJSON{},
		Rods:     []rodJSON{},
		Cables:   cablesOf(s),
		Lost:     lostMotionOf(s),
		Critical: []criticalJSON{},
		FreePlay: freePlayOf(s),
	}
	for _, h := range s.Held {
		out.Held[h.Control.Name] = h.At
	}
	for _, b := range s.Stops {
		out.Stops = append(out.Stops, stopJSON{b.Stop.Name, inRun(run, b.Stop.In), b.At, b.Bites, missOf(b.Miss)})
	}
	for _, p := range s.Parts {
		out.Parts = append(out.Parts, partJSON{p.Name, inRun(run, p.Part.In), p.Unit, extentJSON(p.Extent)})
	}
	for _, o := range s.Outputs {
		out.Outputs = append(out.Outputs, outputJSON{o.Output.Name, inRun(run, o.Output.In), o.Unit, extentJSON(o.Extent), ratioJSON{o.Ratio.Unit, o.Ratio.Neutral, o.Ratio.Least, o.Ratio.Most}, turnOf(run, o)})
	}
	for _, rod := range s.Rods {
		told := rodJSON{
			Name: rod.Rod.Name, Run: inRun(run, rod.Rod.In), Length: rod.Length, Drawn: rod.Rod.Drawn,
			Misalignment: tiltJSON{rod.TiltFrom, rod.TiltTo},
		}
		if fit := rod.SecondPath; fit != nil {
			told.SecondPath = &secondPathJSON{fit.NeedsLeast, fit.NeedsMost, fit.Misfit, fit.At, fit.BestLength}
		} else {
			angle := rodAngle(rod.Angle)
			told.Angle = &angle
		}
		out.Rods = append(out.Rods, told)
	}
	for _, c := range s.Critical {
		at := criticalJSON{Kind: string(c.Kind), At: c.At, Part: c.Name(), Margin: c.Margin}
		switch {
		case c.Rod != nil:
			at.Rod = &c.Rod.Name
		case c.Cable != nil:
			at.Rod = &c.Cable.Name
		case c.Joint != nil:
			at.Rod = &c.Joint.Name
		}
		out.Critical = append(out.Critical, at)
	}
	return out
}

func missOf(m *solve.StopMiss) *missJSON {
	if m == nil {
		return nil
	}
	out := &missJSON{Side: m.Side, Late: m.Late, Gap: m.Gap, Unit: m.Unit, At: m.At, After: m.After, Near: m.Near}
	if m.OnCenter != nil {
		kind := string(m.OnCenter.Kind)
		out.OnCenter = &kind
	}
	return out
}

func endOf(e solve.End) endJSON {
	out := endJSON{At: e.At, Cause: string(e.Cause), Wear: e.Wear}
	if e.Slack != nil {
		out.Slack = &slackEndJSON{Cable: e.Slack.Name, Holds: e.HoldsControl()}
		if e.Past != nil {
			past := endOf(*e.Past)
			out.Slack.Past = &past
		}
	}
	switch {
	case e.Stop != nil:
		out.By = &e.Stop.Name
	case e.Part != nil:
		out.By = &e.Part.Name
	}
	return out
}

// everyJudgement lists the requirements in the file's order, then the labels that could be
// judged, then what can't be set so.
func everyJudgement(r *solve.Result) (list []*solve.Judgement) {
	for i := range r.Requirements {
		list = append(list, &r.Requirements[i])
	}
	for i := range r.Labels {
		list = append(list, &r.Labels[i])
	}
	return append(list, r.Settings()...)
}

// unitsOf is the unit of a run; nil of an aircraft, whose runs have each their own.
func unitsOf(run *linkage.Run) *string {
	if run.Aircraft != nil {
		return nil
	}
	units := string(run.Units)
	return &units
}

// membersOf lists the runs of an aircraft.
func membersOf(run *linkage.Run) (list []memberJSON) {
	for _, m := range run.Aircraft.Members {
		sum := sha256.Sum256(m.Source.Text)
		list = append(list, memberJSON{m.Name, m.File, hex.EncodeToString(sum[:]), m.Run.Units})
	}
	return list
}

// teller tells each judgement in the words and units of the run that it is of.
type teller struct {
	whole *solve.Result
	runs  map[*linkage.Member]*tellerRun
}

// tellerRun is one run's result, and how many of its judgements of each list were told.
type tellerRun struct {
	only  *solve.Result
	judge []*solve.Judgement
}

func newTeller(r *solve.Result) *teller {
	t := &teller{whole: r, runs: map[*linkage.Member]*tellerRun{}}
	if r.Run.Aircraft != nil {
		for i, only := range r.Runs() {
			t.runs[r.Run.Aircraft.Members[i]] = &tellerRun{only, everyJudgement(only)}
		}
	}
	return t
}

// of tells the next judgement; they are asked for in the order of everyJudgement.
func (t *teller) of(j *solve.Judgement) string {
	own := t.runs[j.Member()]
	if own == nil || len(own.judge) == 0 {
		return render.Says(t.whole, j)
	}
	next := own.judge[0]
	own.judge = own.judge[1:]
	return render.Says(own.only, next)
}
