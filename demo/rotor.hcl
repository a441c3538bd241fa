# Brackwren, two-seat light helicopter; aircraft and figures are invented.
# Sheet 26: rotor head, from the levers below the mast to the blades.
#
# The sleeve slides on the mast, and the collective's lever lifts it. On the sleeve's
# ball sits the swashplate, which tilts any way and doesn't turn: a link to the sleeve's
# bracket holds it. Two cranks ride on the sleeve, so that they rise with it, and tilt
# the swashplate by an upright rod each. On the swashplate turns the rotating plate; the
# scissors take it round with the hub, and a pitch link from it works each blade's horn.
#
# Look at: the rods from the two stick levers. They lie level, so the sleeve may rise
# hardly tilting the swashplate ("steady"). And where the horns stand: a quarter of a turn
# ahead of their blades, so that the stick to the front takes pitch off on the right.

run "Rotor head" {
  units   = "mm"
  craft   = "rotorcraft"
  view    = "from the right side, nose to the right"
  forward = [1, 0]
  up      = [0, 1]
}

# Measured from the middle of the ball, the collective half way: x forward, y up along
# the mast, z to the right.
part "collective-lever" {
  pivot = [-130, -220]
  arms  = { out = [100, 0] }
}
part "sleeve" {
  slide  = [0, 1]
  points = {
    lug       = [-30, -100]
    ball      = [0, 0]
    fore-pin  = [50, -80]
    right-pin = [0, -80, 50]
    bracket   = [-90, 0, 100]
  }
  bolts = { bracket = [1, 0, 0] }
}

# The stick's levers: what comes from the stick takes them at the bottom.
part "pitch-lever" {
  pivot = [420, -200]
  arms = {
    in  = [0, -90]
    top = [0, 80]
  }
}
part "roll-lever" {
  pivot = [0, -200, 420]
  axis  = [-1, 0, 0]            # plus: the bottom goes to the right
  arms = {
    in  = [0, -90, 0]
    top = [0, 80, 0]
  }
}

part "fore-crank" {
  pivot = sleeve.fore-pin       # carried
  arms = {
    in  = [0, -40]
    out = [40, 0]
  }
}
part "right-crank" {
  pivot = sleeve.right-pin
  axis  = [1, 0, 0]
  arms = {
    in  = [0, -40, 0]
    out = [0, 0, 40]
  }
}

# Square to the mast as drawn. Its tilt is told of the direction that it is square to,
# which is [0, 1, 0] where nothing else is said, and its bolts lie along that too:
# those of the rod ends lie flat, one way each.
part "swashplate" {
  ball = sleeve.ball
  arms = {
    fore   = [90, 0, 0]
    right  = [0, 0, 90]
    aft    = [-90, 0, 0]
    middle = [0, 0, 0]
  }
  bolts = {
    fore  = [0, 0, 1]
    right = [1, 0, 0]
    aft   = [1, 0, 0]
  }
}
part "rotating-plate" {
  pivot = swashplate.middle     # a hinge on a part that tilts
  axis  = [0, 1, 0]
  arms = {
    a        = [0, 10, 120]
    b        = [0, 10, -120]
    scissors = [75, 10, 0]
  }
  bolts = {
    a = [0, 0, 1]
    b = [0, 0, 1]
  }
}

# Drawn with blade a over the tail.
part "hub" {
  pivot = [0, 260]
  axis  = [0, 1, 0]             # plus: anticlockwise from above
  points = {
    grip-a   = [-60, 260]
    grip-b   = [60, 260]
    scissors = [50, 150]
  }
}
part "upper-scissor" {
  pivot = hub.scissors
  arms  = { tip = [80, -105] }
}
part "lower-scissor" {
  pivot = rotating-plate.scissors
  arms  = { tip = [55, 35] }
}
joint "scissors" {              # one bolt, in a ball
  of = [upper-scissor.tip, lower-scissor.tip]
}

part "blade-a" {
  pivot = hub.grip-a            # its feathering hinge
  axis  = [-1, 0, 0]
  arms = {
    horn = [60, 0, 120]
    le   = [-240, 0, 45]        # where the protractor goes
  }
}
part "blade-b" {
  pivot = hub.grip-b
  axis  = [1, 0, 0]
  arms = {
    horn = [-60, 0, -120]
    le   = [240, 0, -45]
  }
}

