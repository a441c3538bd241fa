package render

import (
	"testing"

	"fullfree/linkage"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
)

// judged appends a judgement to a result and returns what is said of it.
func judged(r *solve.Result, req linkage.Requirement, j solve.Judgement) string {
	j.Requirement = &req
	return Says(r, &j)
}

func parts(r *solve.Result) []linkage.Subject {
	return []linkage.Subject{{Part: r.Run.Parts[0]}, {Part: r.Run.Parts[1]}}
}

func TestSaysPairs(t *testing.T) {
	r := sample.Levers()
	opposite := linkage.Requirement{Kind: linkage.Opposite, Of: parts(r)}
	together := linkage.Requirement{Kind: linkage.Together, Of: parts(r)}
	assert.Equal(t,
		"lever and crank turn equal and opposite to within 0.3°, worst with hand at -24.0° (lever aft). 0.5° allowed, 0.2° in hand.",
		judged(r, opposite, solve.Judgement{Verdict: solve.Holds, Worst: sample.Is(0.31), At: sample.Is(-24), Limit: 0.5, Unit: "deg"}))
	assert.Equal(t,
		"lever and crank are not equal and opposite: 0.54° out at worst, with hand at -24.0° (lever aft). 0.5° allowed, missed by 0.04°.",
		judged(r, opposite, solve.Judgement{Verdict: solve.FallsShort, Worst: sample.Is(0.54), At: sample.Is(-24), Limit: 0.5, Unit: "deg"}))
	assert.Equal(t,
		"lever and crank move as one to within 0.5°, worst with hand at neutral. 0.5° allowed, nothing in hand.",
		judged(r, together, solve.Judgement{Verdict: solve.Holds, Worst: sample.Is(0.5), At: sample.Is(0), Limit: 0.5, Unit: "deg"}))
	assert.Equal(t,
		"It can't be judged: 0.5° with hand at neutral is too near 0.5° for the arithmetic to tell which side it is on.",
		judged(r, together, solve.Judgement{Worst: sample.Is(0.5), At: sample.Is(0), Limit: 0.5, Unit: "deg"}))
}

func TestSaysWhereTheOthersStand(t *testing.T) {
	r := sample.Levers()
	second := *r.Sweeps[0]
	pitch := &linkage.Control{Name: "pitch", Of: r.Run.Parts[1]}
	second.Index, second.Held = 1, []solve.Held{{Control: pitch, At: -8}}
	r.Sweeps = append(r.Sweeps, &second)
	assert.Equal(t,
		"lever and crank move as one to within 0.1°, worst with hand at 12.0° (lever forward) and pitch at -8.0°. 0.5° allowed, 0.4° in hand.",
		judged(r, linkage.Requirement{Kind: linkage.Together, Of: parts(r)},
			solve.Judgement{Verdict: solve.Holds, Worst: sample.Is(0.1), At: sample.Is(12), Limit: 0.5, Unit: "deg", Sweep: 1}))
}

func TestSaysSteady(t *testing.T) {
	r := sample.Levers()
	req := linkage.Requirement{Kind: linkage.Steady, Of: parts(r)[1:]}
	assert.Equal(t, "crank doesn't move at all while hand does; 0.5° allowed.",
		judged(r, req, solve.Judgement{Verdict: solve.Holds, Worst: sample.Is(0), At: sample.Is(0), Limit: 0.5, Unit: "deg"}))
	assert.Equal(t, "hand moves crank by 1.2°, at most with hand at 12.0° (lever forward). 0.5° allowed, missed by 0.7°.",
		judged(r, req, solve.Judgement{Verdict: solve.FallsShort, Worst: sample.Is(1.2), At: sample.Is(12), Limit: 0.5, Unit: "deg"}))
}

