# Brackwren, two-seat light helicopter; aircraft and figures are invented.
# Sheet 31, with tolerances: the tail pedals of the left seat, as they come from
# three benches and from somebody's own drill.
#
# The run is that of sheet 31 (pedals.hcl), with its rod ends and rig pins. The
# tolerance block says how far holes, pivots and set lengths may be out, and how much
# the joints give.
#
# Look at: how often it still holds (fullfree tolerance), with the rods turned to the
# pins in every build, and without (--as-drilled); which dimension is to blame; and how
# far the pedals can be rocked (fullfree check).

run "Pedals, made and worn" {
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
  tolerance  = 0.1              # one plate, drilled in a jig
  joint-play = 0.15             # its bush is worn
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
  length       = 296.7          # hole to hole
  diameter     = 12
  misalignment = 10             # most that these rod ends tilt before they bind
  joint-play   = 0.03           # these are new

  end "from" {                  # at the pedal
    thread  = "M6x1"
    engaged = 12.5
    least   = 9                 # the maker's figure: 1.5 diameters
    most    = 15                # then it meets the bottom of the tapped hole
    shank   = 22
  }
  end "to" {                    # at the rocker: left-hand, so that they can't be exchanged
    thread  = "M6x1"
    hand    = "left"
    engaged = 12.5
    least   = 9
    most    = 15
    shank   = 22
  }
}

rod "right-link" {
  from         = right-pedal.horn
  to           = rocker.lower
  length       = 296.7          # hole to hole
  diameter     = 12
  misalignment = 10

  end "from" {                  # at the pedal
    thread  = "M6x1"
    engaged = 12.5
    least   = 9                 # the maker's figure: 1.5 diameters
    most    = 15                # then it meets the bottom of the tapped hole
    shank   = 22
  }
  end "to" {                    # at the rocker: left-hand, so that they can't be exchanged
    thread  = "M6x1"
    hand    = "left"
    engaged = 12.5
    least   = 9
    most    = 15
    shank   = 22
  }
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

# Rig pins, through the boss of each pedal and through the rocker into the ribs.
pin "left-rig" {
  of = left-pedal
  at = 0
}
pin "right-rig" {
  of = right-pedal
  at = 0
}
pin "rocker-rig" {
  of     = rocker
  at     = 0
  within = 0.15                 # its hole is worn
}

# How far out it comes from the bench, either way, and what a joint gives.
tolerance {
  points     = 0.15             # holes through a jig
  pivots     = 0.5              # bosses welded to the frame
  rods       = 0.5              # made up on the bench, before they are set to the pins
  joint-play = 0.05             # across: new rod ends, reamed bushes
}

require "opposite" {
  of     = [left-pedal, right-pedal]
  within = 1                    # half a degree as drawn: twice that as made
}
require "sense" "left pedal, nose left" {
  when = [left-pedal.foot, "forward"]
  then = [rocker.tail, "aft"]
}
require "travel" "what the tail run needs" {
  of     = tail-run
  low    = -38
  high   = 38
  within = 2
}
require "over-center" { least = 12 }
require "rod-angle" { least = 45 }
require "misalignment" {}       # no most: each rod's own figure counts
require "clearance" "rod to seat tube" {
  between = [left-link, airframe.seat-tube]
  least   = 5
}
require "stops" {}
require "free-play" "at the pedal" {
  of   = pedals
  most = 0.5
}
require "engagement" {}         # thread enough in every rod end
