package page

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"io"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/render/picture"
	"fullfree/solve"
)

// Trial is a setting as it is tried on the workbench, beside the run as filed.
type Trial struct {
	Hash       string // of the file
	Filed, Now render.Variant
	Pose       WorkbenchPose
	// Travel and FiledTravel are each control's sweep, in the file's order, with
	// the others where they stand; nil where there they hinder it.
	Travel, FiledTravel []*solve.Sweep
	Writes              []Written // what saving would write
	Unsaveable          string    // why it can't be saved; empty: it can
	NoBands             bool      // how sure the answers are was left out
}

// WorkbenchStand is where a run stands on the workbench.
type WorkbenchPose struct {
	Run    *linkage.Run
	Sweep  *solve.Sweep // of the control that is moved, the others where they stand
	At     []float64    // of every control, in the file's order
	Sample solve.PoseSample
	// Filed is where the run as filed would stand with the controls there; nil
	// where nothing is tried, or where they don't get there.
	Filed *solve.PoseSample
}

type poseJSON struct {
	Moves  string               `json:"moves"`
	At     map[string]float64   `json:"at"`
	Low    float64              `json:"low"` // the travel of what moves
	High   float64              `json:"high"`
	Sample picture.MotionSample `json:"position"`
	Filed  []*float64           `json:"filed"`
}

func poseOf(s WorkbenchPose) poseJSON {
	out := poseJSON{
		Moves: s.Sweep.Control.Name, At: map[string]float64{}, Low: s.Sweep.Low, High: s.Sweep.High,
		Sample: picture.SampleOf(s.Sample),
	}
	for i, c := range s.Run.Controls {
		out.At[c.Name] = s.At[i]
	}
	if s.Filed != nil {
		out.Filed = s.Filed.Values
	}
	return out
}

// StandJSON writes where a run stands.
func PoseJSON(w io.Writer, hash string, s WorkbenchPose) error {
	return writeCompact(w, struct {
		Hash string   `json:"hash"`
		Pose poseJSON `json:"stand"`
	}{hash, poseOf(s)})
}

type trialJSON struct {
	Hash         string                 `json:"hash"`
	Verdict      trialVerdictJSON       `json:"verdict"`
	Filed        trialVerdictJSON       `json:"filed"`
	Beside       []string               `json:"beside"` // what is to be known besides
	Requirements []trialRequirementJSON `json:"requirements"`
	Ends         []trialEndJSON         `json:"ends"`
	Stops        []trialStopJSON        `json:"stops"`
	Controls     []trialControlJSON     `json:"controls"`
	Series       []picture.Series       `json:"series"`
	Pose         poseJSON               `json:"stand"`
	Writes       []writtenJSON          `json:"writes"`
	Unsaveable   string                 `json:"unsaveable"` // why it can't be saved; empty: it can
}

type trialVerdictJSON struct {
	Mark     string `json:"mark"` // holds, short, open
	Headline string `json:"headline"`
}

type trialRequirementJSON struct {
	Title   string       `json:"title"`
	Limit   string       `json:"limit"`
	Now     trialMetJSON `json:"now"`
	Filed   trialMetJSON `json:"filed"`
	Changed string       `json:"changed"` // in a word or two; empty: it didn't
	Says    string       `json:"says"`
}

type trialMetJSON struct {
	Mark  string `json:"mark"` // holds, short, open
	Words string `json:"words"`
	Worst string `json:"worst"`
}

type trialEndJSON struct {
	Name   string            `json:"name"`
	In     string            `json:"in"` // what its thread is in: the rod, the nuts
	Thread []trialThreadJSON `json:"thread"`
	Of     string            `json:"of"` // what its length is of: the rod, or the core of a cable
	Length string            `json:"length"`
	Filed  string            `json:"filed"`
	Pulls  []trialPullJSON   `json:"pulls"` // of the nuts of a pair, at neutral
}

// trialPullJSON is how tight a cable is.
type trialPullJSON struct {
	Cable string `json:"cable"`
	Now   string `json:"now"`
	Filed string `json:"filed"`
}

type trialThreadJSON struct {
	End   string `json:"end"`
	InRod string `json:"in_rod"` // or in the nuts
	Filed string `json:"filed"`
	Least string `json:"least"`
	Fault string `json:"fault"` // too little, or too much; empty: neither
}

type trialStopJSON struct {
	Name  string  `json:"name"`
	At    float64 `json:"at"`
	Words string  `json:"words"`
	Filed string  `json:"filed"`
}

