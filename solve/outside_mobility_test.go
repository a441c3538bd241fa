package solve_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// What can't move as one, or is not held, must be told by name. The wording is
// not pinned here, the names and figures are.

// twoLevers are two equal upright levers, 100 apart, joined by a level rod.
func twoLevers() drawing {
	return drawing{
		bodies: []body{
			hinge("lever", at(0, 0), spot{"pin", at(0, 50)}, spot{"low", at(0, -30)}, spot{"side", at(-20, 30)}),
			hinge("horn", at(100, 0), spot{"pin", at(100, 50)}, spot{"low", at(100, -40)}, spot{"side", at(130, 20)}),
			{name: "airframe", fixed: true, points: []spot{{"lug", at(50, 120)}, {"eye", at(-60, 80)}}},
		},
		bars: []bar{{name: "link", from: "lever.pin", to: "horn.pin"}},
		rest: []string{control("lever", -20, 20)},
	}
}

func (d drawing) withBody(b body) drawing {
	d.bodies = append(append([]body{}, d.bodies...), b)
	return d
}

func (d drawing) withBar(name, from, to string) drawing {
	d.bars = append(append([]bar{}, d.bars...), bar{name: name, from: from, to: to})
	return d
}

func TestMobilityFaults(t *testing.T) {
	for _, c := range []struct {
		name    string
		d       drawing
		says    []string
		silence []string
	}{
		{
			"two rods close one loop",
			twoLevers().withBar("second", "lever.low", "horn.low"),
			[]string{"link", "second", "same loop"}, nil,
		}, {
			"the loop is named, not what has nothing to do with it",
			twoLevers().withBar("second", "lever.low", "horn.low").
				withBody(hinge("further", at(200, 0), spot{"pin", at(210, 50)})).withBar("innocent", "horn.side", "further.pin"),
			[]string{"link", "second"}, []string{"innocent"},
		}, {
			"a rod to the airframe locks the control",
			twoLevers().withBar("strut", "lever.side", "airframe.eye"),
			[]string{"strut"}, nil,
		}, {
			"a part that no rod holds",
			twoLevers().withBody(hinge("idle", at(200, 0), spot{"pin", at(200, 30)})),
			[]string{"idle"}, []string{"horn"},
		}, {
			"a beam on two rods",
			twoLevers().withBody(body{name: "beam", points: []spot{{"a", at(0, 90)}, {"b", at(100, 95)}}}).
				withBar("left", "lever.pin", "beam.a").withBar("right", "horn.pin", "beam.b"),
			[]string{"beam"}, nil,
		}, {
			"a beam on three parallel rods",
			twoLevers().withBody(body{name: "beam", points: []spot{{"a", at(20, 120)}, {"b", at(60, 130)}, {"c", at(90, 125)}}}).
				withBody(body{name: "floor", fixed: true, points: []spot{{"a", at(20, 80)}, {"b", at(60, 85)}, {"c", at(90, 70)}}}).
				withBar("p1", "floor.a", "beam.a").withBar("p2", "floor.b", "beam.b").withBar("p3", "floor.c", "beam.c"),
			[]string{"beam"}, nil,
		}, {
			"a beam on three rods that meet in a point",
			twoLevers().withBody(body{name: "beam", points: []spot{{"a", at(20, 20)}, {"b", at(60, 0)}, {"c", at(50, 50)}}}).
				withBody(body{name: "floor", fixed: true, points: []spot{{"a", at(40, 40)}, {"b", at(120, 0)}, {"c", at(100, 100)}}}).
				withBar("p1", "floor.a", "beam.a").withBar("p2", "floor.b", "beam.b").withBar("p3", "floor.c", "beam.c"),
			[]string{"beam"}, nil,
		}, {
			"a beam on three rods, two of which hold the same point the same way",
			twoLevers().withBody(body{name: "beam", points: []spot{{"a", at(0, 100)}, {"b", at(80, 100)}, {"c", at(40, 140)}}}).
				withBar("left", "lever.pin", "beam.a").withBar("right", "horn.pin", "beam.b").withBar("top", "airframe.lug", "beam.c").
				withBar("extra", "horn.side", "beam.c"),
			[]string{"extra"}, nil,
		}, {
			"two controls on one freedom",
			twoLevers().with("control \"other\" {\n  of = horn\n  from = -10\n  to = 10\n}\n"),
			[]string{"link"}, nil,
		}, {
			"a redundant bar of the eight-bar cell, driven along its line",
			overdriven(),
			[]string{"upper-link", "lower-link"}, nil,
		},
	} {
		told := refusal(t, c.d.text())
		for _, word := range c.says {
			assert.Contains(t, told, word, c.name)
		}
		for _, word := range c.silence {
			assert.NotContains(t, told, word, c.name)
		}
		assert.Contains(t, told, "test.hcl:", c.name)
	}
}