func TestSaysSense(t *testing.T) {
	r := sample.Levers()
	req := linkage.Requirement{Kind: linkage.Sense, Of: parts(r), Same: true}
	say := func(v solve.Verdict, worst float64, why solve.Why) string {
		return judged(r, req, solve.Judgement{Verdict: v, Worst: sample.Is(worst), At: sample.Is(12), Unit: "deg/deg", Why: why})
	}
	assert.Equal(t, "crank moves the right way all through: as drawn it turns the same way as lever, at least 0.900 degrees a degree, with hand at 12.0° (lever forward).",
		say(solve.Holds, 0.9, solve.Plain))
	assert.Equal(t, "crank moves the wrong way, worst with hand at 12.0° (lever forward): as drawn it turns the opposite way to lever, by 0.300 degrees a degree.",
		say(solve.FallsShort, -0.3, solve.Plain))
	assert.Equal(t, "crank stands still while lever moves, with hand at 12.0° (lever forward), so it has no sense there.",
		say(solve.CannotTell, 0, solve.HaltsOrNoise))
	assert.Equal(t, "lever never moves, so there is no sense to judge.", say(solve.CannotTell, 0, solve.NeverMoves))
	req.Same = false
	assert.Contains(t, say(solve.FallsShort, -0.3, solve.Plain), "as drawn it turns the same way as lever")
}

func TestSaysTravel(t *testing.T) {
	r := sample.Levers()
	req := linkage.Requirement{Kind: linkage.Travel, Of: []linkage.Subject{{Output: r.Run.Outputs[0]}}, Low: -24, High: 27, Within: 0.5}
	short := judged(r, req, solve.Judgement{Verdict: solve.FallsShort, Worst: sample.Is(2.7), At: sample.Is(24.04), Limit: 0.5, Unit: "deg", End: "high", Reaches: 24.3})
	assert.Equal(t, "tail stops 2.7° short: it gets 24.3° nose left where 27° is wanted, with hand at 24.0° (lever forward). 0.5° allowed, missed by 2.2°."+
		` The stop "bolt" ends it at 24.0°; 1 mm worn off it lets it go 0.9° further.`+
		` Without it the stop "far" would bite 2.5° later, at 26.5°. On center comes 7.2° after the end, at 31.2° (toggle).`+
		" Taking metal off the stop gains no more than those 7.2°.", short)
	assert.Equal(t, "tail reaches both its figures, and no further, to within 0.04°: 24.04° nose left where 24° is wanted, with hand at 24.0° (lever forward). 0.5° allowed, 0.5° in hand.",
		judged(r, linkage.Requirement{Kind: linkage.Travel, Of: req.Of, Low: -24, High: 24},
			solve.Judgement{Verdict: solve.Holds, Worst: sample.Is(0.04), At: sample.Is(24.04), Limit: 0.5, Unit: "deg", End: "high", Reaches: 24.04}))
	req.High = 20
	assert.Equal(t, `tail goes 4.3° too far: 24.3° nose left where 20° is wanted, with hand at 24.0° (lever forward). 0.5° allowed, missed by 3.8°.`+
		` The stop "bolt" ends it at 24.0°; 1 mm worn off it lets it go 0.9° further.`,
		judged(r, req, solve.Judgement{Verdict: solve.FallsShort, Worst: sample.Is(4.3), At: sample.Is(24.04), Limit: 0.5, Unit: "deg", End: "high", Reaches: 24.3}))
	req.Low = -30
	both := judged(r, req, solve.Judgement{Verdict: solve.FallsShort, Worst: sample.Is(6.4), At: sample.Is(-24), Limit: 0.5, Unit: "deg", End: "low", Reaches: -23.6})
	assert.Contains(t, both, "tail stops 6.4° short: it gets down to -23.6° where -30° is wanted")
	assert.Contains(t, both, " The other way it goes 4.3° too far as well: 24.3° nose left where 20° is wanted.")
}

