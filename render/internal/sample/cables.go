package sample

import "testing"

// SlackRun is a pair of cables between bent arms, so that both hang slack far
// from neutral.
const SlackRun = `
run "Slack somewhere" {
  units   = "mm"
}
fixed "frame" {
  points = { up = [300, 90], down = [300, -90], aft = [-40, 120], fwd = [40, 120] }
}
part "lever" {
  pivot = [0, 0]
  arms  = { hand = [0, -200], aft = [-40, -30], fwd = [40, -30] }
}
part "horn" {
  pivot = [330, 0]
  arms  = { up = [20, 20], down = [20, -20], tip = [120, 0] }
}
cable "c-up" {
  from      = horn.up
  to        = lever.aft
  conduit   = [frame.up, frame.aft]
  stiffness = 38
  end "conduit-from" {
    thread  = "M6x1"
    engaged = 10
  }
}
cable "c-down" {
  from      = horn.down
  to        = lever.fwd
  conduit   = [frame.down, frame.fwd]
  stiffness = 38
}
pair "duo" {
  cables     = [c-up, c-down]
  pretension = 25
}
control "stick" {
  of   = lever
  from = -35
  to   = 35
}
output "tip" {
  of = horn
}
stop "a" {
  of = lever
  at = -30
}
stop "b" {
  of = lever
  at = 30
}
require "taut" {
  of    = duo
  least = 10
}
`

// OverCable is the demo of a cable whose lever and carburetor go over center.
func OverCable(t testing.TB) string {
	return Replaced(t, "throttle-cable", "from  = -70", "from  = -200", "to    = 30", "to    = 160",
		"stop \"idle\" {\n  of   = carburetor\n  at   = 0\n  side = \"high\"\n}\n", "", "stop \"full\" {\n  of = carburetor\n  at = -38\n}\n", "")
}

// OddCables is a demo with something odd about its cables, and what is told of it
// beside the verdict.
var OddCables = []struct {
	Kind    string
	Changes []string
	Says    string
}{
	{"pedals-cable", []string{"pretension = 220", "pretension = 8850", "[60, 55]\n  winds  = [\"up\"", "[60, 50]\n  winds  = [\"up\""}, "tail-right would break: it pulls up to 9448 N in the travel of pedals-control, and 7x19 1/8 galvanized takes 8896 N (FAA AC 43.13-1B, table 7-3)."},
	{"throttle-cable", []string{"[frame.grip-bracket, frame.carb-bracket]", "[frame.carb-bracket, frame.grip-bracket]"}, "Look at the conduit of throttle-cable: held at frame.carb-bracket at the from end and at frame.grip-bracket at the to end it leaves"},
	{"throttle-cable", []string{GripStop, ""}, `The stop "idle" doesn't hold throttle itself: past it the cable throttle-cable, which only pulls, goes slack.`},
}

// GripStop is the control's own stop in the demo of a lone cable.
const GripStop = "stop \"grip-idle\" {\n  of   = grip\n  at   = 0\n  side = \"high\"\n}\n"
