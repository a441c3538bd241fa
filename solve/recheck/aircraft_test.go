package recheck

import (
	"maps"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fullfree/linkage"
	"fullfree/linkage/hunt"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// comparedAircraft compares two aircraft of several texts.
func comparedAircraft(t testing.TB, old, now map[string]string, opened ...string) *Comparison {
	t.Helper()
	return comparedVersions(t, aircraftOf(t, old), aircraftOf(t, now), opened...)
}

// redoneIn are the lines of a run that are to be done again for a reason.
func (c *Comparison) redoneIn(run string, why Why) (list []string) {
	for _, r := range c.Redo {
		if r.Run == run && r.Why == why {
			list = append(list, r.Says)
		}
	}
	return list
}

// runsVoid are the runs in which anything is to be done again: those that are reached, since
// each has a line that is void with anything.
func (c *Comparison) runsVoid(t testing.TB) (list []string) {
	t.Helper()
	for _, r := range c.Redo {
		if !slices.Contains(list, r.Run) {
			list = append(list, r.Run)
		}
	}
	assert.ElementsMatch(t, c.Reached, list)
	return list
}

// inThree is a chain over three runs, of which the middle one is in inches.
func inThree(t testing.TB) map[string]string {
	return aircraftTexts(t, "testdata", "aircraft", "split3")
}

func inTwo(t testing.TB) map[string]string { return aircraftTexts(t, "testdata", "aircraft", "split2") }

// theDemo is six runs: pedals and tail are one control, and nothing joins them to the
// others.
func theDemo(t testing.TB) map[string]string { return aircraftTexts(t, "demo", "aircraft") }

// A rod at the hand that is longer voids what is done at the blade, through a run in
// inches, and one at the blade what is done at the hand; joints only where they are.
func TestAChangeReachesFromHandToBlade(t *testing.T) {
	files := inThree(t)
	c := comparedAircraft(t, files, with(t, files, "front.hcl", "244.3", "244.4"))
	assert.Equal(t, []string{"front.floor-rod.length"}, c.changed())
	assert.Equal(t, "front", c.Changes[0].Run)
	assert.Equal(t, []string{"front.floor-rod", "front.floor-rod at front.lever.horn", "front.floor-rod at front.floor-crank.in"}, c.redone(Touched))
	assert.Equal(t, []string{"front.hand", "Counted out"}, c.redoneIn("front", Reached))
	assert.Equal(t, []string{"front.hand", "Counted out"}, c.redoneIn("middle", Reached))
	assert.Equal(t, []string{"front.hand", "Counted out", "rear.angle"}, c.redoneIn("rear", Reached))
	assert.Contains(t, c.redoneIn("rear", Moved), "front.hand: rear.angle, neutral")
	assert.Contains(t, c.stands(), "middle.boom-rod")

	c = comparedAircraft(t, files, with(t, files, "rear.hcl", "279", "279.1"))
	assert.Equal(t, []string{"front", "middle", "rear"}, c.runsVoid(t))
	assert.Equal(t, []string{"rear.last-rod", "rear.last-rod at rear.boom-crank.out", "rear.last-rod at rear.surface.horn"}, c.redone(Touched))
}

// A rod that was opened and closed again at the same length, in one run, voids its control
// in each and moves no figure.
func TestOpenedInOneRun(t *testing.T) {
	files := inThree(t)
	c := comparedAircraft(t, files, files, "middle.boom-rod.to")
	assert.Equal(t, "middle", c.Opened[0].Run)
	assert.Equal(t, []string{"front", "middle", "rear"}, c.runsVoid(t))
	assert.Equal(t, []string{"middle.boom-rod", "middle.boom-rod at middle.deck-crank.out", "middle.boom-rod at middle.boom-crank.in"}, c.redone(Touched))
	assert.Empty(t, c.redone(Moved))
	assert.Contains(t, c.stands(), "front.hand: rear.angle, low")
}

// What nothing joins to the change stands: pedals leave the collective alone, and the other
// way round.
func TestRunsThatAreNotReachedStand(t *testing.T) {
	files := theDemo(t)
	v := aircraftOf(t, files)
	c := comparedVersions(t, v, aircraftOf(t, with(t, files, "pedals.hcl", "length       = 321\n", "length       = 321.5\n")))
	assert.Equal(t, []string{"pedals", "tail"}, c.runsVoid(t))
	assert.Contains(t, c.redoneIn("tail", Reached), "tail.pitch")
	assert.Contains(t, c.stands(), "collective.collective: mixing.height, low")
	c = comparedVersions(t, v, v, "collective.floor-rod.from")
	assert.Equal(t, []string{"cyclic", "collective", "mixing", "head"}, c.runsVoid(t), "the mixing levers join the cyclic to it, and the head to both")
}

// The file that only the aircraft differs by is that of the demo's manual page.
func TestTheDemosChange(t *testing.T) {
	files := theDemo(t)
	changed := maps.Clone(files)
	changed[aircraftFile] = files["changed.hcl"]
	c := comparedAircraft(t, files, changed)
	assert.Equal(t, []string{"pedals.far-right-link.length", "pedals.far-right-link.from.engaged"}, c.changed())
	assert.Equal(t, []string{"pedals", "tail"}, c.runsVoid(t))
	assert.Empty(t, c.redoneIn("tail", Moved), "no figure of the tail moves")
	assert.Empty(t, c.redoneIn("tail", Touched))
	for _, r := range c.Requirements {
		assert.Equal(t, r.Old.Verdict, r.New.Verdict, r.Title)
	}
}

// One piece of metal on two drawings has one pivot, and a hole of one name is one hole.
func TestWhatIsOnePieceIsTouchedOnBothDrawings(t *testing.T) {
	files := inTwo(t)
	c := comparedAircraft(t, files, files, "rear.deck-crank.pivot")
	assert.Equal(t, []string{"front.deck-crank", "rear.deck-crank"}, c.redone(Touched))
	c = comparedAircraft(t, files, with(t, files, "front.hcl", "out = [10, 66]", "out = [10.5, 66]"))
	assert.Equal(t, []string{"front.deck-crank.out.x"}, c.changed())
	assert.Contains(t, c.redone(Touched), "rear.boom-rod at rear.deck-crank.out", "its bolt is in that hole")
	assert.NotContains(t, c.redone(Touched), "front.upright-rod at front.deck-crank.in")

	// Its bolt may be in a hole that only the other drawing shows something in.
	shared := with(t, files, "rear.hcl", "rod \"boom-rod\" {\n  from = deck-crank.out", "rod \"boom-rod\" {\n  from = deck-crank.in")
	c = comparedAircraft(t, shared, shared, "front.upright-rod.to")
	assert.Contains(t, c.redone(Touched), "rear.boom-rod at rear.deck-crank.in")
}

// What joins the runs counts: a run that came or went, another part, the other turn.
func TestJointsCount(t *testing.T) {
	files := aircraftTexts(t, "testdata", "aircraft", "stated")
	c := comparedAircraft(t, files, with(t, files, aircraftFile, `turns = "opposite"`, `turns = "same"`))
	assert.Equal(t, []string{"rear.deck-crank.turns"}, c.changed())
	assert.Equal(t, "opposite", c.Changes[0].Old.Words)
	assert.Equal(t, []string{"front", "rear"}, c.runsVoid(t))
	assert.Contains(t, c.redone(Touched), "rear.deck-crank")

	// Without the joint its part is a control's again.
	files = inTwo(t)
	alone := strings.Split(files[aircraftFile], "same-part")[0]
	apart := maps.Clone(files)
	apart[aircraftFile] = alone
	c = comparedAircraft(t, apart, files)
	assert.Contains(t, c.changed(), "rear.deck-crank.same-part")
	assert.Contains(t, c.changed(), "rear.crank.of", "no control any more")
	assert.Equal(t, []string{"front", "rear"}, c.runsVoid(t))

	// What went with a run is void where it was joined, and nowhere else.
	front := maps.Clone(files)
	front[aircraftFile] = strings.Replace(alone, "run \"rear\" {\n  file = \"rear.hcl\"\n}\n", "", 1)
	c = comparedAircraft(t, files, front)
	assert.Contains(t, c.changed(), "rear.surface.horn.x")
	assert.Equal(t, []string{"front"}, c.runsVoid(t))
	assert.Contains(t, c.redone(Touched), "front.deck-crank")
	c = comparedAircraft(t, apart, front)
	assert.NotEmpty(t, c.Changes)
	assert.Empty(t, c.Redo, "nothing joined it")
	c = comparedAircraft(t, front, apart)
	assert.Equal(t, []string{"rear"}, c.runsVoid(t), "nor does anything join what came")
}

// A run in other units stands where all else does; a file of another name changes nothing,
// a run of another name is another run.
func TestUnitsAndNamesOfRuns(t *testing.T) {
	files := inThree(t)
	metric := maps.Clone(files)
	metric["middle.hcl"] = strings.NewReplacer("/25.4", "", `"in"`, `"mm"`).Replace(files["middle.hcl"])
	c := comparedAircraft(t, files, metric)
	assert.Equal(t, []string{"middle.run.units"}, c.changed())
	assert.Equal(t, []string{"front", "middle", "rear"}, c.runsVoid(t))
	assert.Empty(t, c.redone(Moved))
	assert.Contains(t, c.stands(), "middle.boom-rod")

	renamed := with(t, files, aircraftFile, `"middle.hcl"`, `"between.hcl"`)
	renamed["between.hcl"] = files["middle.hcl"]
	assert.True(t, comparedAircraft(t, files, renamed).Same())

	called := maps.Clone(files)
	called[aircraftFile] = strings.NewReplacer(`run "middle"`, `run "between"`, "middle.floor", "between.floor", "middle.boom", "between.boom").Replace(files[aircraftFile])
	c = comparedAircraft(t, files, called)
	assert.Contains(t, c.changed(), "between.boom-rod.length")
	assert.Contains(t, c.changed(), "middle.boom-rod.length")
	assert.Equal(t, []string{"front", "between", "rear"}, c.runsVoid(t))
}

// Requirements are told apart within their run, so that one which comes in one run leaves
// the names of others as they are; so are those across runs.
func TestRequirementsOfRuns(t *testing.T) {
	files := inTwo(t)
	more := with(t, files, "front.hcl", "require \"rod-angle\" { least = 40 }", "require \"rod-angle\" { least = 40 }\nrequire \"rod-angle\" { least = 30 }")
	c := comparedAircraft(t, files, more)
	assert.Equal(t, []string{"front.rod-angle #2.least"}, c.changed())
	var titles []string
	for _, r := range c.Requirements {
		titles = append(titles, r.Title)
	}
	assert.Subset(t, titles, []string{"rod-angle (front)", "rod-angle #2 (front)", "rod-angle (rear)", "rod-angle", "travel"})
	assert.Equal(t, []string{"front", "rear"}, c.runsVoid(t))
}

// A rotor's track is void with what sets its own pitch. What a control is called counts, not
// what its run is.
func TestTrackOfTheRotorThatIsTouched(t *testing.T) {
	files := theDemo(t)
	v := aircraftOf(t, files)
	tracks := func(opened string) (runs []string) {
		for _, r := range comparedVersions(t, v, v, opened).Redo {
			if r.Step == StepTrack {
				runs = append(runs, r.Run)
			}
		}
		return runs
	}
	assert.Equal(t, []string{"tail"}, tracks("tail.pitch-link.to"))
	assert.Equal(t, []string{"collective", "mixing", "head"}, tracks("collective.floor-rod.from"))
	assert.Equal(t, []string{"collective", "mixing", "head"}, tracks("mixing.collar-rod.to"))
	assert.Empty(t, tracks("pedals.left-link.from"))
	silent := with(t, files, aircraftFile, "  craft = \"rotorcraft\"\n", "")
	assert.Len(t, PitchSetters(aircraftOf(t, silent).Result), len(PitchSetters(v.Result)), "each run tells its craft as well")

	chain := maps.Clone(inTwo(t))
	chain[aircraftFile] = strings.NewReplacer(`"front"`, `"collective"`, "front.deck", "collective.deck", "front.lever", "collective.lever", "front.hand", "collective.hand", "airplane", "rotorcraft").Replace(chain[aircraftFile])
	assert.Empty(t, PitchSetters(aircraftOf(t, chain).Result))
	chain["front.hcl"] = changedText(t, chain["front.hcl"], `control "hand"`, `control "collective"`)
	assert.Len(t, PitchSetters(aircraftOf(t, chain).Result), 4)
}

// An aircraft isn't compared with a run.
func TestTwoKinds(t *testing.T) {
	files := inTwo(t)
	_, err := Compare(aircraftOf(t, files), versionOf(t, files["front.hcl"]), nil)
	assert.ErrorIs(t, err, ErrTwoKinds)
	_, err = Compare(versionOf(t, files["front.hcl"]), aircraftOf(t, files), nil)
	assert.ErrorIs(t, err, ErrTwoKinds)
}

// Whatever is opened, every control that moves it, found by moving the whole aircraft, is
// void in its own run, and all that it moves is.
func TestEveryControlThatMovesItIsVoid(t *testing.T) {
	const moves = 1e-3 // degrees or a unit of length: far above what solving leaves
	v := aircraftOf(t, theDemo(t))
	movers := map[*linkage.Part]map[*linkage.Control]bool{}
	for _, s := range v.Result.Sweeps {
		for _, p := range s.Parts {
			if p.Most-p.Least > moves {
				if movers[p.Part] == nil {
					movers[p.Part] = map[*linkage.Control]bool{}
				}
				movers[p.Part][s.Control] = true
			}
		}
	}
	for _, j := range Joints(v.Result.Run, v.Run) {
		c, err := Compare(v, v, []Joint{j})
		require.NoError(t, err)
		assert.Empty(t, c.redone(Moved))
		void := c.runsVoid(t)
		for _, p := range moving(j.of) {
			for control := range movers[p] {
				assert.Contains(t, c.redoneIn(control.In.Name, Reached), control.Name, j.Name)
				for other, by := range movers {
					if by[control] && !slices.Contains(void, other.In.Name) {
						assert.Fail(t, j.Name, "%s moves with it", other.Name)
					}
				}
			}
		}
	}
}

// TestHuntEveryNumberOfAnAircraftCounts changes any number of any file of the demo's
// aircraft, which must show in some dimension, told with the run that it is of. The controls
// of runs that others drive are none: what these look at counts where they are runs alone.
func TestHuntEveryNumberOfAnAircraftCounts(t *testing.T) {
	files := theDemo(t)
	delete(files, "changed.hcl")
	delete(files, "changed-pedals.hcl")
	names := slices.Sorted(maps.Keys(files))
	run := func(files map[string]string) (*linkage.Run, error) {
		open := func(name string) (*linkage.Source, error) {
			return &linkage.Source{Name: name, Text: []byte(files[name])}, nil
		}
		source, _ := open(aircraftFile)
		return linkage.ReadWith(source, open)
	}
	whole, err := run(files)
	require.NoError(t, err)
	members := map[string]string{}
	for _, m := range whole.Aircraft.Members {
		members[m.File] = m.Name
	}
	hunt.Each(t, 150, func(t *testing.T, random *rand.Rand) {
		name := names[random.IntN(len(names))]
		lines := strings.Split(files[name], "\n")
		k := random.IntN(len(lines))
		code, comment, _ := strings.Cut(lines[k], "#")
		bare := quoted.ReplaceAllStringFunc(code, func(s string) string { return strings.Repeat("x", len(s)) })
		found := figureIn.FindAllStringSubmatchIndex(bare, -1)
		block := ""
		for _, line := range lines[:k+1] {
			if m := opens.FindStringSubmatch(line); m != nil {
				block = line
			}
		}
		driven := slices.ContainsFunc(whole.SameParts, func(s *linkage.SamePart) bool {
			return members[name] == s.Follows.In.Name && strings.HasPrefix(block, `control "`+ownName(s.Follows.Name, s.Follows.In)+`"`)
		})
		if len(found) == 0 || isDirection(lines[:k+1]) || driven {
			return
		}
		at := found[random.IntN(len(found))]
		was, err := strconv.ParseFloat(code[at[4]:at[5]], 64)
		require.NoError(t, err)
		now := strconv.FormatFloat(was*1.01+0.01, 'f', -1, 64)
		lines[k] = code[:at[4]] + now + code[at[5]:] + "#" + comment
		changed := maps.Clone(files)
		changed[name] = strings.Join(lines, "\n")
		other, err := run(changed)
		if err != nil {
			return // that number can't be another
		}
		list := differing(whole, other)
		assert.NotEmpty(t, list, "%s, line %d: %s", name, k+1, lines[k])
		for _, d := range list {
			if before := members[name]; before != "" {
				assert.True(t, strings.HasPrefix(d, before+"."), d)
			}
		}
	})
}

// A line of the whole aircraft is void with anything in it, one of a run with what reaches
// that.
func TestLinesOfTheWholeAircraft(t *testing.T) {
	v := aircraftOf(t, theDemo(t))
	v.Lines = []Line{{Step: StepSigned, Says: "Signature"}, {Run: "tail", Step: StepSigned, Says: "Signature"}}
	runs := func(opened string) (list []string) {
		for _, r := range comparedVersions(t, v, v, opened).Redo {
			list = append(list, r.Run)
		}
		return list
	}
	assert.Equal(t, []string{"", "tail"}, runs("pedals.left-link.from"))
	assert.Equal(t, []string{""}, runs("mixing.collar-rod.to"))
}
