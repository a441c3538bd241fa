package picture

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/solve"
)

// pose is one of the positions that are drawn. All parts in it carry its
// letter.
type shownPose struct {
	letter  string
	at      float64 // of the control
	pose    *solve.Pose
	neutral bool
	end     int    // 0: the low end of the travel, 1: the high end, -1: neither
	says    string // what is to be seen in it
}

// betweenMost is how many positions are drawn besides neutral and the ends.
const betweenMost = 2

// betweenGap is how far a position between must lie from every other, as a
// part of the travel, to be told apart in the picture.
const betweenGap = 0.06

// stancesOf returns the positions to draw, from the low end of the travel to
// the high one: neutral, the ends and at most two between, where something
// reverses or a requirement falls furthest short.
func shownPosesOf(result *solve.Result, sweep *solve.Sweep) ([]shownPose, error) {
	list := []shownPose{{at: 0, neutral: true, end: -1, says: "neutral"}}
	if sweep.TurnsRotor() {
		return posesAt(sweep, append(list, quarterTurns(sweep)...))
	}
	for i, end := range sweep.Ends {
		says := render.EndOf(sweep, i)
		if end.At == 0 {
			list[0].says += "; " + says
			list[0].end = i
			continue
		}
		list = append(list, shownPose{at: end.At, end: i, says: says})
	}
	between := 0
	for _, s := range betweens(result, sweep) {
		gap := math.Inf(1)
		for _, other := range list {
			gap = math.Min(gap, math.Abs(other.at-s.at))
		}
		if between < betweenMost && gap > betweenGap*(sweep.High-sweep.Low) {
			list = append(list, s)
			between++
		}
	}
	return posesAt(sweep, list)
}

// quarterTurns are the positions of a rotor that are drawn besides the one that it is drawn
// in: its ends are one place.
func quarterTurns(sweep *solve.Sweep) (list []shownPose) {
	for _, k := range []struct {
		at   float64
		says string
	}{{-90, "a quarter turn back"}, {90, "a quarter turn on"}, {180, "half a turn on"}} {
		switch {
		case k.at < sweep.Low:
			k.at += 360
		case k.at > sweep.High:
			k.at -= 360
		}
		list = append(list, shownPose{at: k.at, end: -1, says: k.says})
	}
	return list
}

// posesAt are positions in their order, each with its letter and the pose there.
func posesAt(sweep *solve.Sweep, list []shownPose) ([]shownPose, error) {
	slices.SortStableFunc(list, func(a, b shownPose) int { return cmp.Compare(a.at, b.at) })
	for i := range list {
		s := &list[i]
		s.letter = string(rune('A' + i))
		pose, ok := sweep.At(s.at)
		if !ok {
			return nil, fmt.Errorf("control %q can't be drawn at %s: the run doesn't get there", figure.Clean(sweep.Control.Name), figure.Quantity(s.at, sweep.Unit))
		}
		s.pose = pose
	}
	return list, nil
}

// betweens returns the positions between the ends that deserve drawing, the
// most telling first.
func betweens(result *solve.Result, sweep *solve.Sweep) []shownPose {
	var found []shownPose
	for _, c := range sweep.Critical {
		if _, still := render.Wavers(sweep, c); c.Margin < 0 && !still {
			found = append(found, shownPose{at: c.At, end: -1, says: render.CenterInShort(sweep, c)})
		}
	}
	for _, j := range result.Requirements {
		if j.Verdict != solve.FallsShort || j.At == nil || !sameSweep(render.SweepAt(result, j.Sweep), sweep) {
			continue
		}
		if *j.At > sweep.Low && *j.At < sweep.High {
			found = append(found, shownPose{at: *j.At, end: -1, says: "worst of " + render.RequirementTitle(result, j.Requirement)})
		}
	}
	return found
}

// sameSweep reports whether two sweeps move the same control with the others
// at the same settings.
func sameSweep(a, b *solve.Sweep) bool {
	return a != nil && a.Control == b.Control && slices.Equal(a.Held, b.Held)
}

// onCenter is an on-center point with its mark in the picture.
type onCenter struct {
	mark string
	solve.Critical
}

// flagsMost is how many on-center points are flagged, the nearest to the
// travel first; a picture with more can't be read.
const flagsMost = 6

// flagsOf returns the on-center points to flag, by where they lie.
func flagsOf(sweep *solve.Sweep) []onCenter {
	near := slices.Clone(sweep.Critical)
	slices.SortStableFunc(near, func(a, b solve.Critical) int { return cmp.Compare(a.Margin, b.Margin) })
	near = near[:min(flagsMost, len(near))]
	slices.SortStableFunc(near, func(a, b solve.Critical) int { return cmp.Compare(a.At, b.At) })
	var flags []onCenter
	for i, c := range near {
		flags = append(flags, onCenter{fmt.Sprintf("X%d", i+1), c})
	}
	return flags
}

// flagWords tells in a few words what a flag means.
func flagWords(s *solve.Sweep, c solve.Critical) string {
	if moves, ok := render.Wavers(s, c); ok {
		return "wavers only " + figure.Against(moves, 0, "deg")
	}
	return render.CenterSpare(s, c)
}

// partReading returns how far a part, or one freedom of a floating part, has
// moved in a position.
func partReading(sweep *solve.Sweep, s shownPose, t solve.PartTravel) float64 {
	if v, ok := s.known(t.Extent); ok {
		return v
	}
	if t.Part.Spatial() || t.Part.Motion == linkage.TurnsAndSlides {
		return seriesReading(sweep, s.at, t)
	}
	if t.Part.Motion != linkage.Floats || strings.HasSuffix(t.Name, ".turn") {
		return s.pose.Travel(t.Part)
	}
	moved := middleOf(s.pose, t.Part)
	if strings.HasSuffix(t.Name, ".x") {
		return moved.X
	}
	return moved.Y
}

// seriesReading is what a sweep tells of one freedom of a part at a place of its control.
func seriesReading(sweep *solve.Sweep, at float64, t solve.PartTravel) float64 {
	sample, ok := sweep.Sample(at)
	if !ok {
		return 0
	}
	for i, k := range sweep.Series() {
		if k.Kind == solve.SeriesPart && k.Name == t.Name && sample.Values[i] != nil {
			return *sample.Values[i]
		}
	}
	return 0
}

// middleOf returns how far the mean of a part's points has moved.
func middleOf(pose *solve.Pose, part *linkage.Part) linkage.Vec {
	var sum linkage.Vec
	for _, p := range part.Points {
		sum = sum.Add(pose.Place(part, p.At).Sub(p.At))
	}
	return sum.Scale(1 / float64(max(len(part.Points), 1)))
}

// outputReading returns how an output's gauge reads in a position.
func outputReading(s shownPose, t solve.OutputTravel) float64 {
	if v, ok := s.known(t.Extent); ok {
		return v
	}
	return s.pose.Reading(t.Output)
}

// known returns what the results already tell of a position.
func (s shownPose) known(e solve.Extent) (float64, bool) {
	switch {
	case s.neutral:
		return e.Neutral, true
	case s.end == 0:
		return e.AtLow, true
	case s.end == 1:
		return e.AtHigh, true
	}
	return 0, false
}
