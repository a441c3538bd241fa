package main

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"fullfree/linkage/hunt"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// verdictOf is what the tests read of a check.
type verdictOf struct {
	Holds        *bool
	Requirements []struct {
		Kind, Name, Unit, Says string
		Holds                  *bool
		Worst, At              *float64
		Limit                  float64
	}
}

// settings are the ends that are told to be set as they can't be.
func (j verdictOf) settings() (names []string) {
	for _, r := range j.Requirements {
		if r.Kind == "setting" {
			names = append(names, r.Name)
		}
	}
	return names
}

// barsSet is threaded with something else in its from end, and required.
func barsSet(engaged, required string) string {
	text := strings.Replace(threaded, "engaged = 10 + 1/2        # by the rule\n", engaged+"\n", 1)
	head, _, _ := strings.Cut(text, "require \"together\"")
	return head + required
}

const (
	loosely  = "require \"together\" {\n  of     = [lever, crank]\n  within = 5\n}\n"
	tightly  = "require \"together\" {\n  of     = [lever, crank]\n  within = 0.01\n}\n"
	threads  = "require \"engagement\" {}\n"
	noThread = ""
)

// TestOneVerdictInEveryCommand: a run as it is set gets one verdict from every command
// that judges it, whatever is required of it.
func TestOneVerdictInEveryCommand(t *testing.T) {
	f, h := false, true
	for _, c := range []struct {
		engaged, required string
		with              string // nothing: as filed
		holds             *bool
		status            int
		settings          []string
		headline          string
	}{
		{"engaged = 10", loosely, "", &h, exitOK, nil, "HOLDS: the one requirement, stop to stop."},
		{"engaged = 10", noThread, "", nil, exitFailed, nil, "NOTHING WAS REQUIRED, so there is no verdict."},
		{"engaged = 5", loosely, "", &f, exitShort, []string{"link.from"}, "FALLS SHORT in the setting of link.from. Nothing required falls short."},
		{"engaged = 5\n    least = 4", loosely, "", &h, exitOK, nil, "HOLDS: the one requirement, stop to stop."},
		{"engaged = 5", tightly, "", &f, exitShort, []string{"link.from"}, "FALLS SHORT in the setting of link.from, and in 1 of 1 requirement: together."},
		{"engaged = 5", noThread, "", &f, exitShort, []string{"link.from"}, "FALLS SHORT in the setting of link.from. Nothing was required."},
		{"engaged = 5", threads, "", &f, exitShort, nil, "FALLS SHORT in 1 of 1 requirement: engagement."},
		{"engaged = 0.01", loosely, "", &f, exitShort, []string{"link.from"}, "FALLS SHORT in the setting of link.from. Nothing required falls short."},
		{"engaged = 16", loosely, "", &f, exitShort, []string{"link.from"}, "FALLS SHORT in the setting of link.from. Nothing required falls short."},
		{"engaged = 10", loosely, "link.from=0.3", &f, 0, []string{"link.from"}, "FALLS SHORT in the setting of link.from. Nothing required falls short."},
		{"engaged = 10", threads, "link.from=0.3", &f, 0, []string{"link.from"}, "FALLS SHORT in the setting of link.from. Nothing required falls short."},
		{"engaged = 10", loosely, "link.from=0.5", &h, 0, nil, "HOLDS: the one requirement, stop to stop."},
		{"engaged = 10", loosely, "link.from=1.5,link.to=-4", &f, 0, []string{"link.from", "link.to"}, "FALLS SHORT in the setting of link.from and link.to. Nothing required falls short."},
		{"engaged = 10", loosely, "link.from=10", &f, 0, []string{"link.from"}, "FALLS SHORT in the setting of link.from"},
		{"engaged = 13\n    least = 9", loosely, "link.from=-1.5", &f, 0, []string{"link.from"}, "FALLS SHORT in the setting of link.from. Nothing required falls short."},
	} {
		about := fmt.Sprintf("%s, %q, %s", c.engaged, c.required, c.with)
		text, with := barsSet(c.engaged, c.required), c.with
		agrees := func(what string, j verdictOf) {
			assert.Equal(t, c.holds, j.Holds, "%s: %s", about, what)
			assert.Equal(t, c.settings, j.settings(), "%s: %s", about, what)
		}
		if with == "" {
			with = "link.to=0"
			checked := fullfree(text, "check", "-", "--json")
			assert.Equal(t, c.status, checked.status, about)
			var j verdictOf
			decode(t, checked.out, &j)
			agrees("check", j)
			report := fullfree(text, "check", "-", "--full")
			assert.Equal(t, c.status, report.status, about)
			assert.Contains(t, oneLine(report.out), c.headline, about)
			assert.Equal(t, len(c.settings), strings.Count(report.out, "  SHORT  setting"), about)
			drawn := oneLine(strings.Join(svgTexts(fullfree(text, "draw", "-", "-o", "-").out), " "))
			assert.Contains(t, drawn, c.headline, about)
		}
		var compared struct{ Variants []struct{ Check verdictOf } }
		decode(t, fullfree(text, "compare", "-", "--with", with, "--json").out, &compared)
		agrees("compare", compared.Variants[1].Check)
		assert.Contains(t, oneLine(fullfree(text, "compare", "-", "--with", with).out), c.headline, about)

		s := serveWorkbench(t, text)
		turns := "{}"
		if c.with != "" {
			turns = `{"turns":{"` + strings.NewReplacer("=", `":`, ",", `,"`).Replace(c.with) + `}}`
		}
		tried := s.try(turns)
		assert.Empty(t, tried.Fault, about)
		assert.Contains(t, tried.Verdict.Headline, c.headline, about)
		var told []string
		for _, r := range tried.Requirements {
			if name, ok := strings.CutPrefix(r.Title, "setting "); ok {
				told = append(told, strings.Trim(name, `"`))
			}
		}
		assert.Equal(t, c.settings, told, about)
		mark := "open"
		if c.holds != nil {
			mark = map[bool]string{true: "holds", false: "short"}[*c.holds]
		}
		assert.Equal(t, mark, tried.Verdict.Mark, about)
	}
}