// A stop in front of an on-center point.
func TestSaysWhatWouldBiteNext(t *testing.T) {
	r := sample.Levers()
	s := r.Sweeps[0]
	s.Stops = s.Stops[:2]
	assert.Equal(t, "Without it, on center 7.2° later, at 31.2° (toggle).",
		nextSays(s, 1))
	assert.Equal(t, "There link is in line with the arm of crank that it drives: crank locks up and is driven no further; thrown past that point, a pull back (lever aft) drives it further on.",
		nextMeans(s, 1))
	assert.Equal(t, "Without it nothing else was met, looking to -35.0°.", nextSays(s, 0))
}

func TestSaysAStopPastOnCenterComesTooLate(t *testing.T) {
	r := sample.Levers()
	s := r.Sweeps[0]
	s.Stops[2].At = sample.Is(33)
	assert.NotContains(t, nextSays(s, 1), `"far"`)
}

func TestSaysOverCenter(t *testing.T) {
	req := linkage.Requirement{Kind: linkage.OverCenter, Least: 5}
	say := func(change func(*solve.Sweep, *solve.Judgement)) string {
		r := sample.Levers()
		j := solve.Judgement{Verdict: solve.Holds, Worst: sample.Is(31.2 - 24.04), At: sample.Is(31.2), Limit: 5, Unit: "deg", End: "high"}
		change(r.Sweeps[0], &j)
		return judged(r, req, j)
	}
	assert.Equal(t, "The nearest on-center point lies 7.2° past the high end, at 31.2° (lever forward): crank locks up, by the rod link (toggle). 5° wanted, 2.2° in hand.",
		say(func(*solve.Sweep, *solve.Judgement) {}))
	assert.Equal(t, "No on-center point was found, looking at least 7.2° past each end of the travel; 5° wanted.",
		say(func(_ *solve.Sweep, j *solve.Judgement) { j.NoneFound, j.At = true, nil }))
	assert.Equal(t, `No on-center point was found, but only 3.0° past an end of the travel could be looked at and 5° is wanted: give the control hand a wider "from" and "to".`,
		say(func(s *solve.Sweep, j *solve.Judgement) {
			s.Critical, s.Explored = nil, [2]float64{-27, 27.04}
			j.Verdict, j.NoneFound, j.At, j.Worst, j.Why = solve.CannotTell, true, nil, sample.Is(3), solve.NotExplored
		}))
	assert.Equal(t, `The nearest on-center point found lies 7.2° past the high end, at 31.2° (lever forward): crank locks up, by the rod link (toggle).`+
		` But less than the 5° wanted could be looked at past another end: give the control hand a wider "from".`,
		say(func(s *solve.Sweep, j *solve.Judgement) {
			s.Explored[0] = -27
			j.Verdict, j.Why = solve.CannotTell, solve.NotExplored
		}))
	assert.Equal(t, "It goes on center (dead center) inside the travel, at 12.0° (lever forward), 12.0° before the high end."+
		" There link is in line with the arm of lever that drives it: crank halts and reverses; past this point, moving on (lever forward) drives it back. 5° wanted, missed by 17.0°.",
		say(func(s *solve.Sweep, j *solve.Judgement) {
			s.Critical = []solve.Critical{{Kind: solve.DeadCenter, At: 12, Part: s.Parts[1].Part, Rod: s.Rods[0].Rod, Margin: 12 - 24.04}}
			j.Verdict, j.Worst, j.At = solve.FallsShort, sample.Is(12-24.04), sample.Is(12)
		}))
	assert.Equal(t, "It goes on center (toggle) at the high end of the travel itself, at 31.2° (lever forward). No stop comes first."+
		" There link is in line with the arm of crank that it drives: crank locks up and is driven no further; thrown past that point, a pull back (lever aft) drives it further on. 5° wanted, missed by 5.0°.",
		say(func(s *solve.Sweep, j *solve.Judgement) {
			s.Ends[1] = solve.End{At: 31.2, Cause: solve.ByToggle, Part: s.Parts[1].Part}
			s.High, s.Critical[0].Margin = 31.2, 0
			j.Verdict, j.Worst = solve.FallsShort, sample.Is(0)
		}))
}

