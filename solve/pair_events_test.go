package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

func TestPairPulledInLineIsAToggle(t *testing.T) {
	// Arms of 110 against 30: the crosshead is drawn all the way round to where its
	// upper arm points at its conduit, at [-300, 60] from its pivot. There the other
	// cable hangs loose, and nothing turns it on.
	text := replaceOnce(t, symmetric, "points = { up = [0, 60], down = [0, -60] }\n}\npart \"crosshead\"", "points = { up = [0, 110], down = [0, -110] }\n}\npart \"crosshead\"")
	text = replaceOnce(t, text, "arms  = { up = [0, 60], down = [0, -60], eye = [-20, 0] }", "arms  = { up = [0, 30], down = [0, -30], eye = [-20, 0] }")
	_, s := sweepOf(t, text)
	require.Equal(t, solve.ByToggle, s.Ends[1].Cause)
	require.Equal(t, solve.ByToggle, s.Ends[0].Cause)
	near(t, deg(math.Atan2(60, -300))-90, partOf(t, s, "crosshead").AtHigh, 1e-7, "in line")
	require.False(t, s.Lost)
	for _, c := range s.Critical {
		if c.At == s.High && c.Kind == solve.Toggle {
			require.Equal(t, "crosshead", c.Part.Name)
			require.Nil(t, c.Rod)
			require.Equal(t, "up", c.Cable.Name)
			require.Equal(t, "up", c.InLine.Name)
		}
		if c.At == s.Low && c.Kind == solve.Toggle {
			require.Equal(t, "up", c.Cable.Name)
			require.Equal(t, "down", c.InLine.Name)
		}
	}
	at, ok := s.Sample(s.High)
	require.True(t, ok)
	for i, k := range s.Series() {
		if k.Kind == solve.SeriesTension && k.Cable.Name == "down" {
			nearAt(t, 0, at.Values[i], 1e-6, "loose")
		}
		if k.Kind == solve.SeriesTension && k.Cable.Name == "up" {
			require.Greater(t, *at.Values[i], 100.0)
		}
	}
}

// crossed is the symmetric pair with the crosshead's cables crossed and soft, so
// that tension takes away from what keeps it in the middle. With M the conduit
// from the pivot, w from there to the arm's end and n its length, p' = w.a/n and
// p” = (M.r - p' p')/n.
func crossed(t *testing.T, pretension float64) string {
	text := strings.ReplaceAll(symmetric, "stiffness = 38", "stiffness = 1")
	text = replaceOnce(t, text, "aft = [700, 60], low = [700, -60]", "aft = [700, -60], low = [700, 60]")
	return replaceOnce(t, text, "pretension = 120", "pretension = "+num(pretension))
}

func TestPairDrawnUpHarderThanItIsStiffIsRefused(t *testing.T) {
	n := math.Hypot(300, 120)
	p1 := 300 * 60 / n
	p2 := (-60*60 - p1*p1) / n
	most := -p1 * p1 / p2 // e at which K = sum of k (p' p' + e p'') is nothing
	check(t, crossed(t, most*0.99))
	require.Contains(t, refusal(t, crossed(t, most*1.01)), `the pair "lift" doesn't hold "crosshead"`)
}

func TestPairGoesOverCenterWhereItsStiffnessEnds(t *testing.T) {
	n := math.Hypot(300, 120)
	p1 := 300 * 60 / n
	p2 := (-60*60 - p1*p1) / n
	pretension := -p1 * p1 / p2 * 0.97
	run := read(t, crossed(t, pretension))
	_, result := judgedAs(t, run)
	s := result.Sweeps[0]
	require.False(t, s.Lost)
	require.Equal(t, solve.ByToggle, s.Ends[1].Cause)
	near(t, -s.Low, s.High, 1e-7, "both sides alike")
	for _, c := range s.Critical {
		require.Nil(t, c.InLine)
	}
	// The energy by itself: where the travel ends its second rate is nothing.
	energy := func(a, b float64) (sum float64) {
		for _, side := range []float64{1, -1} {
			leg := func(about, angle, mx, my float64) float64 {
				return math.Hypot(about-side*60*math.Sin(angle)-mx, side*60*math.Cos(angle)-my)
			}
			e := leg(0, a, 300, side*60) - 300 + leg(1000, b, 700, -side*60) - n + pretension
			sum += e * e / 2
		}
		return sum
	}
	bend := func(x, turned float64) float64 {
		const h = 1e-4
		a, b := rad(x), rad(turned)
		return (energy(a, b+h) - 2*energy(a, b) + energy(a, b-h)) / (h * h)
	}
	crosshead := partOf(t, s, "crosshead")
	full := bend(0, 0)
	require.Positive(t, full)
	require.Less(t, math.Abs(bend(s.High, crosshead.AtHigh)), 0.01*full)
	for _, share := range []float64{0.2, 0.5, 0.9} {
		require.Positive(t, bend(share*s.High, solveAt(t, s, share*s.High).Travel(crosshead.Part)))
	}
}

