# The same metal as demo/aircraft/cyclic.hcl, collective.hcl and mixing.hcl in one
# run: every place in millimeters and as seen from the left. Names begin with c-, l- and m-.

run "Whole" {
  units = "mm"
  craft = "rotorcraft"
  view = "from the left side, nose to the left"
  forward = [-1, 0]
  up = [0, 1]
}
part "c-cross-shaft" {
  pivot = [0, 0, 0]
  points = {
    left = [0, 50, 230]
    right = [0, 50, -230]
    horn = [0, -72, 0]
  }
}
part "c-left-stick" {
  pivot = c-cross-shaft.left
  axis = [1, 0, 0]
  points = {
    grip = [-50, 430, 230]
    tie = [-30, -12, 230]
  }
}
part "c-right-stick" {
  pivot = c-cross-shaft.right
  axis = [1, 0, 0]
  points = {
    grip = [-50, 430, -230]
    tie = [-30, -12, -230]
    roll = [0, 0, -230]
  }
}
part "c-roll-crank" {
  pivot = [0, -48, -20]
  axis = [1, 0, 0]
  arms  = {
    in = [0, 48, 0]
    out = [670, 0, 58]
  }
}
part "c-pitch-crank" {
  pivot = [620, -142, 0]
  arms  = {
    in = polar(70, 90)
    out = [0, 70, 30]
  }
}
rod "c-tie-tube" {
  from = c-left-stick.tie
  to = c-right-stick.tie
  length = 460.2
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least = 9
    most = 16
  }
}
rod "c-roll-rod" {
  from = c-right-stick.roll
  to = c-roll-crank.in
  misalignment = 9
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least = 9
    most = 16
  }
}
rod "c-pitch-rod" {
  from = c-cross-shaft.horn
  to = c-pitch-crank.in
  misalignment = 9
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least = 9
    most = 16
  }
}
control "c-pitch" {
  of = c-cross-shaft
  from  = -30
  to    = 30
  held  = [-13, 0, 12]
  grip = c-left-stick.grip
}
control "c-roll" {
  of = c-left-stick
  from  = -30
  to    = 30
  held  = [-11, 0, 11]
}
output "c-fore-and-aft" {
  of = c-pitch-crank
  seen-at = c-pitch-crank.out
}
output "c-side-to-side" {
  of = c-roll-crank
}
stop "c-forward" {
  of = c-cross-shaft
  at = 12
}
stop "c-aft" {
  of = c-cross-shaft
  at = -13
}
stop "c-left" {
  of = c-left-stick
  at = 11
}
stop "c-right" {
  of = c-left-stick
  at = -11
}
fixed "l-airframe" {
  points = { carb-bracket = [1140, 120, 0] }
}
part "l-lever" {
  pivot = [320, -20, 0]
  points = {
    hand = [-10, 178, 0]
    tube = [260, 16, 0]
    bracket = [275, 41, -70]
  }
  arms   = { horn = polar(95, 260) }
}
part "l-grip" {
  pivot = l-lever.tube
  axis = [-5, 3, 0]
  arms  = { horn = [15, 25, 0] }
}
part "l-floor-crank" {
  pivot = [620, -80, 0]
  arms = {
    low = polar(90, 260)
    aft = polar(58, 0)
  }
}
part "l-collective-arm" {
  pivot = [620, -12, 0]
  arms = {
    in = polar(58, 0)
    pin = polar(110, 180)
    lug = [-110, 0, -40]
  }
}
part "l-carburetor" {
  pivot = [1220, 80, 0]
  arms  = { hole = polar(32, 80) }
}
rod "l-floor-rod" {
  from = l-lever.horn
  to = l-floor-crank.low
  misalignment = 8
  end "from" {
    thread  = "M8x1.25"
    engaged = 15
    least = 12
    most = 20
  }
}
rod "l-mast-rod" {
  from = l-floor-crank.aft
  to = l-collective-arm.in
  misalignment = 8
  end "to" {
    thread  = "M8x1.25"
    engaged = 15
    least = 12
    most = 20
  }
}
cable "l-throttle-core" {
  from = l-grip.horn
  to = l-carburetor.hole
  conduit = [l-lever.bracket, l-airframe.carb-bracket]
  pushes  = true
}
control "l-collective" {
  of = l-lever
  from  = -35
  to    = 35
  held  = [-12, 0, 10]
  grip = l-lever.hand
}
control "l-throttle" {
  of = l-grip
  from      = -60
  to        = 60
}
output "l-arm" {
  of = l-collective-arm
  seen-at = l-collective-arm.pin
}
output "l-butterfly" {
  of = l-carburetor
}
stop "l-lever-up" {
  of = l-lever
  at = -12
}
stop "l-lever-down" {
  of = l-lever
  at = 10
}
stop "l-idle" {
  of = l-carburetor
  at = 34
}
stop "l-full" {
  of = l-carburetor
  at = -34
}
stop "l-grip-closed" {
  of = l-grip
  at = -45
}
part "m-side-crank" {
  pivot = [620, -142, 38]
  arms = {
    in = [50, 0, 0]
    out = [0, 70, 0]
  }
}
part "m-pitch-lever" {
  pivot = l-collective-arm.pin
  arms = {
    horn = [0, -60, 30]
    fore = [-55, 0, 0]
  }
}
part "m-roll-lever" {
  pivot = l-collective-arm.pin
  arms = {
    horn = [0, -60, 38]
    aft = [35, 0, 60]
  }
}
part "m-collar" {
  slide = [0, 1, 0]
  points = {
    eye = [510, 388, -40]
    center = [520, 408, 0]
  }
}
part "m-gimbal" {
  pivot = m-collar.center
  arms  = {
    fore = [-60, 0, 0]
    hub = [0, 0, 0]
  }
}
part "m-swashplate" {
  pivot = m-gimbal.hub
  axis = [-1, 0, 0]
  arms  = { left = [0, 0, 60] }
  bolts = { left = [0, 0, -1] }
}
rod "m-collar-rod" {
  from = l-collective-arm.lug
  to = m-collar.eye
  end "from" {
    thread  = "M8x1.25"
    engaged = 15
    least = 12
    most = 20
  }
}
rod "m-pitch-link" {
  from = c-pitch-crank.out
  to = m-pitch-lever.horn
  length = 110
}
rod "m-side-rod" {
  from = c-roll-crank.out
  to = m-side-crank.in
  misalignment = 12
}
rod "m-roll-link" {
  from = m-side-crank.out
  to = m-roll-lever.horn
  length = 110
}
rod "m-fore-rod" {
  from = m-pitch-lever.fore
  to = m-gimbal.fore
  misalignment = 8
  end "from" {
    thread  = "M6x1"
    engaged = 12
    least = 9
    most = 16
  }
}
rod "m-left-rod" {
  from = m-roll-lever.aft
  to = m-swashplate.left
  misalignment = 14
  end "from" {
    thread  = "M6x1"
    engaged = 12
    least = 9
    most = 16
  }
}
output "m-height" {
  of = m-collar
  reads = 62
}
output "m-nose-tilt" {
  of = m-gimbal
  seen-at = m-gimbal.fore
}
output "m-side-tilt" {
  of = m-swashplate
  against = "carrier"
  seen-at = m-swashplate.left
}
stop "m-arm-up" {
  of = l-collective-arm
  at = -14
}
stop "m-arm-down" {
  of = l-collective-arm
  at = 12
}
stop "m-pitch-fore" {
  of = c-pitch-crank
  at = 14.5
}
stop "m-pitch-aft" {
  of = c-pitch-crank
  at = -13.5
}
stop "m-roll-up" {
  of = c-roll-crank
  at = -13
}
stop "m-roll-down" {
  of = c-roll-crank
  at = 13
}
require "stops" {}
require "sense" "stick forward" {
  when    = [c-left-stick.grip, "forward"]
  then    = [m-gimbal.fore, "down"]
  control = c-pitch
}
require "sense" "stick left" {
  when    = [c-right-stick.grip, "left"]
  then    = [m-swashplate.left, "down"]
  control = c-roll
}
require "sense" "lever up" {
  when    = [l-lever.hand, "up"]
  then    = [m-collar.center, "up"]
  control = l-collective
}
require "travel" "height" {
  of      = m-height
  low     = 41.6
  high    = 86.6
  within  = 1
  control = l-collective
}
require "travel" "nose tilt" {
  of      = m-nose-tilt
  low     = -14.8
  high    = 14
  within  = 1.75
  control = c-pitch
}
require "travel" "side tilt" {
  of      = m-side-tilt
  low     = -10.2
  high    = 10
  within  = 1.75
  control = c-roll
}
require "order" "sf" {
  first = c-forward
  then = m-pitch-aft
  least = 0.5
  control = c-pitch
}
require "order" "sa" {
  first = c-aft
  then = m-pitch-fore
  least = 0.5
  control = c-pitch
}
require "order" "sl" {
  first = c-left
  then = m-roll-up
  least = 0.5
  control = c-roll
}
require "order" "sr" {
  first = c-right
  then = m-roll-down
  least = 0.5
  control = c-roll
}
require "order" "lu" {
  first = l-lever-up
  then = m-arm-up
  least = 0.5
  control = l-collective
}
require "order" "ld" {
  first = l-lever-down
  then = m-arm-down
  least = 0.5
  control = l-collective
}
require "steady" "nose lever" {
  of = m-nose-tilt
  within = 1
  control = l-collective
}
require "steady" "side lever" {
  of = m-side-tilt
  within = 1
  control = l-collective
}
require "steady" "height pitch" {
  of = m-height
  within = 0.1
  control = c-pitch
}
require "steady" "side pitch" {
  of = m-side-tilt
  within = 0.8
  control = c-pitch
}
require "steady" "nose roll" {
  of = m-nose-tilt
  within = 0.1
  control = c-roll
}
require "steady" "thr" {
  of = l-butterfly
  within = 0.1
  control = l-collective
}
require "rod-angle" { least = 45 }
require "over-center" "c-roll" {
  least = 10
  control = c-roll
}
require "over-center" "l-collective" {
  least = 10
  control = l-collective
}
require "misalignment" {}
require "engagement" {}
