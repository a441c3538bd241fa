# Brackwren, kit 2, two-seat light helicopter; aircraft and figures are invented.
# Sheet 61, changed: tail pedals, both seats. One rod end was turned since it was signed:
# that at the far right pedal, half a turn out. All else is as in pedals.hcl.
#
# All four pedals turn on one shaft across the floor. From the horn of each a rod
# runs aft to the rocker, one tube across the aircraft: above it the arms of the left
# pedals, below it those of the right ones, at each seat. So each pair goes equal and
# opposite, and the seats go together. The rocker's arm "tail" sticks out of the floor
# and drives the tail run: sheet 62 shows the same arm, from the other side.
#
# Look at: "together", what a rod of the right seat set half a turn off does to the
# feet of the other; and how evenly the rocker follows, since the tail gets no better.

run "Pedals, both seats" {
  units   = "mm"
  craft   = "rotorcraft"
  view    = "from the left side, nose to the left"
  forward = [-1, 0]
  up      = [0, 1]
}

# Measured from the middle of the pedal shaft: x aft, y up, and the third figure how
# far to the left of the middle of the aircraft.
part "left-pedal" {
  pivot  = [0, 0]
  points = {
    foot = [-18, 210, 360]
    horn = [12, -61, 300]
  }
}
part "right-pedal" {
  pivot  = [0, 0]
  points = {
    foot = [-18, 210, 200]
    horn = [-12, -61, 260]
  }
}
part "far-left-pedal" {         # the right seat's
  pivot  = [0, 0]
  points = {
    foot = [-18, 210, -200]
    horn = [12, -61, -260]
  }
}
part "far-right-pedal" {
  pivot  = [0, 0]
  points = {
    foot = [-18, 210, -360]
    horn = [-12, -61, -300]
  }
}

# Horns and arms are swept 12, to stand square to their rods: the rocker then turns as
# far for either pedal.
part "rocker" {
  pivot = [315, -62]
  arms = {
    upper     = [-12, 60, 290]
    lower     = [-12, -60, 270]
    far-upper = [-12, 60, -270]
    far-lower = [-12, -60, -290]
    tail      = polar(80, 92)   # on to sheet 62
  }
}

rod "left-link" {
  from         = left-pedal.horn
  to           = rocker.upper
  length       = 297          # hole to hole, set on the bench
  misalignment = 10
  end "from" {
    thread  = "M6x1"
    engaged = 12.5
    least   = 9
    most    = 16
  }
}
rod "right-link" {
  from         = right-pedal.horn
  to           = rocker.lower
  length       = 321
  misalignment = 10
  end "from" {
    thread  = "M6x1"
    engaged = 12.5
    least   = 9
    most    = 16
  }
}
rod "far-left-link" {
  from         = far-left-pedal.horn
  to           = rocker.far-upper
  length       = 297
  misalignment = 10
  end "from" {
    thread  = "M6x1"
    engaged = 12.5
    least   = 9
    most    = 16
  }
}
rod "far-right-link" {          # half a turn out: the pedal comes half a degree back
  from         = far-right-pedal.horn
  to           = rocker.far-lower
  length       = 321.5        # was 321
  misalignment = 10
  end "from" {
    thread  = "M6x1"
    engaged = 12              # was 12.5
    least   = 9
    most    = 16
  }
}

control "pedals" {
  of    = left-pedal
  from  = -45
  to    = 45
  plus  = "left pedal forward"
  minus = "right pedal forward"
}

output "tail-arm" {             # what sheet 62 gets to work with
  of    = rocker
  plus  = "nose right"
  minus = "nose left"
}

# Screws under the left seat's pedals. They end the travel; those at the tail only
# keep the blade from going further with a rod off.
stop "left-stop" {
  of     = left-pedal
  at     = 26
  adjust = [23, 28]
}
stop "right-stop" {
  of     = right-pedal
  at     = 26
  adjust = [23, 28]
}

require "opposite" "left seat" {
  of     = [left-pedal, right-pedal]
  within = 0.5
}
require "opposite" "right seat" {
  of     = [far-left-pedal, far-right-pedal]
  within = 0.5
}
require "together" "both seats" {
  of     = [left-pedal, far-left-pedal]
  within = 0.5
}
require "sense" "left pedal, tail arm aft" {
  when = [left-pedal.foot, "forward"]
  then = [rocker.tail, "aft"]
}
require "travel" "what the tail run needs" {
  of     = tail-arm
  low    = -26.5
  high   = 26.5
  within = 1
}
require "over-center" { least = 15 }
require "rod-angle" { least = 45 }
require "misalignment" {}
require "engagement" {}
require "stops" {}