type trialControlJSON struct {
	Name  string    `json:"name"`
	Low   *float64  `json:"low"`
	High  *float64  `json:"high"`
	Words [2]string `json:"words"` // each end, and what makes it
	Filed [2]string `json:"filed"`
}

// TrialJSON writes the answer to a trial.
func TrialJSON(w io.Writer, t Trial) error {
	out := trialJSON{
		Hash: t.Hash, Verdict: trialVerdictOf(t.Now), Filed: trialVerdictOf(t.Filed), Beside: trialBeside(t),
		Requirements: []trialRequirementJSON{}, Ends: []trialEndJSON{}, Stops: []trialStopJSON{}, Controls: []trialControlJSON{},
		Series: picture.SeriesOf(t.Now.Result, t.Pose.Sweep), Pose: poseOf(t.Pose), Writes: writtenOf(t.Writes), Unsaveable: figure.Clean(t.Unsaveable),
	}
	for i := range t.Now.Result.Requirements {
		out.Requirements = append(out.Requirements, trialRequirementOf(t, i))
	}
	for _, j := range t.Now.Result.Settings() {
		out.Requirements = append(out.Requirements, trialSettingOf(t, j))
	}
	for i, rod := range t.Now.Result.Run.Rods {
		for _, e := range turnable(rod) {
			out.Ends = append(out.Ends, trialEndOf(t, e, t.Filed.Result.Run.Rods[i]))
		}
	}
	filedNuts := render.CableEnds(t.Filed.Result.Run)
	for i, e := range render.CableEnds(t.Now.Result.Run) {
		out.Ends = append(out.Ends, trialNutOf(t, e, filedNuts[i]))
	}
	for i, s := range t.Now.Result.Run.Stops {
		if s.Adjust != nil {
			unit := figure.PartUnit(t.Now.Result.Run, s.Of)
			out.Stops = append(out.Stops, trialStopJSON{s.Name, s.At, figure.StopAt(s.At, unit), figure.StopAt(t.Filed.Result.Run.Stops[i].At, unit)})
		}
	}
	for i, control := range t.Now.Result.Run.Controls {
		c := trialControlJSON{Name: control.Name, Words: endsWords(t.Travel[i]), Filed: endsWords(t.FiledTravel[i])}
		if s := t.Travel[i]; s != nil {
			c.Low, c.High = &s.Low, &s.High
		}
		out.Controls = append(out.Controls, c)
	}
	return writeCompact(w, out)
}

// PictureJSON writes the picture of a setting for the page to move, unless it
// is the one that the page shows. It takes longer to draw than a setting to
// judge, so that the page asks for it after the verdict.
func PictureJSON(w io.Writer, hash string, result *solve.Result, sweep *solve.Sweep, shown string) error {
	if err := result.Whole(); err != nil {
		return err
	}
	if err := sweep.Whole(); err != nil {
		return err
	}
	drawn, err := picture.Live(result, sweep, picture.LiveOptions{})
	if err != nil {
		return err
	}
	out := struct {
		Hash    string  `json:"hash"`
		Picture string  `json:"picture"` // which it is
		SVG     *string `json:"svg"`     // null where the page has it
	}{Hash: hash, Picture: fmt.Sprintf("%x", sha256.Sum256(drawn))}
	if out.Picture != shown {
		text := string(bytes.TrimSpace(drawn))
		out.SVG = &text
	}
	return writeCompact(w, out)
}

func trialVerdictOf(v render.Variant) trialVerdictJSON {
	return trialVerdictJSON{bookVerdictOf(v.Result.Verdict).Class, figure.Clean(render.Headline(v.Result))}
}

// trialBeside tells what is to be known besides the verdict.
func trialBeside(t Trial) []string {
	said := []string{}
	say := func(words string) {
		if words != "" {
			said = append(said, figure.Clean(words))
		}
	}
	if t.Now.Result.Run.Aircraft != nil {
		say(render.UnsureInShort(t.Now.Result))
	} else {
		say(render.Unsure(t.Now.Result))
	}
	for _, run := range t.Now.Result.Runs() {
		for _, words := range append(render.Beside(run), render.SecondPathFaults(run)...) {
			say(words)
		}
	}
	if t.NoBands {
		say("How sure each answer is was left out here, since the run is large; \"fullfree check\" tells it.")
	}
	return said
}