// overdriven is a cell of Peaucellier's with a guide on its line: it would
// move, but only because its lengths are just so. As a builder's run it has
// one rod more than freedoms, and is refused.
func overdriven() drawing {
	d := straightLineCell(60)
	q := d.bodies[3].points[0].at
	d.bodies[3] = body{name: "guide", slide: ref(at(0, 1)), points: []spot{{"q", q}}}
	d.bars[2] = bar{name: "last-link", from: "lower.d", to: "guide.q"}
	d.bars = append(d.bars, bar{name: "first-link", from: "upper.b", to: "guide.q"})
	d.rest = []string{control("crank", -20, 20)}
	return d
}

// TestRodThatCannotReach tells the rod and the gap: the levers stand 100
// apart, the horn's pin at most 50 from its pivot, so that from (0, 50) it is
// reached by a rod of sqrt(100^2 + 50^2) +- 50.
func TestRodThatCannotReach(t *testing.T) {
	diagonal := math.Hypot(100, 50)
	for _, length := range []float64{diagonal + 50 + 3, diagonal - 50 - 3} {
		d := twoLevers()
		d.bars[0].length = length
		told := refusal(t, d.text())
		assert.Contains(t, told, "link")
		assert.Regexp(t, `\b(3|3\.0+|2\.99+\d*|3\.00\d*) ?mm`, told, "the gap")
	}
}

// TestRodOfALoopThatCannotReach: in a block of several parts, too.
func TestRodOfALoopThatCannotReach(t *testing.T) {
	for _, length := range []float64{300, 5} {
		d := twoLevers().withBody(body{name: "beam", points: []spot{{"a", at(10, 90)}, {"b", at(100, 95)}, {"c", at(60, 150)}}}).
			withBar("left", "lever.pin", "beam.a").withBar("right", "horn.pin", "beam.b").withBar("top", "airframe.eye", "beam.c")
		d.bars[3].length = length
		told := refusal(t, d.text())
		assert.Contains(t, told, "top")
	}
}

// TestStopOverlapsAtNeutral tells the stop and by how much: two rounds of 10,
// 16 apart, overlap by 4.
func TestStopOverlapsAtNeutral(t *testing.T) {
	d := twoLevers()
	d.bodies[0].metal = []metal{{"boss", []vec{at(0, 30)}, 10}}
	d.bodies[2].metal = []metal{{"tube", []vec{at(-16, 30)}, 10}}
	d = d.with("stop \"jammed\" {\n  touch = [lever.boss, airframe.tube]\n}\n")
	told := refusal(t, d.text())
	assert.Contains(t, told, "jammed")
	assert.Regexp(t, `\b(4|4\.0+|3\.99+\d*) ?mm`, told, "the overlap")
}

// TestStopBehindNeutral: a rod set off its drawn length has moved the horn.
// Where the file doesn't say on which side a stop limits, the horn's place at
// neutral does; where it says so, the horn is past it.
func TestStopBehindNeutral(t *testing.T) {
	const passed = "stop \"passed\" {\n  of = horn\n  at = 1\n%s}\n"
	d := twoLevers()
	d.bars[0].length = 95 // the horn leans 5 of 50 towards the lever: some 5.7 degrees, positive
	_, s := sweepOf(t, d.with(fmt.Sprintf(passed, "")).text())
	near(t, 1, partOf(t, s, "horn").AtLow, 1e-9, "below neutral it limits downward")
	assert.Greater(t, partOf(t, s, "horn").Neutral, 5.5)

	told := refusal(t, d.with(fmt.Sprintf(passed, "  side = \"high\"\n")).text())
	assert.Contains(t, told, "passed")
	assert.Regexp(t, `\b4\.[67]\d* ?(°|deg)`, told, "the overlap")
}

