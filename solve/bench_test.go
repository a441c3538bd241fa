package solve

import (
	"fmt"
	"math"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
)

// The chain of the limit: every stage a plane four-bar of the same dimensions.
const (
	stageX, stageY = 180.0, 20.0
	stageDriver    = 60.0
	stageDriven    = 60.0
	stageRod       = 181.1
	stageDrawn     = 1.5 // radians: how the first arm is drawn
	chainSwing     = 0.1 // radians either way
)

var stageCounts = []int{10, 100, 1000}

// chainText writes a chain of four-bars as a file.
func chainText(stages int) string {
	var b strings.Builder
	b.WriteString("run \"chain\" {\n units = \"mm\"\n}\n")
	part := func(i int, x, y float64, angle float64) {
		fmt.Fprintf(&b, "part \"arm-%d\" {\n pivot = [%v, %v]\n points = { pin = [%v, %v] }\n}\n", i, x, y, x+stageDriver*math.Cos(angle), y+stageDriver*math.Sin(angle))
	}
	c, s := math.Cos(stageDrawn), math.Sin(stageDrawn)
	part(0, 0, 0, stageDrawn)
	for i := 1; i <= stages; i++ {
		c, s, _ = limitStage(c, s)
		part(i, float64(i)*stageX, float64(i)*stageY, math.Atan2(s, c))
		fmt.Fprintf(&b, "rod \"rod-%d\" {\n from = arm-%d.pin\n to = arm-%d.pin\n}\n", i, i-1, i)
	}
	b.WriteString("control \"hand\" {\n of = arm-0\n from = -6\n to = 6\n}\n")
	return b.String()
}

// limitStage is the algebra of one stage inline, as the limit has it.
func limitStage(c, w float64) (float64, float64, bool) {
	px, py := stageDriver*c-stageX, stageDriver*w-stageY
	a, b := 2*stageDriven*px, 2*stageDriven*py
	k := px*px + py*py + stageDriven*stageDriven - stageRod*stageRod
	h := a*a + b*b
	d := h - k*k
	if d < 0 {
		return 0, 1, false
	}
	q := math.Sqrt(d)
	inv := 1 / h
	return (a*k + b*q) * inv, (b*k - a*q) * inv, true
}

func compiled(tb testing.TB, text string) *Mechanism {
	tb.Helper()
	run, err := linkage.Read(&linkage.Source{Name: "bench.hcl", Text: []byte(text)})
	require.NoError(tb, err)
	m, err := Compile(run)
	require.NoError(tb, err)
	return m
}

// perStage reports the time of one stage of one pose.
func perStage(b *testing.B, poses, stages int) {
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(poses)/float64(stages), "ns/pose/stage")
}

const posesPerRun = 256

func chainInput(i int) (c, s float64) {
	s, c = math.Sincos(chainSwing * (2*float64(i)/posesPerRun - 1))
	return c, s
}

// perStages runs a benchmark of posesPerRun poses for each count of stages.
func perStages(b *testing.B, prepare func(b *testing.B, stages int) (poses func())) {
	for _, stages := range stageCounts {
		b.Run(fmt.Sprintf("stages=%d", stages), func(b *testing.B) {
			poses := prepare(b, stages)
			b.ReportAllocs()
			for b.Loop() {
				poses()
			}
			perStage(b, posesPerRun, stages)
		})
	}
}

// BenchmarkChainLimit is the yardstick: the algebra inline, one pose at a time.
func BenchmarkChainLimit(b *testing.B) {
	sum := 0.0
	perStages(b, func(_ *testing.B, stages int) func() {
		return func() {
			for i := range posesPerRun {
				w, c := math.Sincos(stageDrawn + chainSwing*(2*float64(i)/posesPerRun-1))
				for range stages {
					c, w, _ = limitStage(c, w)
				}
				sum += w
			}
		}
	})
	require.False(b, math.IsNaN(sum))
}

// BenchmarkChain closes a compiled chain, one pose at a time.
func BenchmarkChain(b *testing.B) {
	perStages(b, func(b *testing.B, stages int) func() {
		m := compiled(b, chainText(stages))
		st := m.newState()
		input := m.freedoms[m.inputs[0]].body
		return func() {
			for i := range posesPerRun {
				st.cos[input], st.sin[input] = chainInput(i)
				if m.close(&st) != allClosed {
					b.Fatal("the chain doesn't close")
				}
			}
		}
	})
}

// BenchmarkChainBatch closes many poses of the same chain stage by stage.
func BenchmarkChainBatch(b *testing.B) {
	perStages(b, func(b *testing.B, stages int) func() {
		m := compiled(b, chainText(stages))
		batch := m.newBatch()
		input := m.freedoms[m.inputs[0]].body
		return func() {
			for i := range posesPerRun {
				k := i % batchWidth
				batch.cos[input][k], batch.sin[input][k] = chainInput(i)
				if k == batchWidth-1 && !batch.close(batchWidth) {
					b.Fatal("the chain doesn't close")
				}
			}
		}
	})
}

