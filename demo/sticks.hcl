# Brackwren, two-seat light helicopter; aircraft and figures are invented.
# Sheet 21: twin sticks.
#
# Fore and aft, both sticks turn with the cross shaft. Sideways each turns on a
# bolt that the shaft carries, and a tube ties the two together. The roll rod
# hangs below the shaft, so pushing the sticks forward swings its end and moves
# the roll crank a little: that is what "steady" asks about.
#
# Look at: "together" (what a tube set 0.3 mm long does to the right stick) and the
# first "steady". The nearer the hole "roll" lies to the shaft line, the smaller that
# one gets, and the side-to-side travel with it.

run "Twin sticks" {
  units   = "mm"
  craft   = "rotorcraft"
  view    = "from the left side, nose to the left"
  forward = [-1, 0]
  up      = [0, 1]
}

# Measured from the middle of the cross shaft: x aft, y up, z to the left.
fixed "airframe" {
  edge "seat-tube" {            # a tube in space has a diameter, not a thickness
    through  = [[-64, -52, 330], [-64, -52, -330]]
    diameter = 22
  }
}

part "cross-shaft" {
  pivot  = [0, 0]               # axis left out: square to the drawing, athwart
  points = {
    left  = [0, 15, 240]
    right = [0, 15, -240]
    horn  = [0, -70]
  }
}

part "left-stick" {
  pivot  = cross-shaft.left     # carried: its axis goes with the shaft
  axis   = [1, 0, 0]
  points = {
    grip = [-40, 420, 240]
    tie  = [-32, -45, 240]
  }
}

part "right-stick" {
  pivot  = cross-shaft.right
  axis   = [1, 0, 0]
  points = {
    grip = [-40, 420, -240]
    tie  = [-32, -45, -240]
    roll = [0, -33, -240]
  }
}

part "roll-crank" {
  pivot = [0, -81, -30]
  axis  = [1, 0, 0]
  arms  = {
    in  = [0, 48, 0]
    out = [0, 0, 60]            # on to the mixer: sheet 24
  }
}

part "pitch-crank" {
  pivot = [310, -130]
  arms  = {
    in  = polar(60, 90)
    out = polar(60, 0)
  }
}

rod "tie-tube" {
  from     = left-stick.tie
  to       = right-stick.tie
  length   = 480.3              # drawn 480
  diameter = 16
}

rod "roll-rod" {
  from         = right-stick.roll
  to           = roll-crank.in
  diameter     = 12
  misalignment = 8
}

rod "pitch-rod" {
  from         = cross-shaft.horn
  to           = pitch-crank.in
  diameter     = 12
  misalignment = 8
}

# Each is swept with the other held at neutral and hard over both ways.
control "pitch" {
  of    = cross-shaft
  from  = -30
  to    = 30
  held  = [0, -14, 12]
  plus  = "sticks forward"
  minus = "sticks aft"
  grip  = left-stick.grip       # rides on the shaft
}

control "roll" {
  of    = left-stick            # measured on the shaft that carries it
  from  = -30
  to    = 30
  held  = [0, -12, 12]
  plus  = "sticks left"
  minus = "sticks right"
}

output "fore-and-aft" {
  of    = pitch-crank
  plus  = "aft"
  minus = "forward"
}
output "side-to-side" {
  of    = roll-crank
  plus  = "right"
  minus = "left"
}

stop "forward" {
  of = cross-shaft
  at = 12
}
stop "aft" {
  of = cross-shaft
  at = -14
}
stop "left" {
  of = left-stick
  at = 12
}
stop "right" {
  of = left-stick
  at = -12
}

require "together" {
  of     = [left-stick, right-stick]
  within = 0.5
}
require "steady" "side to side, while the sticks go fore and aft" {
  of      = side-to-side
  within  = 0.3
  control = pitch
}
require "steady" "fore and aft, while the sticks go sideways" {
  of      = fore-and-aft
  within  = 0.1
  control = roll
}
require "sense" "fore and aft" {
  when    = [left-stick.grip, "forward"]
  then    = [pitch-crank.out, "down"]
  control = pitch
}
require "sense" "side to side" {
  when    = [right-stick.grip, "left"]
  then    = [roll-crank.out, "up"]
  control = roll
}
require "travel" "fore and aft" {
  of      = fore-and-aft
  low     = -14
  high    = 16.5
  within  = 0.5
  control = pitch
}
require "travel" "side to side" {
  of      = side-to-side
  low     = -12
  high    = 12
  within  = 1
  control = roll
}
# Asked of roll alone: while the sticks go fore and aft the roll crank only wavers,
# and halts at neutral. For pitch, sense and rod-angle say that nothing locks.
require "over-center" {
  least   = 20
  control = roll
}
require "rod-angle" { least = 60 }
require "misalignment" {}
require "clearance" "tie tube to seat tube" {
  between = [tie-tube, airframe.seat-tube]
  least   = 6
}
require "stops" {}