rod "collective-rod" {
  from         = collective-lever.out
  to           = sleeve.lug
  misalignment = 10
  end "from" {
    thread  = "M8x1.25"
    engaged = 15
    least   = 12
    most    = 20
  }
}
rod "pitch-rod" {
  from         = pitch-lever.top
  to           = fore-crank.in
  misalignment = 10
}
rod "roll-rod" {
  from         = roll-lever.top
  to           = right-crank.in
  misalignment = 10
}
rod "fore-rod" {
  from         = fore-crank.out
  to           = swashplate.fore
  diameter     = 12
  misalignment = 14
  end "from" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "right-rod" {
  from         = right-crank.out
  to           = swashplate.right
  diameter     = 12
  misalignment = 14
  end "from" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "anti-rotation-link" {
  from         = sleeve.bracket
  to           = swashplate.aft
  misalignment = 14
}
rod "pitch-link-a" {
  from         = rotating-plate.a
  to           = blade-a.horn
  diameter     = 12
  misalignment = 14
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
  diameter     = 12
  misalignment = 14
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

# What is held first is where each stands while another is looked at alone.
control "collective" {
  of    = collective-lever
  from  = -10
  to    = 10
  held  = [0, -7.2, 7.2]
  plus  = "lever up"
  minus = "lever down"
  grip  = collective-lever.out
}
control "fore-and-aft" {
  of    = pitch-lever
  from  = -12
  to    = 12
  held  = [0, -9, 9]
  plus  = "stick forward"
  minus = "stick aft"
  grip  = pitch-lever.in
}
control "side-to-side" {
  of    = roll-lever
  from  = -12
  to    = 12
  held  = [0, -9, 9]
  plus  = "stick right"
  minus = "stick left"
  grip  = roll-lever.in
}
control "azimuth" {             # by hand, all the way round
  of        = hub
  from      = -180
  to        = 180
  held      = [45]              # here either stick works either blade
  seen-from = "up"
  turns     = "counterclockwise"
}

output "nose-tilt" {
  of    = swashplate
  tilts = "forward"
  plus  = "forward"
  minus = "aft"
}
output "side-tilt" {
  of    = swashplate
  tilts = "right"
  plus  = "right"
  minus = "left"
}
output "pitch-a" {
  of           = blade-a
  against      = "carrier"
  leading-edge = blade-a.le
  seen-at      = blade-a.le
  reads        = 5              # as drawn, the protractor at the station
}
output "pitch-b" {
  of           = blade-b
  against      = "carrier"
  leading-edge = blade-b.le
  seen-at      = blade-b.le
  reads        = 5
}

stop "lever-up" {
  of = collective-lever
  at = 7.2
}
stop "lever-down" {
  of = collective-lever
  at = -7.2
}
stop "forward" {
  of = pitch-lever
  at = 9
}
stop "aft" {
  of = pitch-lever
  at = -9
}
stop "right" {
  of = roll-lever
  at = 9
}
stop "left" {
  of = roll-lever
  at = -9
}

# Which edge goes where; a and b are the blades, by their leading edges.
require "sense" "lever up, a up" {
  when    = [collective-lever.out, "up"]
  then    = [blade-a.le, "up"]
  control = collective
}
require "sense" "lever up, b up" {
  when    = [collective-lever.out, "up"]
  then    = [blade-b.le, "up"]
  control = collective
}
require "sense" "forward, front down" {
  when    = [pitch-lever.in, "forward"]
  then    = [swashplate.fore, "down"]
  control = fore-and-aft
}
require "sense" "right, right down" {
  when    = [roll-lever.in, "right"]
  then    = [swashplate.right, "down"]
  control = side-to-side
}

# The designer's figures, with the stick at neutral; then of the stick each way.
require "collective-pitch" "a" {
  of      = pitch-a
  low     = -1
  high    = 11
  within  = 0.5
  control = collective
}
require "collective-pitch" "b" {
  of      = pitch-b
  low     = -1
  high    = 11
  within  = 0.5
  control = collective
}
require "cyclic-pitch" "fore and aft" {
  of      = pitch-a
  low     = 0
  high    = 8
  within  = 0.5
  control = fore-and-aft
}
require "cyclic-pitch" "left and right" {
  of      = pitch-a
  low     = 0
  high    = 8
  within  = 0.5
  control = side-to-side
}
require "cyclic-pitch" "neutral" {
  of      = pitch-a
  most    = 0.5
  control = collective
}

# Over which side the stick takes the pitch off, at every setting of the rest: from the
# designer's data. How long before the disk is to go down a blade must have its least pitch
# hangs on the rotor, which this file doesn't know.
require "cyclic-sense" "forward, a" {
  of         = pitch-a
  when       = [pitch-lever.in, "forward"]
  least-over = "right"
  within     = 10
  control    = fore-and-aft
}
require "cyclic-sense" "forward, b" {
  of         = pitch-b
  when       = [pitch-lever.in, "forward"]
  least-over = "right"
  within     = 10
  control    = fore-and-aft
}
require "cyclic-sense" "right, a" {
  of         = pitch-a
  when       = [roll-lever.in, "right"]
  least-over = "tail"
  within     = 10
  control    = side-to-side
}
require "cyclic-sense" "right, b" {
  of         = pitch-b
  when       = [roll-lever.in, "right"]
  least-over = "tail"
  within     = 10
  control    = side-to-side
}

require "travel" "fore and aft" {
  of      = nose-tilt
  low     = -8
  high    = 8
  within  = 1
  control = fore-and-aft
}
require "travel" "left and right" {
  of      = side-tilt
  low     = -8
  high    = 8
  within  = 1
  control = side-to-side
}
require "steady" "nose, while the lever moves" {
  of      = nose-tilt
  within  = 0.5
  control = collective
}
require "steady" "side, while the lever moves" {
  of      = side-tilt
  within  = 0.5
  control = collective
}
require "steady" "side, while the stick goes fore and aft" {
  of      = side-tilt
  within  = 0.5
  control = fore-and-aft
}
require "steady" "nose, while the stick goes sideways" {
  of      = nose-tilt
  within  = 0.5
  control = side-to-side
}

# The pitch links come round over the two rods of the swashplate.
require "clearance" "front" {
  between = [pitch-link-a, fore-rod]
  least   = 10
}
require "clearance" "right" {
  between = [pitch-link-a, right-rod]
  least   = 10
}
require "misalignment" {}
require "engagement" {}
require "rod-angle" { least = 40 }
require "over-center" { least = 2 }
require "stops" {}