func TestSaysLowerLimits(t *testing.T) {
	r := sample.Levers()
	tail := linkage.FeatureRef{Rod: r.Run.Rods[0]}
	tube := linkage.FeatureRef{Part: &linkage.Part{Name: "airframe", Features: []linkage.Feature{{Name: "tube"}}}}
	clearance := linkage.Requirement{Kind: linkage.Clearance, Between: [2]linkage.FeatureRef{tail, tube}, Least: 2}
	say := func(v solve.Verdict, worst float64) string {
		return judged(r, clearance, solve.Judgement{Verdict: v, Worst: sample.Is(worst), At: sample.Is(12), Limit: 2, Unit: "mm"})
	}
	assert.Equal(t, "link and airframe.tube keep 3.2 mm apart at the nearest, with hand at 12.0° (lever forward). 2 mm wanted, 1.2 mm in hand.", say(solve.Holds, 3.2))
	assert.Equal(t, "link and airframe.tube keep 1.98 mm apart at the nearest, with hand at 12.0° (lever forward). 2 mm wanted, missed by 0.02 mm.", say(solve.FallsShort, 1.98))
	assert.Equal(t, "link and airframe.tube foul each other by 0.3 mm, worst with hand at 12.0° (lever forward). 2 mm wanted between them.", say(solve.FallsShort, -0.3))

	assert.Equal(t, "link and airframe.tube share no height, so they never meet.",
		judged(r, clearance, solve.Judgement{Verdict: solve.Holds, Limit: 2, Unit: "mm", Why: solve.NeverMeet}))

	assert.Equal(t, "Flattest, at 62.1°, stand link and the arm of crank that it drives, with hand at -24.0° (lever aft). 65° wanted, missed by 2.9°.",
		judged(r, linkage.Requirement{Kind: linkage.RodAngle, Least: 65},
			solve.Judgement{Verdict: solve.FallsShort, Worst: sample.Is(62.1), At: sample.Is(-24), Limit: 65, Unit: "deg"}))
}

func TestSaysInchesInHand(t *testing.T) {
	assert.Equal(t, "3/4 in wanted, in hand 1/32 in", inHand(1.0/32, 0.75, "wanted", "in"))
	assert.Equal(t, "3/4 in wanted, nothing in hand", inHand(0, 0.75, "wanted", "in"))
}

func TestSaysMisalignment(t *testing.T) {
	r := sample.Levers()
	own := linkage.Requirement{Kind: linkage.Misalignment}
	assert.Equal(t, `Nearest to its limit, the "to" end of link tilts 2.0°, with hand at -24.0° (lever aft). 12° allowed, 10.0° in hand.`,
		judged(r, own, solve.Judgement{Verdict: solve.Holds, Worst: sample.Is(-10), At: sample.Is(-24), Unit: "deg", Rod: r.Run.Rods[0], End: "to"}))
	most := linkage.Requirement{Kind: linkage.Misalignment, Most: sample.Is(10)}
	assert.Equal(t, `Furthest over its limit, the "from" end of link tilts 13.0°, with hand at -24.0° (lever aft). 10° allowed, missed by 3.0°.`,
		judged(r, most, solve.Judgement{Verdict: solve.FallsShort, Worst: sample.Is(13), At: sample.Is(-24), Limit: 10, Unit: "deg", Rod: r.Run.Rods[0], End: "from"}))
}

func TestSaysStops(t *testing.T) {
	r := sample.Levers()
	req := linkage.Requirement{Kind: linkage.Stops}
	assert.Equal(t, "A stop ends the travel on each side.", judged(r, req, solve.Judgement{Verdict: solve.Holds, Worst: sample.Is(0)}))
	r.Sweeps[0].Ends[0] = solve.End{At: -35, Cause: solve.ByLimit}
	assert.Equal(t, "No stop ends the low side of hand: nothing was met, looking to -35.0°.",
		judged(r, req, solve.Judgement{Verdict: solve.FallsShort, Worst: sample.Is(1)}))
	r.Sweeps[0].Ends[1] = solve.End{At: 31.2, Cause: solve.ByToggle, Part: r.Run.Parts[1]}
	assert.Equal(t, "No stop ends the low side of hand: nothing was met, looking to -35.0°. No stop ends the high side of hand: on center ends it at 31.2° (toggle).",
		judged(r, req, solve.Judgement{Verdict: solve.FallsShort, Worst: sample.Is(2)}))
}