// A setting in the results for machines: by hand.
func TestSettingForMachines(t *testing.T) {
	var j verdictOf
	decode(t, fullfree(barsSet("engaged = 5", loosely), "check", "-", "--json").out, &j)
	r := j.Requirements[1]
	assert.Equal(t, []any{"setting", "link.from", "mm", 9.0}, []any{r.Kind, r.Name, r.Unit, r.Limit})
	assert.False(t, *r.Holds)
	assert.Equal(t, 5.0, *r.Worst)
	assert.Nil(t, r.At)
	assert.Equal(t, "link.from falls short of thread: in the rod 5.00 mm, wanted 9.00 mm, missed by 4.00 mm. The maker's figure is missing for link.from: 1.5 diameters of thread stand in for it (common practice, no source); the maker's figure rules.", r.Says)

	var compared struct{ Variants []struct{ Check verdictOf } }
	decode(t, fullfree(barsSet("engaged = 10", loosely), "compare", "-", "--with", "link.from=-0.3", "--json").out, &compared)
	r = compared.Variants[1].Check.Requirements[1]
	assert.Equal(t, []any{"setting", "link.from", "turns", 0.5}, []any{r.Kind, r.Name, r.Unit, r.Limit})
	assert.Equal(t, -0.3, *r.Worst)
	assert.Equal(t, "link.from can't be turned 0.3 turns in: it goes by half a turn at a time.", r.Says)
}

