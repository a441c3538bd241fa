package solve

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
)

// inSpace reads a run in which parts on balls, loose in space, or on sleeves are written as
// hinges, and makes them what they are.
func inSpace(t testing.TB, text string, motions map[string]linkage.Motion, joints ...[2]string) *linkage.Run {
	t.Helper()
	run, err := linkage.Read(&linkage.Source{Name: "test.hcl", Text: []byte(text)})
	require.NoError(t, err)
	run.Plane = false
	for _, p := range run.Parts {
		if motion, ok := motions[p.Name]; ok {
			p.Motion = motion
			if p.Spatial() {
				p.SquareTo = vec{Y: 1}
				p.Axis = p.SquareTo
			}
		}
	}
	point := func(name string) linkage.PointRef {
		for _, p := range run.Parts {
			for i, q := range p.Points {
				if p.Name+"."+q.Name == name {
					return linkage.PointRef{Part: p, Point: i}
				}
			}
		}
		t.Fatalf("no point %s", name)
		return linkage.PointRef{}
	}
	for i, names := range joints {
		j := &linkage.Joint{Name: names[0] + "-" + names[1], Index: i, Of: [2]linkage.PointRef{point(names[0]), point(names[1])}}
		j.Gap = j.Of[0].Get().At.Sub(j.Of[1].Get().At).Norm()
		run.Joints = append(run.Joints, j)
	}
	return run
}

const swashText = `run "swash plate" {
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
  pivot  = [-10, 0, 69.28203230275509]
  points = { pin = [-40, 0, 69.28203230275509] }
}
part "right" {
  pivot  = [-10, 0, -69.28203230275509]
  points = { pin = [-40, 0, -69.28203230275509] }
}
part "sleeve" {
  pivot  = [0, 60, 0]
  axis   = [0, 1, 0]
  points = { center = [0, 100, 0] }
}
part "ring" {
  pivot  = sleeve.center
  axis   = [0, 1, 0]
  points = { a = [80, 100, 0], b = [-40, 100, 69.28203230275509], c = [-40, 100, -69.28203230275509], arm = [0, 100, -90], off = [20, 130, 5] }
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
output "lift" {
  of    = ring.off
  along = [0, 1, 0]
}
`

func swashRun(t testing.TB) *linkage.Run {
	// A hinge on the sleeve's center needs no link or rods: the reader takes what is too many.
	return inSpace(t, swashText, map[string]linkage.Motion{"sleeve": linkage.TurnsAndSlides, "ring": linkage.Tilts})
}

func TestSwash(t *testing.T) {
	run := swashRun(t)
	m, err := Compile(run)
	require.NoError(t, err)
	for i, s := range m.steps {
		t.Log(i, s.kind, s.unknowns, s.constraints)
	}
	result, err := m.Check()
	require.NoError(t, err)
	for _, w := range result.Sweeps {
		t.Log(w.Control.Name, w.Low, w.High, w.Ends, w.Lost)
		for _, p := range w.Parts {
			t.Log(p.Name, p.Unit, p.Extent)
		}
		for _, o := range w.Outputs {
			t.Log(o.Output.Name, o.Extent)
		}
		t.Log(w.Critical)
	}
}
