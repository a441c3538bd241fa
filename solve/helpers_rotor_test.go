package solve_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
)

// rotorHead is a head with two blades over a plate that leans fore and aft, all of it on
// hinges and slides. Nose along x, up along y, the right side along z; the blades as drawn
// over the nose and the tail. The horns stand on the leading edges, each over its own hole
// in the ring, 50 mm ahead of the blade's axis. It holds for a rotor that turns
// anticlockwise seen from above.
const rotorHead = `run "Rotor head" {
  units   = "mm"
  forward = [1, 0, 0]
  up      = [0, 1, 0]
}
part "sleeve" {
  slide  = [0, 1, 0]
  points = { center = [0, 100, 0] }
}
part "plate" {
  pivot  = sleeve.center
  axis   = [0, 0, 1]
  points = { center = [0, 100, 0] }
}
part "ring" {
  pivot  = plate.center
  axis   = [0, 1, 0]
  points = { a = [60, 100, -50], b = [-60, 100, 50], drive = [40, 100, 70] }
}
part "hub" {
  pivot  = [0, 300, 0]
  axis   = [0, 1, 0]
  points = { a = [60, 300, 0], b = [-60, 300, 0], drive = [-40, 100, 70] }
}
part "blade-a" {
  pivot  = hub.a
  axis   = [1, 0, 0]
  points = { horn = [60, 300, -50], tip = [900, 300, 0] }
}
part "blade-b" {
  pivot  = hub.b
  axis   = [-1, 0, 0]
  points = { horn = [-60, 300, 50], tip = [-900, 300, 0] }
}
rod "drive-link" {
  from = hub.drive
  to   = ring.drive
}
rod "link-a" {
  from = ring.a
  to   = blade-a.horn
}
rod "link-b" {
  from = ring.b
  to   = blade-b.horn
}
control "azimuth" {
  of   = hub
  from = -180
  to   = 180
}
control "collective" {
  of   = sleeve
  from = -8
  to   = 12
  held = [0, -8, 12]
  plus = "up"
}
control "cyclic" {
  of    = plate
  from  = -9
  to    = 7
  held  = [0, -9, 7]
  minus = "stick forward"
}
output "pitch-a" {
  of              = blade-a
  against         = "carrier"
  reads           = 5
}
output "pitch-b" {
  of              = blade-b
  against         = "carrier"
  reads           = 5
}
`

// rotorRun is that with its rotor and leading edges, and what is required of it besides.
func rotorRun(t testing.TB, text string, require ...*linkage.Requirement) *linkage.Run {
	t.Helper()
	run := read(t, text)
	addRotor(t, run)
	for _, q := range require {
		q.Index = len(run.Requirements)
		run.Requirements = append(run.Requirements, q)
	}
	return run
}

func addRotor(t testing.TB, run *linkage.Run) {
	for _, p := range run.Parts {
		if p.Name == "hub" {
			run.Rotor = &linkage.Rotor{Hub: p}
		}
	}
	require.NotNil(t, run.Rotor)
	for _, o := range run.Outputs {
		for i, p := range o.Part.Points {
			if p.Name == "horn" {
				o.LeadingEdge = &linkage.PointRef{Part: o.Part, Point: i}
			}
		}
	}
}