func trialRequirementOf(t Trial, i int) trialRequirementJSON {
	now, filed := &t.Now.Result.Requirements[i], &t.Filed.Result.Requirements[i]
	out := trialRequirementJSON{
		Title: figure.Clean(render.RequirementTitle(t.Now.Result, now.Requirement)), Limit: render.LimitWords(now),
		Now: trialMetOf(now), Filed: trialMetOf(filed),
		Says: figure.Joined(" ", figure.Clean(render.Says(t.Now.Result, now)), figure.Clean(render.BandSays(t.Now.Result, now))),
	}
	switch {
	case now.Verdict != filed.Verdict:
		out.Changed = "now " + out.Now.Words
	case out.Now.Worst != out.Filed.Worst:
		out.Changed = changedWay(betterIs(now), betterIs(filed))
	}
	return out
}

// trialSettingOf tells of an end that can't be set so, whatever is required.
func trialSettingOf(t Trial, now *solve.Judgement) trialRequirementJSON {
	out := trialRequirementJSON{
		Title: figure.Clean(render.RequirementTitle(t.Now.Result, now.Requirement)), Limit: render.LimitWords(now), Now: trialMetOf(now), Says: figure.Clean(render.Says(t.Now.Result, now)),
	}
	for _, filed := range t.Filed.Result.Settings() {
		if filed.Requirement.Name == now.Requirement.Name && filed.Why == now.Why {
			if out.Filed = trialMetOf(filed); out.Filed.Worst != out.Now.Worst {
				out.Changed = "changed"
			}
			return out
		}
	}
	holds := bookVerdictOf(solve.Holds)
	out.Filed, out.Changed = trialMetJSON{holds.Class, holds.Verdict, ""}, "now "+out.Now.Words
	return out
}

func trialMetOf(j *solve.Judgement) trialMetJSON {
	v := bookVerdictOf(j.Verdict)
	return trialMetJSON{v.Class, v.Verdict, render.WorstWords(j)}
}

// betterIs is a figure that is larger where a requirement is met better; nil
// where there is none.
func betterIs(j *solve.Judgement) *float64 {
	switch j.Requirement.Kind {
	case linkage.Engagement, linkage.Sense:
		return j.Worst
	}
	return j.Reserve()
}

// changedWay tells which way a worst value has changed.
func changedWay(now, filed *float64) string {
	switch {
	case now == nil || filed == nil || *now == *filed:
		return "changed"
	case *now > *filed:
		return "better"
	}
	return "worse"
}

func trialEndOf(t Trial, e *linkage.RodEnd, filed *linkage.Rod) trialEndJSON {
	unit := t.Now.Result.Run.UnitsOf(e.Rod.In)
	out := trialEndJSON{
		Name: e.String(), In: "the rod", Of: "rod, hole to hole", Length: figure.Calipers(e.Rod.Length, unit), Filed: figure.Calipers(filed.Length, unit),
		Pulls: []trialPullJSON{},
	}
	for i, k := range e.Rod.Ends {
		if k != e && !e.Rod.Barrel() {
			continue
		}
		out.Thread = append(out.Thread, trialThreadJSON{
			k.String(), figure.Calipers(k.Engaged, unit), figure.Calipers(filed.Ends[i].Engaged, unit), figure.Calipers(k.Least, unit), threadFault(t.Now.Result, k.String()),
		})
	}
	return out
}

// threadFault tells in a word or two what is wrong with the thread in an end.
func threadFault(r *solve.Result, end string) string {
	for i := range r.Unfit {
		j := &r.Unfit[i]
		switch {
		case j.Requirement.Name != end:
		case j.Why == solve.ComesOut && j.Rod == nil:
			return "comes out of the nuts"
		case j.Why == solve.ComesOut:
			return "comes out of the rod"
		case j.Why == solve.ThreadShort:
			return "too little"
		case j.Why == solve.BottomsOut && j.Rod == nil:
			return "more than there is"
		case j.Why == solve.BottomsOut:
			return "bottoms out"
		case j.Why == solve.PastShank:
			return "more than the shank has"
		}
	}
	return ""
}

// endsWords tells both ends of a travel, and what makes them.
func endsWords(s *solve.Sweep) (said [2]string) {
	for i := range said {
		said[i] = "can't move there"
		if s != nil {
			said[i] = fmt.Sprintf("%s (%s)", figure.Quantity(s.Ends[i].At, s.Unit), render.MadeBy(s.Ends[i]))
		}
	}
	return said
}
