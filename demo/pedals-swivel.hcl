# Brackwren, two-seat light helicopter; aircraft and figures are invented.
# Sheet 33: tail pedals, right seat.
#
# The fuel sump leaves no room for an upright rocker here, so it lies flat and
# swivels about a vertical bolt, square to the pedal shaft. The horns swing in
# upright planes, the rocker's ends in a level one: the rods work in space.
#
# Do not flatten this run into the side view. Drawn there, with the same arms and
# the rocker stood upright, the pedals come out 6.3 degrees from equal and
# opposite; on the aircraft they are within half a degree. And no flat drawing shows what
# decides here, how far each rod end tilts on its bolt.

run "Pedals, right seat" {
  units   = "mm"
  craft   = "rotorcraft"
  view    = "from the left side, nose to the left"
  forward = [-1, 0]
  up      = [0, 1]
}

# Measured from the middle of the pedal shaft: x aft, y up, z to the left.
fixed "airframe" {
  edge "sump" {                 # its lower corner, a tube right across the floor
    through  = [[140, -82, 120], [140, -82, -120]]
    diameter = 20
  }
}

# The rods toe in: the horns stand 90 out from the middle, the rocker's ends 60.
# Each horn's bolt is welded canted to match, square to its rod as drawn. Left
# straight, parallel to the shaft, its rod end would tilt 8.4 degrees.
part "left-pedal" {
  pivot  = [0, 0, 90]
  points = {
    foot = [-15, 205, 90]
    horn = [0, -60, 90]
  }
  bolts = { horn = [3, 0, 25] }
}

part "right-pedal" {
  pivot  = [0, 0, -90]
  points = {
    foot = [-15, 205, -90]
    horn = [0, -60, -90]
  }
  bolts = { horn = [-3, 0, 25] }
}

# 30 higher than the horns: with as much rise as toe-in the pedals are nearly
# equal and opposite. Level with the horns they would be 2 degrees out.
part "rocker" {
  pivot = [250, -30, 0]
  axis  = [0, 1, 0]             # upright: positive is anticlockwise from above
  arms = {
    left  = [0, 0, 60]
    right = [0, 0, -60]
    tail  = [80, 0, 0]
  }
}

rod "left-link" {
  from     = left-pedal.horn
  to       = rocker.left
  diameter = 12
}

rod "right-link" {
  from     = right-pedal.horn
  to       = rocker.right
  diameter = 12
}

control "pedals" {
  of    = left-pedal
  from  = -45
  to    = 45
  plus  = "left pedal forward"
  minus = "right pedal forward"
}

output "tail-run" {
  of    = rocker
  plus  = "nose left"
  minus = "nose right"
}

stop "left-stop" {              # in degrees; where metal meets metal is on sheet 31
  of = left-pedal
  at = 28
}
stop "right-stop" {
  of = right-pedal
  at = 28
}

require "opposite" {
  of     = [left-pedal, right-pedal]
  within = 0.5
}
require "sense" "left pedal, nose left" {
  when = [left-pedal.foot, "forward"]
  then = [rocker.tail, "right"]
}
require "travel" "what the tail run needs" {
  of     = tail-run
  low    = -28
  high   = 28
  within = 1
}
require "misalignment" { most = 8 }   # what these rod ends allow, degrees
require "clearance" "rod to sump" {
  between = [left-link, airframe.sump]
  least   = 8
}
require "over-center" { least = 15 }
require "rod-angle" { least = 45 }
require "stops" {}