// TestSeveralFaultsTogether: what is wrong in two places is told at once.
func TestSeveralFaultsTogether(t *testing.T) {
	d := twoLevers()
	d.bodies[0].metal = []metal{{"boss", []vec{at(0, 30)}, 10}, {"knob", []vec{at(0, -20)}, 5}}
	d.bodies[2].metal = []metal{{"tube", []vec{at(-16, 30)}, 10}, {"bar", []vec{at(-10, -20), at(-10, -50)}, 12}}
	d = d.with("stop \"upper\" {\n  touch = [lever.boss, airframe.tube]\n}\n", "stop \"lower\" {\n  touch = [lever.knob, airframe.bar]\n}\n")
	told := refusal(t, d.text())
	assert.Contains(t, told, "upper")
	assert.Contains(t, told, "lower")
}

// TestLooseCarriedAndSlides: a carried lever and a guide that nothing holds.
func TestLooseCarriedAndSlides(t *testing.T) {
	told := refusal(t, twoLevers().
		withBody(body{name: "rider", on: "horn.side", points: []spot{{"tip", at(160, 20)}}}).
		withBody(body{name: "shuttle", slide: ref(at(1, 1)), points: []spot{{"eye", at(200, 0)}}}).text())
	assert.Contains(t, told, "rider")
	assert.Contains(t, told, "shuttle")
}

// TestRodThroughTheAxis: in space a rod whose line meets the axis of what it
// should turn holds nothing.
func TestRodThroughTheAxis(t *testing.T) {
	told := refusal(t, drawing{
		bodies: []body{
			{name: "lever", pivot: ref(at(0, 0)), axis: ref(at(1, 0)), points: []spot{{"pin", at(0, 20)}}},
			{name: "horn", pivot: ref(at(100, 0)), axis: ref(at(0, 1)), points: []spot{{"pin", at(150, 30)}}},
		},
		bars: []bar{{name: "link", from: "lever.pin", to: "horn.pin"}},
		rest: []string{control("lever", -20, 20)},
	}.text())
	assert.Contains(t, told, "horn")
}

// Two rods in one hole: they are named first, with the part that no rod reaches, and not what
// is right elsewhere in the loop. The crank is driven by a lever; the horn goes without.
func TestTwoRodsInOneHole(t *testing.T) {
	const run = `run "Two cranks" {
  units = "mm"
}
part "lever" {
  pivot  = [0, 0]
  points = { pin = [0, 50], other = [0, 80] }
}
part "crank" {
  pivot  = [200, 0]
  points = { pin = [200, 50], far = [200, 90] }
}
part "horn" {
  pivot  = [200, 200]
  points = { pin = [260, 230] }
}
rod "first" {
  from = lever.pin
  to   = crank.pin
}
rod "second" {
  from = lever.other
  to   = %s
}
control "hand" {
  of = lever
}
%s`
	told := refusal(t, fmt.Sprintf(run, "crank.pin", ""))
	assert.Contains(t, told, `the rods "first" and "second" both end in crank.pin: one of them belongs elsewhere, perhaps on "horn", which no rod reaches; if both belong there, say second-path = true in one that only goes along`)
	assert.NotContains(t, told, "counted over", "as many are held as can move")
	told = refusal(t, strings.Replace(fmt.Sprintf(run, "crank.pin", ""), "lever.other\n", "lever.pin\n", 1))
	assert.Contains(t, told, `the rods "first" and "second" both go between lever.pin and crank.pin: one of them belongs elsewhere, perhaps on "horn"`)
	third := "rod \"third\" {\n  from = crank.far\n  to   = horn.pin\n}\n"
	told = refusal(t, fmt.Sprintf(run, "crank.pin", third))
	assert.Contains(t, told, `the rods "first" and "second" both end in crank.pin and close the same loop: one of them belongs in another hole, or is one too many`)
	assert.Contains(t, told, "counted over the whole run, the parts can move in 3 ways, and the rods hold 3 of them, the controls 1")
	told = refusal(t, fmt.Sprintf(run, "crank.far", third))
	assert.Contains(t, told, `the rods "first" and "second" close the same loop: take one of them away`, "each in its own hole")
	// A third rod from the lever to the horn closes a loop that goes through a shared hole,
	// which may be right: it is to be looked at first, and no more.
	told = refusal(t, fmt.Sprintf(strings.Replace(run, "to   = %s", "to   = horn.pin", 1)+"rod \"fourth\" {\n  from = crank.pin\n  to   = horn.pin\n}\n%[2]s", "", ""))
	assert.Contains(t, told, `look first whether one of them belongs in another hole; if not, they close the same loop with the rod`)
}
