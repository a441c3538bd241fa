# Brackwren, kit 2, two-seat light helicopter; aircraft and figures are invented.
# Sheet 63: cyclic, twin sticks to the two cranks below the mast.
#
# Fore and aft both sticks turn with the cross shaft, and a rod takes that aft to the
# pitch crank. Sideways each stick turns on a bolt that the shaft carries; a tube ties
# the two, and from the right one the roll rod turns the roll crank: a tube along the
# aircraft, with an arm at either end. Both cranks go on to the mixing levers: sheet 64.
#
# Look at: "steady". The roll rod's hole lies on the line of the shaft, so that pushing
# the sticks forward doesn't swing it. With the rod 32 lower it would, a little.

run "Cyclic" {
  units   = "mm"
  craft   = "rotorcraft"
  view    = "from the left side, nose to the left"
  forward = [-1, 0]
  up      = [0, 1]
}

# Measured from the middle of the cross shaft: x aft, y up, z to the left.
part "cross-shaft" {
  pivot  = [0, 0]
  points = {
    left  = [0, 50, 230]
    right = [0, 50, -230]
    horn  = [0, -72]
  }
}
part "left-stick" {
  pivot  = cross-shaft.left     # carried: its axis goes with the shaft
  axis   = [1, 0, 0]
  points = {
    grip = [-50, 430, 230]
    tie  = [-30, -12, 230]
  }
}
part "right-stick" {
  pivot  = cross-shaft.right
  axis   = [1, 0, 0]
  points = {
    grip = [-50, 430, -230]
    tie  = [-30, -12, -230]
    roll = [0, 0, -230]         # on the shaft's own line
  }
}
part "roll-crank" {
  pivot = [0, -48, -20]
  axis  = [1, 0, 0]             # plus is anticlockwise seen from behind
  arms  = {
    in  = [0, 48, 0]
    out = [670, 0, 58]          # at the tube's aft end, to the left: sheet 64
  }
}
part "pitch-crank" {
  pivot = [620, -142]
  arms  = {
    in  = polar(70, 90)
    out = [0, 70, 30]           # beside it, on to sheet 64
  }
}

rod "tie-tube" {
  from   = left-stick.tie
  to     = right-stick.tie
  length = 460.2                # drawn 460
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "roll-rod" {
  from         = right-stick.roll
  to           = roll-crank.in
  misalignment = 9
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "pitch-rod" {
  from         = cross-shaft.horn
  to           = pitch-crank.in
  misalignment = 9
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}

control "pitch" {
  of    = cross-shaft
  from  = -30
  to    = 30
  held  = [-13, 0, 12]
  plus  = "sticks forward"
  minus = "sticks aft"
  grip  = left-stick.grip       # rides on the shaft
}
control "roll" {
  of    = left-stick            # measured on the shaft that carries it
  from  = -30
  to    = 30
  held  = [-11, 0, 11]
  plus  = "sticks left"
  minus = "sticks right"
}

output "fore-and-aft" {
  of      = pitch-crank
  seen-at = pitch-crank.out
  plus    = "forward"
  minus   = "aft"
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
  at = -13
}
stop "left" {
  of = left-stick
  at = 11
}
stop "right" {
  of = left-stick
  at = -11
}

require "together" {
  of     = [left-stick, right-stick]
  within = 0.5
}
require "steady" "side to side, while the sticks go fore and aft" {
  of      = side-to-side
  within  = 0.1
  control = pitch
}
require "steady" "fore and aft, while the sticks go sideways" {
  of      = fore-and-aft
  within  = 0.1
  control = roll
}
require "sense" "sticks forward, crank aft" {
  when    = [left-stick.grip, "forward"]
  then    = [pitch-crank.out, "aft"]
  control = pitch
}
require "sense" "sticks left, crank up" {
  when    = [right-stick.grip, "left"]
  then    = [roll-crank.out, "up"]
  control = roll
}
require "travel" "fore and aft" {
  of      = fore-and-aft
  low     = -12.5
  high    = 13.5
  within  = 0.5
  control = pitch
}
require "travel" "side to side" {
  of      = side-to-side
  low     = -11.5
  high    = 11.5
  within  = 0.5
  control = roll
}
# Not of pitch: the roll crank, which it is to leave alone, wavers by next to nothing
# and so "reverses". Of pitch, sense and rod-angle say that nothing locks.
# On the aircraft the mixing lever locks up beyond: 14 degrees of stick later.
require "over-center" {
  least   = 12
  control = roll
}
require "rod-angle" { least = 60 }
require "misalignment" {}
require "engagement" {}
require "stops" {}
