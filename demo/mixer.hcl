# Brackwren, two-seat light helicopter; aircraft and figures are invented.
# Sheet 24: mixer under the mast.
#
# The collective's tube lies behind the mast and carries an arm; the mixing lever
# turns on a pin at the end of that arm. Raise the collective and the mixing lever
# rises whole, with both push rods and the ring. Move the cyclic and its link rocks
# the mixing lever about the pin: the ring tilts.
#
# Look at: the two "steady" requirements, what the one control does to what belongs
# to the other. The cyclic link is as long as the arm and level with it, so with the
# stick central the collective tilts hardly anything; with the stick over, half a degree.

run "Mixer" {
  units   = "mm"
  craft   = "rotorcraft"
  view    = "from the right side, nose to the right"
  forward = [1, 0]
  up      = [0, 1]
}

# The arm from the tube to the pin, and the link that must be as long as it.
dims "tube" {
  arm = 110
}

# Measured from the collective's tube: x forward, y up, z to the right.
fixed "airframe" {
  points = { mast-bracket = [240, 422] }
}

part "collective-arm" {
  pivot  = [0, 0]
  points = { pin = [tube.arm, 0] }
  round "torque-tube" {         # seen end on
    at     = [0, 0]
    radius = 24
  }
}

part "cyclic-lever" {           # hangs above the tube; the stick's rod takes its top
  pivot = [0, 140]
  arms = {
    top = polar(80, 90)
    low = [0, -80, 20]
  }
}

part "mixing-lever" {
  pivot = collective-arm.pin    # carried; its turn is told against the drawing
  arms = {
    horn = [0, 60, 20]
    fore = [60, 0]
    aft  = [-60, 0]
  }
}

# The ring has no pivot and no guide: three rods hold it in the drawing's plane.
# Its travel is that of the middle of its points, and its turn.
part "ring" {
  points = {
    fore = [180, 420]
    aft  = [40, 420]
    hub  = [110, 420]
  }
}

rod "cyclic-link" {
  from   = cyclic-lever.low
  to     = mixing-lever.horn
  length = tube.arm             # --set tube.arm=108 changes both
}
rod "fore-rod" {
  from     = mixing-lever.fore
  to       = ring.fore
  diameter = 14
}
rod "aft-rod" {
  from     = mixing-lever.aft
  to       = ring.aft
  diameter = 14
}
rod "drag-link" {               # keeps the ring on the mast
  from = airframe.mast-bracket
  to   = ring.hub
}

control "collective" {
  of    = collective-arm
  from  = -40
  to    = 40
  held  = [0, -10, 12]          # where it stands while the cyclic is swept
  plus  = "lever up"
  minus = "lever down"
}
control "cyclic" {
  of    = cyclic-lever
  from  = -25
  to    = 25
  held  = [0, -10, 10]
  plus  = "stick forward"
  minus = "stick aft"
}

output "height" {
  of    = ring.hub
  along = [0, 1]
  plus  = "up"
  reads = 62                    # above the mast's collar, as drawn
}
output "tilt" {
  of    = ring
  plus  = "nose up"
  minus = "nose down"
}

stop "collective-up" {
  of = collective-arm
  at = 12
}
stop "collective-down" {
  of = collective-arm
  at = -10
}
stop "stick-forward" {
  of = cyclic-lever
  at = 10
}
stop "stick-aft" {
  of = cyclic-lever
  at = -10
}

require "steady" "tilt, while the collective moves" {
  of      = tilt
  within  = 0.8
  control = collective
}
require "steady" "height, while the cyclic moves" {
  of      = height
  within  = 0.5
  control = cyclic
}
require "sense" "lever up, ring up" {
  when    = [collective-arm.pin, "up"]
  then    = [ring.hub, "up"]
  control = collective
}
require "sense" "stick forward, nose of the ring down" {
  when    = [cyclic-lever.top, "aft"]     # the stick's rod pulls it so
  then    = [ring.fore, "down"]
  control = cyclic
}
require "travel" "height" {
  of      = height
  low     = 43
  high    = 85
  within  = 0.5
  control = collective
}
require "travel" "tilt" {       # wherever the collective stands
  of      = tilt
  low     = -11.5
  high    = 11.5
  within  = 0.75
  control = cyclic
}
require "clearance" "aft rod to torque tube" {
  between = [aft-rod, collective-arm.torque-tube]
  least   = 10
}
require "over-center" { least = 10 }
require "rod-angle" { least = 60 }
require "stops" {}
