# Brackwren, two-seat light helicopter; aircraft and figures are invented.
# Sheet 33: tail pedals, both seats.
#
# Four pedals on two tubes that turn one inside the other across the floor: the
# left pedals of both seats on the outer tube, the right pedals of both on the
# inner one. At each seat a reversing rocker joins the tubes: push either left
# pedal, and both right ones come back. The left seat's rocker alone would do; the
# right seat's is there so that the pedals still work with one rod gone.
#
# So there are two paths from tube to tube, and they fight each other wherever
# they would not go the same way. The right seat's rocker stands a little further
# aft and higher, round the seat frame, so they never go quite the same way: its
# second rod must be set so that what is left stays within the play.
#
# Look at: what far-right-link needs (second path), and what one turn too many of
# far-left-link does:
#   fullfree compare pedals-dual.hcl --with far-left-link.from=+1

run "Pedals, both seats" {
  units   = "mm"
  craft   = "rotorcraft"
  view    = "from the left side, nose to the left"
  forward = [-1, 0]
  up      = [0, 1]
}

# Measured from the middle of the pedal tubes: x aft, y up, and the third figure
# how far to the left of the middle of the aircraft.
part "left-tube" {              # the outer one
  pivot  = [0, 0]
  points = {
    foot     = [-15, 205, 330]
    far-foot = [-15, 205, -170]
    horn     = [0, -60, 280]
    far-horn = [0, -60, -220]
  }
}

part "right-tube" {             # the inner one
  pivot  = [0, 0]
  points = {
    foot     = [-15, 205, 170]
    far-foot = [-15, 205, -330]
    horn     = [0, -60, 220]
    far-horn = [0, -60, -280]
  }
}

part "rocker" {                 # at the left seat
  pivot = [300, -60]
  arms = {
    upper = [-10, 60, 262]
    lower = [-10, -60, 238]
    tail  = polar(80, 80)       # the tail run is pinned here
  }
}

part "far-rocker" {             # at the right seat
  pivot = [312, -56]
  arms = {
    upper = [-10, 60, -238]
    lower = [-10, -60, -262]
  }
}

rod "left-link" {
  from         = left-tube.horn
  to           = rocker.upper
  length       = 296.7          # hole to hole, set on the bench
  misalignment = 10
  end "from" {
    thread  = "M6x1"
    engaged = 12.5
    least   = 9                 # the maker's figure
    most    = 16
  }
}

rod "right-link" {
  from         = right-tube.horn
  to           = rocker.lower
  length       = 296.7
  misalignment = 10
  end "from" {
    thread  = "M6x1"
    engaged = 12.5
    least   = 9
    most    = 16
  }
}

rod "far-left-link" {           # drives the right seat's rocker
  from         = left-tube.far-horn
  to           = far-rocker.upper
  length       = 309.2
  misalignment = 10
  end "from" {
    thread  = "M6x1"
    engaged = 12.5
    least   = 9
    most    = 16
  }
}

rod "far-right-link" {          # closes the loop a second time
  from         = right-tube.far-horn
  to           = far-rocker.lower
  length       = 307.7
  misalignment = 10
  second-path  = true
  play         = 0.3            # each way: what two rod ends, their bolts and the tubes' bushes leave
  end "from" {
    thread  = "M6x1"
    engaged = 12.5
    least   = 9
    most    = 16
  }
}

control "pedals" {
  of    = left-tube
  from  = -45
  to    = 45
  plus  = "left pedal forward"
  minus = "right pedal forward"
}

output "tail-run" {
  of    = rocker.tail
  along = [1, 0]
  plus  = "nose left"
}

stop "left-stop" {
  of = left-tube
  at = 28
}
stop "right-stop" {
  of = left-tube
  at = -28
}

pin "left-rig" {
  of = left-tube
  at = 0
}
pin "right-rig" {
  of = right-tube
  at = 0
}
pin "rocker-rig" {
  of = rocker
  at = 0
}
pin "far-rocker-rig" {
  of     = far-rocker
  at     = 0
  within = 0.2
}

require "opposite" {
  of     = [left-tube, right-tube]
  within = 0.5
}
require "sense" "left pedals, nose left" {
  when = [left-tube.foot, "forward"]
  then = [rocker.tail, "aft"]
}
require "second-path" { most = 0 }      # nothing beyond its play
require "engagement" {}
require "over-center" { least = 15 }
require "rod-angle" { least = 45 }
require "misalignment" {}
require "stops" {}
