# Brackwren, kit 2, two-seat light helicopter; aircraft and figures are invented.
# Sheet 65: collective and throttle.
#
# Raise the lever: the floor rod goes forward, the floor crank draws the mast rod down,
# and the arm of the collective's tube, ahead of that tube, goes up. What hangs on the arm
# is on sheet 64. The twist grip sits on the lever and rides with it. It moves
# the carburetor by a push-pull core, whose conduit is held on the lever.
#
# Look at: "steady", the throttle while the lever moves. With the conduit held on
# the floor instead of on the lever, raising the lever would move the throttle.

run "Collective and throttle" {
  units   = "mm"
  craft   = "rotorcraft"
  view    = "from the right side, nose to the right"
  forward = [1, 0]
  up      = [0, 1]
}

# Measured from the lever's pivot: x forward, y up, z to the right.
fixed "airframe" {
  points = { carb-bracket = [-820, 140] }
}
part "lever" {
  pivot  = [0, 0]
  points = {
    hand    = [330, 198]
    tube    = [60, 36]          # where the grip's tube turns in it
    bracket = [45, 61, 70]      # holds the conduit
  }
  arms   = { horn = polar(95, -80) }
}
part "grip" {
  pivot = lever.tube
  axis  = [5, 3, 0]             # along the lever, towards the thumb
  arms  = { horn = [-15, 25, 0] }
}
part "floor-crank" {
  pivot = [-300, -60]
  arms = {
    low = polar(90, -80)
    aft = polar(58, 180)
  }
}
part "collective-arm" {         # and its tube, across behind the mast
  pivot = [-300, 8]
  arms = {
    in  = polar(58, 180)
    pin = polar(110, 0)         # the mixing levers turn on this: sheet 64
  }
}
part "carburetor" {             # its arm
  pivot = [-900, 100]
  arms  = { hole = polar(32, 100) }
}

rod "floor-rod" {
  from         = lever.horn
  to           = floor-crank.low
  misalignment = 8
  end "from" {
    thread  = "M8x1.25"
    engaged = 15
    least   = 12
    most    = 20
  }
}
rod "mast-rod" {
  from         = floor-crank.aft
  to           = collective-arm.in
  misalignment = 8
  end "to" {
    thread  = "M8x1.25"
    engaged = 15
    least   = 12
    most    = 20
  }
}
cable "throttle-core" {
  from    = grip.horn
  to      = carburetor.hole
  conduit = [lever.bracket, airframe.carb-bracket]
  pushes  = true
}

control "collective" {
  of    = lever
  from  = -35
  to    = 35
  held  = [-10, 0, 12]
  plus  = "lever up"
  minus = "lever down"
  grip  = lever.hand
}
control "throttle" {            # measured on the lever that carries it
  of        = grip
  from      = -60
  to        = 60
  held      = [0]
  plus      = "open"
  minus     = "closed"
  seen-from = "the thumb"
  turns     = "counterclockwise"
}

output "arm" {
  of      = collective-arm
  seen-at = collective-arm.pin
  plus    = "up"
  minus   = "down"
}
output "butterfly" {
  of    = carburetor
  plus  = "open"
  minus = "closed"
}

stop "lever-up" {
  of = lever
  at = 12
}
stop "lever-down" {
  of = lever
  at = -10
}
stop "idle" {                   # at the carburetor: before the grip's own
  of = carburetor
  at = -34
}
stop "full" {
  of = carburetor
  at = 34
}
stop "grip-closed" {
  of = grip
  at = -45
}

require "sense" "lever up, arm up" {
  when    = [lever.hand, "up"]
  then    = [collective-arm.pin, "up"]
  control = collective
}
require "sense" "grip opens, butterfly opens" {
  when    = [grip.horn, "right"]
  then    = [carburetor.hole, "aft"]
  control = throttle
}
require "travel" "arm" {
  of      = arm
  low     = -11
  high    = 13
  within  = 0.5
  control = collective
}
require "travel" "butterfly" {
  of      = butterfly
  low     = -34
  high    = 34
  within  = 1
  control = throttle
}
require "steady" "throttle, while the lever moves" {
  of      = butterfly
  within  = 0.1
  control = collective
}
require "order" "idle is set at the carburetor" {
  first = idle
  then  = grip-closed
  least = 2
}
require "over-center" { least = 10 }
require "rod-angle" { least = 45 }
require "misalignment" {}
require "engagement" {}
require "stops" {}