// behind hangs a beam on what the pair holds that rods alone hold, so that it is
// closed by Newton's method.
const behind = `fixed "post" {
  points = { near = [3200, 150], far = [3300, 110] }
}
part "beam" {
  points = { a = [3060, 100], b = [3200, 100], c = [3160, 100] }
}
rod "drives" {
  from = tail.rim
  to   = beam.a
}
rod "holds" {
  from = beam.b
  to   = post.near
}
rod "steadies" {
  from = beam.c
  to   = post.far
}
`

func TestWhatHangsOnAPairGoesOnWhereItGoesSlack(t *testing.T) {
	text := replaceOnce(t, quadrants+behind, "winds     = [\"up\", \"down\"]\n  stiffness = 30", "winds     = [\"up\", \"down\"]\n  stiffness = 60")
	text = replaceOnce(t, text, "from = -60\n  to   = 60", "from = -42\n  to   = 20")
	run, s := sweepOf(t, text)
	require.False(t, s.Lost)
	require.Equal(t, -42.0, s.Low)
	require.Len(t, cableOf(t, s, "left").Slack, 1)
	near(t, deg(-0.6), cableOf(t, s, "left").Slack[0][1], 1e-9*62, "where it begins")
	// Everything goes on without a jump.
	beam := pointNamed(t, run, "beam.a")
	before, after := solveAt(t, s, deg(-0.6)+1e-7), solveAt(t, s, deg(-0.6)-1e-7)
	require.Less(t, before.Point(beam).Sub(after.Point(beam)).Norm(), 1e-6)
	require.Greater(t, solveAt(t, s, s.Low).Point(beam).Sub(beam.Get().At).Norm(), 10.0)
}

// TestPairsDoNotCareHowTheyAreDrawn turns a pair over, tips it out of the drawing
// and writes its blocks the other way round.
func TestPairsDoNotCareHowTheyAreDrawn(t *testing.T) {
	const seed = 8
	r := rand.New(rand.NewPCG(seed, seed))
	for n := range 6 {
		slack := []float64{0, 5}[n%2]
		tilt := [2]float64{2 * r.Float64(), 2 * r.Float64()}
		some := func(of, spread float64) float64 { return of + spread*(2*r.Float64()-1) }
		var numbers []float64
		for _, v := range []float64{300, 60, 300, -60, 700, 60, 700, -60, 0, 60, 0, -60, 1000, 60, 1000, -60} {
			numbers = append(numbers, some(v, 15))
		}
		write := func(place func(x, y float64) (float64, float64, float64), reversed bool) string {
			at := func(x, y float64) string {
				a, b, c := place(x, y)
				return fmt.Sprintf("[%s, %s, %s]", num(a), num(b), num(c))
			}
			p := func(i int) string { return at(numbers[2*i], numbers[2*i+1]) }
			ox, oy, oz := place(0, 0)
			ux, uy, uz := place(1, 0)
			vx, vy, vz := place(0, 1)
			e := linkage.Vec{X: ux - ox, Y: uy - oy, Z: uz - oz}
			f := linkage.Vec{X: vx - ox, Y: vy - oy, Z: vz - oz}
			axis := e.Cross(f)
			k := fmt.Sprintf("[%s, %s, %s]", num(axis.X), num(axis.Y), num(axis.Z))
			blocks := []string{
				fmt.Sprintf("fixed \"frame\" {\n points = { up = %s, down = %s, aft = %s, low = %s }\n}\n", p(0), p(1), p(2), p(3)),
				fmt.Sprintf("part \"lever\" {\n pivot = %s\n axis = %s\n points = { up = %s, down = %s }\n}\n", at(0, 0), k, p(4), p(5)),
				fmt.Sprintf("part \"crosshead\" {\n pivot = %s\n axis = %s\n points = { up = %s, down = %s }\n}\n", at(1000, 0), k, p(6), p(7)),
				"cable \"up\" {\n from = lever.up\n to = crosshead.up\n conduit = [frame.up, frame.aft]\n stiffness = 38\n}\n",
				"cable \"down\" {\n from = lever.down\n to = crosshead.down\n conduit = [frame.down, frame.low]\n stiffness = 25\n}\n",
				"pair \"lift\" {\n cables = [up, down]\n pretension = 120\n}\n",
				"control \"stick\" {\n of = lever\n from = -30\n to = 30\n}\n",
			}
			if reversed {
				for i := range len(blocks) / 2 {
					blocks[i], blocks[len(blocks)-1-i] = blocks[len(blocks)-1-i], blocks[i]
				}
			}
			return "run \"r\" {\n units = \"mm\"\n}\n" + strings.Join(blocks, "")
		}
		flat := func(x, y float64) (float64, float64, float64) { return x, y, 0 }
		judged := func(text string) *solve.Sweep {
			run := read(t, text)
			for _, c := range run.Cables {
				c.Taken = -slack
			}
			_, result := judgedAs(t, run)
			return result.Sweeps[0]
		}
		plain := judged(write(flat, false))
		for what, other := range map[string]*solve.Sweep{
			"blocks the other way round": judged(write(flat, true)),
			"turned over":                judged(write(func(x, y float64) (float64, float64, float64) { return x, -y, 0 }, false)),
			"tipped": judged(write(func(x, y float64) (float64, float64, float64) {
				s, c := math.Sincos(tilt[0])
				x, z := c*x, s*x
				s, c = math.Sincos(tilt[1])
				return x + 40, c*y - s*z, s*y + c*z - 70
			}, false)),
		} {
			a, b := partOf(t, plain, "crosshead"), partOf(t, other, "crosshead")
			near(t, a.Neutral, b.Neutral, 1e-9, what)
			near(t, a.AtLow, b.AtLow, 1e-8, what)
			near(t, a.AtHigh, b.AtHigh, 1e-8, what)
			for _, name := range []string{"up", "down"} {
				c, d := cableOf(t, plain, name), cableOf(t, other, name)
				nearAt(t, *c.Neutral, d.Neutral, 1e-7, what)
				nearAt(t, *c.Most, d.Most, 1e-7, what)
				require.Equal(t, len(c.Slack), len(d.Slack), what)
				for i := range c.Slack {
					near(t, c.Slack[i][0], d.Slack[i][0], 1e-7, what)
					near(t, c.Slack[i][1], d.Slack[i][1], 1e-7, what)
				}
			}
		}
	}
}