const (
	fourbarText = `run "four-bar" {
  units = "mm"
}
part "crank" {
  pivot  = [0, 0]
  points = { pin = [5, 60] }
}
part "rocker" {
  pivot  = [180, 20]
  points = { pin = [190, 85] }
}
rod "link" {
  from = crank.pin
  to   = rocker.pin
}
control "hand" {
  of   = crank
  from = -20
  to   = 20
}
`
	spaceText = `run "square to each other" {
  units = "mm"
}
part "crank" {
  pivot  = [0, 0]
  points = { pin = [5, 60, 10] }
}
part "rocker" {
  pivot  = [180, 20, -30]
  axis   = [0, 1, 0.1]
  points = { pin = [190, 25, 45] }
}
rod "link" {
  from = crank.pin
  to   = rocker.pin
}
control "hand" {
  of   = crank
  from = -20
  to   = 20
}
`
	// swashText is a ring on a ball that rides on a sleeve, moved by three levers at 120 degrees and kept
	// from turning by a link.
	swashText = `run "swash plate" {
  units = "mm"
}
fixed "frame" {
  points = { brace = [120, 100, -90] }
}
part "left" {
  pivot  = [110, 0, 0]
  points = { pin = [80, 0, 0] }
}
part "middle" {
  pivot  = [-10, 0, 69.282]
  points = { pin = [-40, 0, 69.282] }
}
part "right" {
  pivot  = [-10, 0, -69.282]
  points = { pin = [-40, 0, -69.282] }
}
part "sleeve" {
  pivot  = [0, 60, 0]
  axis   = [0, 1, 0]
  slides = true
  points = { center = [0, 100, 0] }
}
part "ring" {
  ball   = sleeve.center
  points = { a = [80, 100, 0], b = [-40, 100, 69.282], c = [-40, 100, -69.282], arm = [0, 100, -90] }
}
rod "a" {
  from = left.pin
  to   = ring.a
}
rod "b" {
  from = middle.pin
  to   = ring.b
}
rod "c" {
  from = right.pin
  to   = ring.c
}
rod "link" {
  from = frame.brace
  to   = ring.arm
}
control "one" {
  of   = left
  from = -20
  to   = 20
}
control "two" {
  of   = middle
  from = -20
  to   = 20
}
control "three" {
  of   = right
  from = -20
  to   = 20
}
`
	blockText = `run "two beams" {
  units = "mm"
}
fixed "frame" {
  points = { a = [100, -70], b = [220, -80], c = [260, 60] }
}
part "crank" {
  pivot  = [0, 0]
  points = { pin = [5, 60] }
}
part "near" {
  points = { in = [90, 62], foot = [105, 5], out = [150, 60], low = [140, 10] }
}
part "far" {
  points = { up = [195, 62], low = [190, 8], foot = [215, -10], end = [235, 20] }
}
rod "drive" {
  from = crank.pin
  to   = near.in
}
rod "near-leg" {
  from = frame.a
  to   = near.foot
}
rod "upper" {
  from = near.out
  to   = far.up
}
rod "lower" {
  from = near.low
  to   = far.low
}
rod "far-leg" {
  from = frame.b
  to   = far.foot
}
rod "stay" {
  from = frame.c
  to   = far.end
}
control "hand" {
  of   = crank
  from = -10
  to   = 10
}
`
)

