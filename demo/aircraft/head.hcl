# Brackwren, kit 2, two-seat light helicopter; aircraft and figures are invented.
# Sheet 66: rotor head, from the swashplate to the blades.
#
# The collar, the gimbal and the swashplate are those of sheet 64, which move this run.
# On the swashplate turns the rotating plate; the scissors take it round with the hub, and
# a pitch link from it works each blade's horn, a quarter of a turn ahead of its blade.
#
# Look at: what the gimbal's tilt makes of pitch. The horn is longer than the plate's arm,
# so 14 degrees of tilt are 8 of pitch, and a blade that is over the side feels the nose.

run "Head" {
  units   = "mm"
  craft   = "rotorcraft"
  view    = "from the right side, nose to the right"
  forward = [1, 0]
  up      = [0, 1]
}

# Measured from the collar's center, the collective as drawn on sheet 64: x forward, y up,
# z to the right.
part "collar" {                 # of sheet 64
  slide  = [0, 1]
  points = {
    eye    = [10, -20, 40]
    center = [0, 0]
  }
}
part "gimbal" {                 # of sheet 64
  pivot = collar.center
  arms = {
    fore = [60, 0]
    hub  = [0, 0]
  }
}
part "swashplate" {             # of sheet 64
  pivot = gimbal.hub
  axis  = [1, 0, 0]
  arms = {
    left   = [0, 0, -60]
    middle = [0, 0, 0]
  }
}
part "rotating-plate" {
  pivot = swashplate.middle
  axis  = [0, 1, 0]
  arms = {
    a        = [0, 10, 110]
    b        = [0, 10, -110]
    scissors = [60, 10, 0]
  }
  bolts = {
    a = [1, 0, 0]
    b = [1, 0, 0]
  }
}

# Drawn with blade a over the tail.
part "hub" {
  pivot = [0, 300]
  axis  = [0, 1, 0]             # plus: anticlockwise from above
  points = {
    grip-a   = [-70, 300]
    grip-b   = [70, 300]
    scissors = [50, 190]
  }
}
part "upper-scissor" {
  pivot = hub.scissors
  arms  = { tip = [90, -118] }
}
part "lower-scissor" {
  pivot = rotating-plate.scissors
  arms  = { tip = [80, 62] }
}
joint "scissors" {
  of = [upper-scissor.tip, lower-scissor.tip]
}
part "blade-a" {
  pivot = hub.grip-a
  axis  = [-1, 0, 0]
  arms = {
    horn = [70, 0, 200]
    le   = [-260, 0, 50]        # where the protractor goes
  }
}
part "blade-b" {
  pivot = hub.grip-b
  axis  = [1, 0, 0]
  arms = {
    horn = [-70, 0, -200]
    le   = [260, 0, -50]
  }
}

rod "pitch-link-a" {
  from         = rotating-plate.a
  to           = blade-a.horn
  misalignment = 24
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "pitch-link-b" {
  from         = rotating-plate.b
  to           = blade-b.horn
  misalignment = 24
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}

rotor {
  hub   = hub
  turns = "anticlockwise from above"
}

# What moves the first three is on sheet 64; held is where it leaves them.
control "height" {
  of    = collar
  from  = -38
  to    = 38
  held  = [0, -20, 24]
  plus  = "up"
  minus = "down"
  grip  = collar.center
}
control "nose" {
  of    = gimbal
  from  = -24
  to    = 24
  held  = [0, -14, 14.5]
  plus  = "up"                  # the nose
  minus = "down"
  grip  = gimbal.fore
}
control "side" {                # measured in the gimbal that carries it
  of    = swashplate
  from  = -20
  to    = 20
  held  = [0, -10, 10]
  plus  = "up"                  # the left side
  minus = "down"
  grip  = swashplate.left
}
control "azimuth" {             # by hand, all the way round
  of        = hub
  from      = -180
  to        = 180
  held      = [45]              # here either tilt works either blade
  seen-from = "up"
  turns     = "counterclockwise"
}

output "pitch-a" {
  of           = blade-a
  against      = "carrier"
  leading-edge = blade-a.le
  seen-at      = blade-a.le
  reads        = 4.5            # as drawn, the protractor at the station
}
output "pitch-b" {
  of           = blade-b
  against      = "carrier"
  leading-edge = blade-b.le
  seen-at      = blade-b.le
  reads        = 4.5
}

# Wider than what sheet 64 gives: none of these is to be met on the aircraft.
stop "collar-up" {
  of = collar
  at = 29
}
stop "collar-down" {
  of = collar
  at = -25
}
stop "nose-up" {
  of = gimbal
  at = 18
}
stop "nose-down" {
  of = gimbal
  at = -18
}
stop "left-up" {
  of = swashplate
  at = 14
}
stop "left-down" {
  of = swashplate
  at = -14
}

require "sense" "collar up, leading edge up" {
  when    = [collar.center, "up"]
  then    = [blade-a.le, "up"]
  control = height
}
require "sense" "collar up, leading edge up, blade b" {
  when    = [collar.center, "up"]
  then    = [blade-b.le, "up"]
  control = height
}
require "collective-pitch" "blade a" {
  of      = pitch-a
  low     = -1.4
  high    = 11.5
  within  = 1
  control = height
}
require "collective-pitch" "blade b" {
  of      = pitch-b
  low     = -1.4
  high    = 11.5
  within  = 1
  control = height
}
require "cyclic-pitch" "both ways at once" {
  of     = pitch-a
  low    = 0
  high   = 10
  within = 1
}

# From the designer's data: over which side pitch comes off, whatever else is held.
require "cyclic-sense" "nose down" {
  of         = pitch-a
  when       = [gimbal.fore, "down"]
  least-over = "right"
  within     = 10
  control    = nose
}
require "cyclic-sense" "nose down, blade b" {
  of         = pitch-b
  when       = [gimbal.fore, "down"]
  least-over = "right"
  within     = 10
  control    = nose
}
require "cyclic-sense" "left side down" {
  of         = pitch-a
  when       = [swashplate.left, "down"]
  least-over = "nose"
  within     = 10
  control    = side
}
require "cyclic-sense" "left side down, blade b" {
  of         = pitch-b
  when       = [swashplate.left, "down"]
  least-over = "nose"
  within     = 10
  control    = side
}

require "misalignment" {}
require "engagement" {}
require "rod-angle" { least = 40 }
require "stops" {}
