# Brackwren, kit 2, two-seat light helicopter; aircraft and figures are invented.
# Sheet 64: mixing levers and swashplate.
#
# Two levers hang on the pin of the collective's arm. Raise the collective (sheet 65)
# and both rise with it, and the collar, the gimbal and the swashplate on the mast.
# The pitch crank (sheet 63) rocks the one lever and tilts the gimbal fore and aft. The
# roll crank, the aft end of its tube, works the side crank by an upright rod; that rocks
# the other lever, and the swashplate tilts in the gimbal.
#
# Look at: the "steady" requirements. Each link is as long as the arm and level with it
# (the named dimension "tube.arm"), so it lets its lever rise hardly tilting.

run "Mixing" {
  units   = "mm"
  craft   = "rotorcraft"
  view    = "from the right side, nose to the right"
  forward = [1, 0]
  up      = [0, 1]
}

dims "tube" {
  arm = 110
}

# Measured from the collective's tube: x forward, y up, z to the right.
part "collective-arm" {
  pivot = [0, 0]
  arms = {
    in  = polar(58, 180)        # the mast rod: sheet 65
    pin = [tube.arm, 0]
    lug = [tube.arm, 0, 40]     # beside it, for the collar's rod
  }
}
part "pitch-arm" {              # the pitch crank of sheet 63
  pivot = [0, -130]
  arms  = { out = [0, 70, -30] }
}
part "roll-arm" {               # the roll crank of sheet 63
  pivot = [-50, -36, 20]
  axis  = [-1, 0, 0]            # plus is anticlockwise seen from behind, as there
  arms  = { out = [0, 0, -58] } # to the left
}
part "side-crank" {
  pivot = [0, -130, -38]
  arms = {
    in  = [-50, 0]
    out = [0, 70]
  }
}
part "pitch-lever" {
  pivot = collective-arm.pin    # carried
  arms = {
    horn = [0, -60, -30]
    fore = [55, 0]
  }
}
part "roll-lever" {
  pivot = collective-arm.pin
  arms = {
    horn = [0, -60, -38]
    aft  = [-35, 0, -60]
  }
}
part "collar" {
  slide  = [0, 1]               # on the mast
  points = {
    eye    = [110, 400, 40]
    center = [100, 420]
  }
}
part "gimbal" {
  pivot = collar.center
  arms  = {
    fore = [60, 0]
    hub  = [0, 0]
  }
}
part "swashplate" {
  pivot = gimbal.hub
  axis  = [1, 0, 0]
  arms  = { left = [0, 0, -60] }
  bolts = { left = [0, 0, 1] }
}

rod "collar-rod" {
  from = collective-arm.lug
  to   = collar.eye
  end "from" {
    thread  = "M8x1.25"
    engaged = 15
    least   = 12
    most    = 20
  }
}
rod "pitch-link" {
  from   = pitch-arm.out
  to     = pitch-lever.horn
  length = tube.arm
}
rod "side-rod" {
  from         = roll-arm.out
  to           = side-crank.in
  misalignment = 12
}
rod "roll-link" {
  from   = side-crank.out
  to     = roll-lever.horn
  length = tube.arm
}
rod "fore-rod" {
  from         = pitch-lever.fore
  to           = gimbal.fore
  misalignment = 8
  end "from" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "left-rod" {
  from         = roll-lever.aft
  to           = swashplate.left
  misalignment = 14
  end "from" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}

# What moves the three is on sheets 63 and 65; held is where it leaves them.
control "collective" {
  of    = collective-arm
  from  = -30
  to    = 30
  held  = [-10.5, 0, 12.5]
  plus  = "up"
  minus = "down"
  grip  = collective-arm.pin
}
control "pitch" {
  of    = pitch-arm
  from  = -30
  to    = 30
  held  = [-13, 0, 12]
  plus  = "aft"                 # as the sticks go forward
  minus = "forward"
  grip  = pitch-arm.out
}
control "roll" {
  of    = roll-arm
  from  = -30
  to    = 30
  held  = [-11, 0, 11]
  plus  = "down"                # as the sticks go right
  minus = "up"
  grip  = roll-arm.out
}

output "height" {
  of    = collar
  plus  = "up"
  minus = "down"
  reads = 62                    # above the mast's lower nut, as drawn
}
output "nose-tilt" {
  of      = gimbal
  seen-at = gimbal.fore
  plus    = "up"
  minus   = "down"
}
output "side-tilt" {
  of      = swashplate
  against = "carrier"
  seen-at = swashplate.left
  plus    = "up"
  minus   = "down"
}

# Wider than the hand's own: none of these is to be met on the aircraft.
stop "arm-up" {
  of = collective-arm
  at = 14
}
stop "arm-down" {
  of = collective-arm
  at = -12
}
stop "pitch-fore" {
  of = pitch-arm
  at = -14.5
}
stop "pitch-aft" {
  of = pitch-arm
  at = 13.5
}
stop "roll-up" {
  of = roll-arm
  at = -13
}
stop "roll-down" {
  of = roll-arm
  at = 13
}

require "sense" "arm up, swashplate up" {
  when    = [collective-arm.pin, "up"]
  then    = [collar.center, "up"]
  control = collective
}
require "sense" "pitch crank aft, nose down" {
  when    = [pitch-arm.out, "aft"]
  then    = [gimbal.fore, "down"]
  control = pitch
}
require "sense" "roll crank up, left side down" {
  when    = [roll-arm.out, "up"]
  then    = [swashplate.left, "down"]
  control = roll
}
require "travel" "height" {
  of      = height
  low     = 40.5
  high    = 87.5
  within  = 2
  control = collective
}
require "travel" "nose tilt" {
  of      = nose-tilt
  low     = -14
  high    = 14.8
  within  = 1.75
  control = pitch
}
require "travel" "side tilt" {
  of      = side-tilt
  low     = -10.2
  high    = 10
  within  = 1.75
  control = roll
}
require "steady" "nose, while the collective moves" {
  of      = nose-tilt
  within  = 1
  control = collective
}
require "steady" "side, while the collective moves" {
  of      = side-tilt
  within  = 1
  control = collective
}
require "steady" "side, while the sticks go fore and aft" {
  of      = side-tilt
  within  = 0.8
  control = pitch
}
require "steady" "nose, while the sticks go sideways" {
  of      = nose-tilt
  within  = 0.1
  control = roll
}
# Of these two; of pitch see sheet 63, since the sticks fore and aft move the roll crank
# by next to nothing, to and fro.
require "over-center" "collective" {
  least   = 10
  control = collective
}
require "over-center" "roll" {
  least   = 10
  control = roll
}
require "rod-angle" { least = 50 }
require "misalignment" {}
require "engagement" {}
require "stops" {}