// BenchmarkPose solves single poses, every body placed and every angle told.
func BenchmarkPose(b *testing.B) {
	for _, c := range []struct{ name, text string }{{"fourbar", fourbarText}, {"space", spaceText}, {"block6", blockText}, {"swash", swashText}} {
		b.Run(c.name, func(b *testing.B) {
			m := compiled(b, c.text)
			require.Equal(b, map[string]int{"fourbar": 1, "space": 1, "block6": 6, "swash": 5}[c.name], m.mostAtOnce())
			st := m.newState()
			st.take(&m.neutral)
			input := m.inputs[0]
			b.ReportAllocs()
			for b.Loop() {
				for i := range posesPerRun {
					// To and fro, so that each pose starts from its neighbor.
					m.setFreedom(&st, input, chainSwing*math.Sin(2*math.Pi*float64(i)/posesPerRun))
					if m.solve(&st) != allClosed {
						b.Fatal("the run doesn't close")
					}
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/posesPerRun, "ns/pose")
		})
	}
}

// BenchmarkPoseLimit is the yardstick of BenchmarkPose/fourbar: the same four-bar by the
// algebra inline, with the angle of its rocker out.
func BenchmarkPoseLimit(b *testing.B) {
	b.Run("fourbar", func(b *testing.B) {
		// The pins from their pivots, the crank's pivot from the rocker's, and the rod.
		const crankX, crankY, rockerX, rockerY, betweenX, betweenY = 5.0, 60.0, 10.0, 65.0, -180.0, -20.0
		const rod2 = 185*185 + 25*25
		arm2 := rockerX*rockerX + rockerY*rockerY
		drawn, sum := math.Atan2(rockerY, rockerX), 0.0
		for b.Loop() {
			angle := 0.0
			for i := range posesPerRun {
				s, c := elementary.Sincos(chainSwing * math.Sin(2*math.Pi*float64(i)/posesPerRun))
				px, py := betweenX+c*crankX-s*crankY, betweenY+c*crankY+s*crankX
				h := px*px + py*py
				k := 0.5 * (h + arm2 - rod2)
				d := h*arm2 - k*k
				if d < 0 {
					b.Fatal("the run doesn't close")
				}
				q := math.Sqrt(d)
				x, y := (px*k+py*q)/h, (py*k-px*q)/h
				now := elementary.Atan2(y, x) - drawn
				angle = now + 2*math.Pi*math.Round((angle-now)/(2*math.Pi))
				sum += angle
			}
		}
		require.False(b, math.IsNaN(sum))
		b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/posesPerRun, "ns/pose")
	})
}

// BenchmarkCheck judges a demo, from its text to the verdict.
func BenchmarkCheck(b *testing.B) {
	b.Run("pedals", func(b *testing.B) {
		text, err := os.ReadFile("../demo/pedals.hcl")
		require.NoError(b, err)
		for b.Loop() {
			_, err := compiled(b, string(text)).Check()
			require.NoError(b, err)
		}
	})
	b.Run("aircraft", benchmarkAircraft)
	b.Run("rotor", benchmarkRotor)
}

// benchmarkRotor reads and checks a rotor head, each of its controls held in one place, with the bands that
// places out by half a millimeter make.
func benchmarkRotor(b *testing.B) {
	text, err := os.ReadFile("../demo/rotor.hcl")
	require.NoError(b, err)
	once := regexp.MustCompile(`(?m)^  held +=.*$`).ReplaceAllString(string(text), "  held = [0]")
	once = strings.Replace(once, "  units   =", "  uncertain = 0.5\n  units =", 1)
	b.ReportAllocs()
	for b.Loop() {
		m := compiled(b, once)
		result, err := m.Check()
		require.NoError(b, err)
		require.Len(b, result.Sweeps, 4)
		require.NoError(b, m.AddBands(result))
	}
}

// benchmarkAircraft reads, joins and checks eight runs of forty parts, bands included.
func benchmarkAircraft(b *testing.B) {
	const path = "../testdata/aircraft/eight/"
	text, err := os.ReadFile(path + "aircraft.hcl")
	require.NoError(b, err)
	open := func(name string) (*linkage.Source, error) {
		text, err := os.ReadFile(path + name)
		return &linkage.Source{Name: name, Text: text}, err
	}
	for b.Loop() {
		run, err := linkage.ReadWith(&linkage.Source{Name: "aircraft.hcl", Text: text}, open)
		require.NoError(b, err)
		m, err := Compile(run)
		require.NoError(b, err)
		run, err = m.Joined()
		require.NoError(b, err)
		if run != m.Run() {
			m, err = Compile(run)
			require.NoError(b, err)
		}
		r, err := m.Check()
		require.NoError(b, err)
		require.NoError(b, m.AddBands(r))
	}
}

// BenchmarkWith changes one length and one coordinate of a chain.
func BenchmarkWith(b *testing.B) {
	for _, stages := range []int{10, 1000} {
		run, err := linkage.Read(&linkage.Source{Name: "chain.hcl", Text: []byte(chainText(stages))})
		require.NoError(b, err)
		rod := run.Rods[stages/2]
		edits := []linkage.Edit{
			linkage.Shift(linkage.Dimension{Rod: rod, Point: -1}, 0.01),
			linkage.Shift(linkage.Dimension{Part: rod.To.Part, Point: rod.To.Point}, 0.01),
		}
		b.Run(fmt.Sprintf("stages=%d", stages), func(b *testing.B) {
			for b.Loop() {
				if _, err := run.With(edits...); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkTogether is what several processors work on together: compare -cpu 1,2.
func BenchmarkTogether(b *testing.B) {
	ask := func(name, demo string, ask func(m *Mechanism) error) {
		text, err := os.ReadFile("../demo/" + demo + ".hcl")
		require.NoError(b, err)
		m := compiled(b, string(text))
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if err := ask(m); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	ask("check", "sticks", func(m *Mechanism) error { _, err := m.Check(); return err })
	ask("fail", "pedals-dual", func(m *Mechanism) error { _, err := m.Failures(nil); return err })
}