// What rig finds is judged as compare judges the same turns, to the letter but for how
// sure that is, which rig doesn't reckon.
func TestRigJudgesAsCompareDoes(t *testing.T) {
	for _, text := range []string{threaded, barsSet("engaged = 5", loosely), barsSet("engaged = 9", threads+tightly)} {
		var rigged struct {
			Found    bool
			Settings []struct {
				Turns map[string]float64
				Holds *bool
				Check json.RawMessage
			}
		}
		decode(t, fullfree(text, "rig", "-", "--json").out, &rigged)
		require.NotEmpty(t, rigged.Settings)
		for _, s := range rigged.Settings {
			var with []string
			for end, turns := range s.Turns {
				with = append(with, fmt.Sprintf("%s=%v", end, turns))
			}
			if len(with) == 0 {
				with = []string{"link.to=0"}
			}
			var compared struct {
				Variants []struct{ Check map[string]any }
			}
			decode(t, fullfree(text, "compare", "-", "--with", strings.Join(with, ","), "--json").out, &compared)
			var own map[string]any
			decode(t, string(s.Check), &own)
			want := compared.Variants[1].Check
			for _, of := range []map[string]any{own, want} {
				delete(of, "assumed")
				for _, r := range of["requirements"].([]any) {
					delete(r.(map[string]any), "band")
					delete(r.(map[string]any), "sure")
				}
			}
			assert.Equal(t, want, own, "%v", with)
			if *s.Holds { // else the pins may be missed
				assert.Equal(t, true, want["holds"])
			}
		}
	}
}

// Nuts that rig doesn't turn stand in the way where they can't be so.
func TestRigTellsOfNutsThatFallShort(t *testing.T) {
	text := barsSet("engaged = 10", loosely) + `
part "far" {
  pivot  = [400, 0]
  points = { horn = [400, -60] }
}
fixed "frame" {
  points = { near = [240, -60], end = [360, -60] }
}
cable "push" {
  from    = crank.horn
  to      = far.horn
  conduit = [frame.near, frame.end]
  pushes  = true
  end "conduit-from" {
    thread  = "M6x1"
    engaged = 5
  }
}
`
	got := fullfree(text, "rig", "-")
	assert.Equal(t, exitShort, got.status, got.err)
	said := oneLine(got.out)
	assert.Contains(t, said, "NO SETTING MEETS ALL: below is the closest, and what stands in its way.")
	assert.Contains(t, said, "thread enough in push.conduit-from: no setting that was searched meets it. Something else than a rod end must change.")
	assert.Contains(t, said, "FALLS SHORT in the setting of push.conduit-from. Nothing required falls short.")
	assert.Equal(t, exitShort, fullfree(text, "check", "-").status)
}

// A book tells it as check does: in its headline, in full, and in its table.
func TestBookTellsASettingThatCantBe(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("bars.hcl", []byte(barsSet("engaged = 5", loosely)), 0o644))
	got := fullfree("", "report", "bars.hcl", "-o", "book.html")
	require.Equal(t, exitOK, got.status, got.err)
	page, err := os.ReadFile("book.html")
	require.NoError(t, err)
	assert.Contains(t, string(page), "FALLS SHORT in the setting of link.from. Nothing required falls short.")
	assert.Contains(t, string(page), "missed by 4.00 mm")
	assert.Contains(t, string(page), "at least 9.00 mm")
}

// TestHuntCheckAgreesWithCompare: what compare says of turns is what check says of the
// file with the length and the thread that these turns leave.
func TestHuntCheckAgreesWithCompare(t *testing.T) {
	hunt.Each(t, 12, func(t *testing.T, random *rand.Rand) {
		halves := random.IntN(31) - 15
		turns := float64(halves) / 2
		required := []string{loosely, tightly, threads, noThread, threads + loosely}[random.IntN(5)]
		filed := barsSet("engaged = 10", required)
		in := 10 - turns
		if in <= 0 {
			return // no file says so
		}
		set := strings.Replace(barsSet(fmt.Sprintf("engaged = %g", in), required), "length = 199 + 1/2", fmt.Sprintf("length = %g", 199.5+turns), 1)
		checked := fullfree(set, "check", "-", "--json")
		var compared struct {
			Variants []struct{ Check map[string]any }
		}
		decode(t, fullfree(filed, "compare", "-", "--with", fmt.Sprintf("link.from=%g", turns), "--json").out, &compared)
		var want map[string]any
		decode(t, checked.out, &want)
		require.Equal(t, want, compared.Variants[1].Check, "%g turns, %q", turns, required)
	})
}