func TestPairsInARowAndInLoopsAreRefused(t *testing.T) {
	second := `part "last" {
  pivot  = [2000, 0]
  points = { up = [2000, 60], down = [2000, -60] }
}
fixed "more" {
  points = { up = [1300, 60], down = [1300, -60], aft = [1700, 60], low = [1700, -60] }
}
cable "on-up" {
  from      = crosshead.up
  to        = last.up
  conduit   = [more.up, more.aft]
  stiffness = 38
}
cable "on-down" {
  from      = crosshead.down
  to        = last.down
  conduit   = [more.down, more.low]
  stiffness = 38
}
pair "on" {
  cables     = [on-up, on-down]
  pretension = 120
}
`
	require.Contains(t, refusal(t, symmetric+second), `the pair "on" pulls on what the pair "lift" holds: two pairs in a row can't be balanced here`)
	sprung := replaceOnce(t, second[:strings.Index(second, "cable \"on-down\"")], "stiffness = 38", `spring = "minus"`)
	require.Contains(t, refusal(t, symmetric+sprung), `the spring that keeps the cable "on-up" taut pulls on what the pair "lift" holds`)
	check(t, symmetric+strings.Replace(sprung, `spring = "minus"`, "pushes = true", 1))

	// Both cables on the same side.
	same := replaceOnce(t, symmetric, "aft = [700, 60], low = [700, -60]", "aft = [700, 60], low = [1300, -60]")
	require.Contains(t, refusal(t, same), `both cables of the pair "lift" pull "crosshead" the same way as drawn`)
	// In line with its arm.
	require.Contains(t, refusal(t, replaceOnce(t, symmetric, "low = [700, -60]", "low = [1000, -300]")),
		`"crosshead" stands on center as drawn: the cable "down" is in line with what it should move`)
	// A conduit held on what the part drives in turn.
	rides := symmetric + `part "rider" {
  pivot  = [700, -100]
  points = { aft = [700, 60], eye = [680, -20] }
}
rod "link" {
  from = crosshead.eye
  to   = rider.eye
}
`
	require.Contains(t, refusal(t, replaceOnce(t, rides, "conduit   = [frame.up, frame.aft]", "conduit   = [frame.up, rider.aft]")),
		`the pair "lift" closes a loop together with the rod "link"`)
	// Two pairs on one part.
	require.Contains(t, refusal(t, symmetric+strings.NewReplacer("last.", "crosshead.", "more.", "frame.", "crosshead.up\n  to", "lever.up\n  to", "crosshead.down\n  to", "lever.down\n  to").Replace(second[strings.Index(second, "cable \"on-up\""):])),
		`close the same loop`)
}

