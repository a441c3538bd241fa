# Brackwren, two-seat light helicopter; aircraft and figures are invented.
# Sheet 31: tail pedals, left seat.
#
# Both pedals turn on one shaft across the floor. Below the floor each has a
# horn, and from each horn a rod runs aft to a reversing rocker: its upper arm
# takes the left pedal's rod, its lower arm the right pedal's. Push the left
# pedal and the right one comes back as far.
#
# Look at: the worst of "opposite" (the two rods slope against each other, so
# the pedals are not quite equal and opposite), and whether both pedals reach
# their stop bolts before anything in the run is on center.

run "Pedals, left seat" {
  units   = "mm"
  craft   = "rotorcraft"
  view    = "from the left side, nose to the left"
  forward = [-1, 0]
  up      = [0, 1]
}

# Measured from the middle of the pedal shaft: x aft, y up, and the third figure,
# where there is one, how far to the left of the middle of the seat.
fixed "airframe" {
  round "left-stop-bolt" {
    at     = [-38, -16]
    radius = 5                  # M10 bolt: file the lug, never the bolt
    z      = [70, 90]
  }
  round "right-stop-bolt" {
    at     = [-38, -16]
    radius = 5
    z      = [-90, -70]
  }
  round "seat-tube" {           # runs right across: no z, it meets anything
    at     = [150, -2]
    radius = 12
  }
}

part "left-pedal" {
  pivot  = [0, 0]
  points = {
    foot = [-15, 205, 80]
    horn = [0, -60, 30]
  }
  edge "lug" {                  # flat bar, welded to the boss, comes down on the bolt
    through = [[0, 0], [-30, 14], [-50, 14]]
    thick   = 8
    z       = [74, 86]
  }
}

part "right-pedal" {
  pivot  = [0, 0]
  points = {
    foot = [-15, 205, -80]
    horn = [0, -60, -30]
  }
  edge "lug" {
    through = [[0, 0], [-30, 14], [-50, 14]]
    thick   = 8
    z       = [-86, -74]
  }
}

# The arms are swept 10 forward, to stand nearly square to their rods: straight up
# and down, the pedals would be 3.4 degrees from equal and opposite.
# The rods stand 18 out of the drawing over their length (horns at 30, these bolts
# at 12), which tilts every rod end a little, and no more in one position than in
# another.
part "rocker" {
  pivot = [300, -60]
  arms = {
    upper = [-10, 60, 12]
    lower = [-10, -60, -12]
    tail  = polar(80, 80)       # the tail run is pinned here: sheet 32
  }
}

rod "left-link" {
  from         = left-pedal.horn
  to           = rocker.upper
  length       = 296.7            # hole to hole, set on the bench
  diameter     = 12
  misalignment = 10             # most that these rod ends tilt before they bind
}

rod "right-link" {
  from         = right-pedal.horn
  to           = rocker.lower
  length       = 296.7            # as the left one: unequal rods stagger the pedals
  diameter     = 12
  misalignment = 10
}

control "pedals" {
  of    = left-pedal
  from  = -45
  to    = 45
  plus  = "left pedal forward"
  minus = "right pedal forward"
}

output "tail-run" {             # what sheet 32 gets to work with
  of    = rocker.tail
  along = [1, 0]
  plus  = "nose left"
}

stop "left-stop" {
  touch = [left-pedal.lug, airframe.left-stop-bolt]
}
stop "right-stop" {
  touch = [right-pedal.lug, airframe.right-stop-bolt]
}

require "opposite" {
  of     = [left-pedal, right-pedal]
  within = 0.5
}
require "sense" "left pedal, nose left" {
  when = [left-pedal.foot, "forward"]
  then = [rocker.tail, "aft"]
}
require "travel" "what the tail run needs" {
  of     = tail-run
  low    = -38
  high   = 38
  within = 1
}
require "over-center" { least = 15 }
require "rod-angle" { least = 45 }
require "misalignment" {}       # no most: each rod's own figure counts
require "clearance" "rod to seat tube" {
  between = [left-link, airframe.seat-tube]
  least   = 5
}
require "stops" {}
