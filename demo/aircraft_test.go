package demo_test

import (
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// Holes that two drawings give by one name are one hole: so near they must agree.
const (
	sameRadius = 1.0 // mm
	sameAngle  = 1.0 // degrees
)

// aircraftRuns are the files of the runs, by their names in the aircraft.
var aircraftRuns = map[string]string{
	"pedals": "pedals", "tail": "tail-run", "cyclic": "cyclic", "collective": "collective", "mixing": "mixing", "head": "head",
}

// joined is a part that stands on two drawings.
type joined struct {
	driver, driven         drawing
	first, second          *linkage.Part
	firstName, secondName  string
	stated                 string // "same", "opposite" or empty
	drivenByWhat, whatItIs *solve.Result
}

func aircraftResults(t *testing.T) map[string]*solve.Result {
	t.Helper()
	results := map[string]*solve.Result{}
	for name, file := range aircraftRuns {
		b, err := os.ReadFile(filepath.Join("aircraft", file+".hcl"))
		require.NoError(t, err)
		assert.Contains(t, string(b), "aircraft and figures are invented")
		results[name] = check(t, string(b))
	}
	return results
}

// joins reads the same-part blocks as they are written, without the tool's own reader.
func joins(t *testing.T, results map[string]*solve.Result) []joined {
	t.Helper()
	b, err := os.ReadFile("aircraft/aircraft.hcl")
	require.NoError(t, err)
	block := regexp.MustCompile(`same-part "[^"]*" \{\n  of +=\s*\[([\w-]+)\.([\w-]+), ([\w-]+)\.([\w-]+)\].*\n(?:  turns += "(\w+)".*\n)?\}`)
	var all []joined
	for _, m := range block.FindAllStringSubmatch(string(b), -1) {
		j := joined{driver: drawing{t, results[m[1]].Run}, driven: drawing{t, results[m[3]].Run}, firstName: m[1] + "." + m[2], secondName: m[3] + "." + m[4], stated: m[5]}
		j.first, j.second = j.driver.part(m[2]), j.driven.part(m[4])
		j.drivenByWhat, j.whatItIs = results[m[1]], results[m[3]]
		all = append(all, j)
	}
	require.Len(t, all, 7)
	return all
}

// told is a vector of a drawing in the aircraft's directions: forward, up, right.
func (d drawing) told(v linkage.Vec) linkage.Vec {
	var of [3]float64
	for i, direction := range []linkage.Direction{linkage.Forward, linkage.Up, linkage.Right} {
		axis, ok := d.Direction(direction)
		require.True(d.t, ok)
		of[i] = v.Dot(axis)
	}
	return linkage.Vec{X: of[0], Y: of[1], Z: of[2]}
}

func (d drawing) millimeters() float64 {
	if d.Units == linkage.Inches {
		return 25.4
	}
	return 1
}

func TestEveryRunOfTheAircraftHoldsAlone(t *testing.T) {
	for name, r := range aircraftResults(t) {
		assert.Equal(t, solve.Holds, r.Verdict, name)
	}
}

// The two drawings of a part agree: what it turns about, which way, and its holes.
func TestTheDrawingsOfAPartAgree(t *testing.T) {
	for _, j := range joins(t, aircraftResults(t)) {
		axis, other := j.driver.told(along(j.first)), j.driven.told(along(j.second))
		alike := axis.Dot(other)
		assert.InDelta(t, 1, math.Abs(alike), tight, "%s and %s turn about parallel bolts, or slide along parallel guides", j.firstName, j.secondName)
		turns := "same"
		if alike < 0 {
			turns = "opposite"
		}
		if j.stated != "" {
			assert.Equal(t, turns, j.stated, "%s and %s", j.firstName, j.secondName)
		}
		common := 0
		from := [2]linkage.Vec{j.first.Pivot, j.second.Pivot}
		for _, p := range j.first.Points {
			for _, q := range j.second.Points {
				if p.Name != q.Name {
					continue
				}
				if common++; common == 1 && j.first.Motion == linkage.Slides { // nothing turns: from a hole to the others
					from = [2]linkage.Vec{p.At, q.At}
					continue
				}
				a := j.driver.told(p.At.Sub(from[0])).Scale(j.driver.millimeters())
				b := j.driven.told(q.At.Sub(from[1])).Scale(j.driven.millimeters())
				if j.first.Motion != linkage.Slides {
					a, b = square(a, axis), square(b, axis)
				}
				if a.Norm() < sameRadius && b.Norm() < sameRadius {
					continue // on the bolt itself
				}
				assert.InDelta(t, a.Norm(), b.Norm(), sameRadius, "%s of %s and %s", p.Name, j.firstName, j.secondName)
				apart := math.Acos(math.Min(1, a.Dot(b)/(a.Norm()*b.Norm()))) * 180 / math.Pi
				assert.Less(t, apart, sameAngle, "%s of %s and %s", p.Name, j.firstName, j.secondName)
			}
		}
		assert.NotZero(t, common, "%s and %s have a hole by which they are told to stand alike", j.firstName, j.secondName)
	}
}

// along is what a part turns about, or slides along.
func along(p *linkage.Part) linkage.Vec {
	if p.Motion == linkage.Slides {
		return p.Slide
	}
	return p.Axis
}

// square is what is left of a vector square to an axis of length 1.
func square(v, axis linkage.Vec) linkage.Vec { return v.Sub(axis.Scale(v.Dot(axis))) }

// What a run is given is less than it could take, so that its own stops are not met.
func TestARunIsGivenLessThanItsStopsAllow(t *testing.T) {
	for _, j := range joins(t, aircraftResults(t)) {
		sign := 1.0
		if j.driver.told(along(j.first)).Dot(j.driven.told(along(j.second))) < 0 {
			sign = -1
		}
		low, high := math.Inf(1), math.Inf(-1)
		for _, s := range j.drivenByWhat.Sweeps {
			for _, p := range s.Parts {
				if p.Part == j.first {
					low, high = math.Min(low, math.Min(sign*p.Least, sign*p.Most)), math.Max(high, math.Max(sign*p.Least, sign*p.Most))
				}
			}
		}
		for _, s := range j.whatItIs.Sweeps {
			if s.Control.Of == j.second {
				assert.Less(t, s.Low, low-0.5, j.secondName)
				assert.Greater(t, s.High, high+0.5, j.secondName)
			}
		}
	}
}

// The same metal written in one run does what the aircraft's notes say: the stops at
// the hand end every travel.
func TestTheWholeAircraftInOneRunEndsAtTheHand(t *testing.T) {
	at := map[string][2]string{
		"p-pedals": {"p-right-stop", "p-left-stop"},
		"c-pitch":  {"c-aft", "c-forward"}, "c-roll": {"c-right", "c-left"},
		"l-collective": {"l-lever-up", "l-lever-down"}, "l-throttle": {"l-idle", "l-full"},
	}
	swept := map[string]bool{}
	for _, file := range []string{"tail", "main"} {
		b, err := os.ReadFile(filepath.Join("..", "testdata", "aircraft", "brackwren", file+".hcl"))
		require.NoError(t, err)
		r := check(t, string(b))
		assert.Equal(t, solve.Holds, r.Verdict, file)
		for _, s := range r.Sweeps {
			swept[s.Control.Name] = true
			for i, want := range at[s.Control.Name] {
				require.NotNil(t, s.Ends[i].Stop, s.Control.Name)
				assert.Equal(t, want, s.Ends[i].Stop.Name, s.Control.Name)
			}
		}
	}
	assert.Len(t, swept, len(at))
}

// written is what a file says, line by line, without comments.
func written(t *testing.T, name string) (lines []string) {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("aircraft", name+".hcl"))
	require.NoError(t, err)
	for line := range strings.Lines(string(b)) {
		line, _, _ = strings.Cut(line, "#")
		if line = strings.TrimSpace(line); line != "" {
			lines = append(lines, line)
		}
	}
	return lines
}

// The changed aircraft is the other one with half a turn of one rod end: what a thread of a
// pitch of 1 mm makes the rod longer, and what it is less engaged.
func TestTheChangedAircraftDiffersByHalfATurn(t *testing.T) {
	differ := func(name, changed string) (list []string) {
		old, now := written(t, name), written(t, changed)
		require.Len(t, now, len(old))
		for i := range old {
			if old[i] != now[i] {
				list = append(list, old[i]+" -> "+now[i])
			}
		}
		return list
	}
	assert.Equal(t, []string{`file = "pedals.hcl" -> file = "changed-pedals.hcl"`}, differ("aircraft", "changed"))
	assert.Equal(t, []string{"length       = 321 -> length       = 321.5", "engaged = 12.5 -> engaged = 12"}, differ("pedals", "changed-pedals"))
	b, err := os.ReadFile("aircraft/changed-pedals.hcl")
	require.NoError(t, err)
	assert.Equal(t, solve.Holds, check(t, string(b)).Verdict)
}