func TestTemperatureDrawsOpenCablesUp(t *testing.T) {
	// 7.4 lbf per 10 F for a 1/8 in 7x19 galvanized cable in a rigid structure of
	// 6061, whatever its length: worked out by hand from the expansions and the
	// stretch (linkage/wire_test.go has their sources), so it checks the reckoning.
	at := func(run *linkage.Run, celsius float64) *linkage.Run {
		run, err := solve.Temper(run, celsius)
		require.NoError(t, err)
		return run
	}
	for _, length := range []float64{60, 124, 300} {
		text := strings.Replace(strings.ReplaceAll(quadrants, "stiffness = 30", "wire      = \"7x19 1/8 galvanized\"\n  run       = "+num(length)), `"mm"`, `"in"`, 1)
		text = strings.Replace(text, "radius    = [50, 60]", "radius    = [60, 60]", 1)
		run := read(t, text)
		_, result := judgedAs(t, at(run, 15+10/1.8))
		for _, c := range result.Sweeps[0].Cables {
			require.EqualValues(t, "lbf", c.Unit)
			nearAt(t, 120+7.4, c.Neutral, 0.05, "by hand")
			nearAt(t, 120+100/(8*8*1.40e-5)*(13.1e-6-6.5e-6)*10, c.Neutral, 1e-8, "from the figures")
			nearAt(t, *c.Neutral, c.Most, 1e-8, "the same everywhere")
		}
		_, result = judgedAs(t, at(run, 15))
		nearAt(t, 120, result.Sweeps[0].Cables[0].Neutral, 1e-9, "as drawn up")
		_, result = judgedAs(t, at(run, -140))
		require.NotNil(t, result.Sweeps[0].LostMotion, "so cold that it hangs loose")
	}
	steel := read(t, strings.Replace(strings.ReplaceAll(quadrants, "stiffness = 30", "wire      = \"7x7 1/8 galvanized\"\n  run       = 3150"), "6061-T6", "steel", 1))
	_, result := judgedAs(t, at(steel, 35))
	nearAt(t, 120, result.Sweeps[0].Cables[0].Neutral, 1e-9, "both alike")
}

func TestTemperatureIsRefusedWhereFiguresAreMissing(t *testing.T) {
	wired := strings.ReplaceAll(quadrants, "stiffness = 30", "wire      = \"7x19 1/8 galvanized\"\n  run       = 3150")
	for text, says := range map[string]string{
		wired: "",
		strings.Replace(wired, "  rigged-at = 15\n", "", 1):          "test.hcl:1,1: what the temperature does can't be told without the one at which the cables were drawn up",
		strings.Replace(wired, "  airframe  = \"6061-T6\"\n", "", 1): "what the airframe is of",
		quadrants: `what the temperature does to the cable "left" can't be told without what it is made of`,
		strings.Replace(wired, "galvanized", "stainless", 1): `what the temperature does to the cable "left" can't be told: no figure of how much a stainless one grows`,
		symmetric: `what the temperature does to the conduit cable "up" can't be told`,
		chainless: "there is no open cable in this run",
	} {
		run := read(t, text)
		_, err := solve.Temper(run, 35)
		if says == "" {
			require.NoError(t, err)
			continue
		}
		require.ErrorContains(t, err, says)
		for _, c := range run.Cables {
			require.Zero(t, c.Grown, "nothing is half done")
		}
	}
}

// chainless is a run without cables.
const chainless = `run "None" {
  units = "mm"
}
part "lever" {
  pivot = [0, 0]
  points = { pin = [0, 60] }
}
control "hand" {
  of   = lever
  from = -10
  to   = 10
}
`

func TestPairWithAnotherControlHeld(t *testing.T) {
	// The mouth of one conduit rides on a second control: held off neutral it draws
	// the pair to one side.
	text := symmetric + `part "trim" {
  slide  = [1, 0]
  points = { aft = [700, 60] }
}
control "trimmer" {
  of   = trim
  from = -5
  to   = 5
  held = [-3, 0, 3]
}
`
	text = replaceOnce(t, text, "conduit   = [frame.up, frame.aft]", "conduit   = [frame.up, trim.aft]")
	result := check(t, text)
	require.Len(t, result.Sweeps, 4)
	crosshead := partOf(t, result.Sweeps[0], "crosshead").Part
	byTrim := result.Sweeps[3]
	require.Equal(t, "trimmer", byTrim.Control.Name)
	for i, at := range []float64{-3, 0, 3} {
		s := result.Sweeps[i]
		near(t, at, s.Held[0].At, 0, "held")
		near(t, solveAt(t, byTrim, at).Travel(crosshead), solveAt(t, s, 0).Travel(crosshead), 1e-9, "the same place from both sides")
		near(t, solveAt(t, byTrim, at).Travel(crosshead), partOf(t, s, "crosshead").Neutral, 1e-9, "the same place from both sides")
	}
	// As drawn the arms are square: 1 mm shorter in one leg turns it by 1/120.
	near(t, deg(3.0/120), math.Abs(partOf(t, result.Sweeps[0], "crosshead").Neutral), 0.01, "half goes into the other cable")
}