func TestSaysOrder(t *testing.T) {
	r := sample.Levers()
	req := linkage.Requirement{Kind: linkage.Order, First: r.Run.Stops[1], Then: r.Run.Stops[2], Least: 1}
	say := func(v solve.Verdict, worst float64) string {
		return judged(r, req, solve.Judgement{Verdict: v, Worst: sample.Is(worst), At: sample.Is(24.04), Limit: 1, Unit: "deg"})
	}
	assert.Equal(t, `The stop "bolt" bites 2.5° of hand before the stop "far" would, with hand at 24.0° (lever forward). 1° wanted, 1.5° in hand.`, say(solve.Holds, 2.46))
	assert.Equal(t, `The wrong way round: the stop "far" bites 2.0° of hand before the stop "bolt", with hand at 24.0° (lever forward). 1° the other way wanted.`, say(solve.FallsShort, -2))
	assert.Equal(t, `The stops "bolt" and "far" bite together, with hand at 24.0° (lever forward). 1° wanted, missed by 1.0°.`, say(solve.FallsShort, 0))
	assert.Equal(t, `Neither the stop "bolt" nor the stop "far" bites anywhere as far as was looked.`,
		judged(r, req, solve.Judgement{Limit: 1, Unit: "deg", Why: solve.NeitherBites}))
}

func TestSaysOrderWhereAStopWasNotMet(t *testing.T) {
	r := sample.Levers()
	req := linkage.Requirement{Kind: linkage.Order, First: r.Run.Stops[1], Then: r.Run.Stops[2], Least: 3}
	say := func(v solve.Verdict, worst float64, why solve.Why) string {
		return judged(r, req, solve.Judgement{Verdict: v, Worst: sample.Is(worst), At: sample.Is(24.04), Limit: 3, Unit: "deg", NotMet: true, Why: why, End: "high"})
	}
	assert.Equal(t, `The stop "bolt" bites first, with hand at 24.0° (lever forward): the stop "far" was not met within 7.2° of hand after it. 3° wanted, 4.2° in hand.`, say(solve.Holds, 7.16, solve.Plain))
	assert.Equal(t, `The stop "bolt" bites first, with hand at 24.0° (lever forward): 2.0° of hand after it the run is on center, before the stop "far" could bite.`, say(solve.Holds, 2, solve.Plain))
	assert.Equal(t, `The stop "bolt" bites first, with hand at 24.0° (lever forward), but the stop "far" was not met in the 2.0° of hand that were looked at after it and 3° is wanted: give the control hand a wider "to".`, say(solve.CannotTell, 2, solve.NotExplored))
	assert.Equal(t, `The wrong way round: the stop "far" bites, with hand at 24.0° (lever forward), and the stop "bolt" was not met within 7.2° of hand after it. 3° the other way wanted.`, say(solve.FallsShort, -7.16, solve.Plain))
}

// No sentence promises anything.
func TestSaysNeverSafe(t *testing.T) {
	r := sample.Levers()
	for i := range r.Sweeps[0].Ends {
		assert.NotContains(t, EndSays(r, r.Sweeps[0], i)+nextSays(r.Sweeps[0], i), "safe")
	}
}

func TestSaysLostTrack(t *testing.T) {
	r := sample.Levers()
	r.Sweeps[0].Lost = true
	assert.Equal(t, "It held as far as the run could be followed, with hand from -35.0° to 31.2°; the arithmetic can't tell what comes beyond, so it can't be judged.",
		Says(r, &solve.Judgement{Requirement: &linkage.Requirement{Kind: linkage.Stops}, Why: solve.LostTrack}))
}
