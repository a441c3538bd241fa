# A rotor head: sleeve, swashplate on a ball, rotating plate, scissors, two blades.
run "Rotor head" {
  units   = "mm"
  craft   = "rotorcraft"
  view    = "from the left side, nose to the left"
  forward = [-1, 0]
  up      = [0, 1]
}

part "lever" {
  pivot = [110, -220]
  arms  = { out = [-100, 0] }
}
part "sleeve" {
  slide  = [0, 1]
  points = {
    lug      = [10, -100]
    center   = [0, 0]
    fore-pin = [-50, -80]
    left-pin = [0, -80, 50]
    anchor   = [90, 0, -100]
  }
}
rod "collective-rod" {
  from = lever.out
  to   = sleeve.lug
}

part "pitch-lever" {
  pivot = [-400, -200]
  arms  = { top = [0, 80] }
}
part "fore-crank" {
  pivot = sleeve.fore-pin
  arms  = {
    in  = [0, -40]
    out = [-40, 0]
  }
}
rod "pitch-rod" {
  from = pitch-lever.top
  to   = fore-crank.in
}
part "roll-lever" {
  pivot = [0, -200, 400]
  axis  = [1, 0, 0]
  arms  = { top = [0, 80, 0] }
}
part "left-crank" {
  pivot = sleeve.left-pin
  axis  = [1, 0, 0]
  arms  = {
    in  = [0, -40, 0]
    out = [0, 0, 40]
  }
}
rod "roll-rod" {
  from = roll-lever.top
  to   = left-crank.in
}

part "swashplate" {
  ball = sleeve.center
  arms = {
    fore   = [-90, 0]
    left   = [0, 0, 90]
    aft    = [90, 0]
    middle = [0, 0]
  }
  bolts = { fore = [0, 0, 1], left = [1, 0, 0], aft = [1, 0, 0] }
}
rod "fore-rod" {
  from = fore-crank.out
  to   = swashplate.fore
}
rod "left-rod" {
  from = left-crank.out
  to   = swashplate.left
}
rod "anti-rotation-link" {
  from = sleeve.anchor
  to   = swashplate.aft
}

part "hub" {
  pivot  = [0, 260]
  axis   = [0, 1, 0]
  points = {
    grip-a   = [60, 260]
    grip-b   = [-60, 260]
    scissors = [0, 160, 40]
  }
}
part "rotating-plate" {
  pivot = swashplate.middle
  axis  = [0, 1, 0]
  arms  = {
    a        = [0, 10, -120]
    b        = [0, 10, 120]
    scissors = [0, 10, 80]
  }
  bolts = { a = [0, 0, 1], b = [0, 0, 1] }
}
part "upper-link" {
  pivot = hub.scissors
  axis  = [1, 0, 0]
  arms  = { tip = [0, -75, 100] }
}
part "lower-link" {
  pivot = rotating-plate.scissors
  axis  = [1, 0, 0]
  arms  = { tip = [0, 75, 60] }
}
joint "scissors" {
  of = [upper-link.tip, lower-link.tip]
}

part "blade-a" {
  pivot = hub.grip-a
  axis  = [1, 0, 0]
  arms  = {
    horn = [-60, 0, -120]
    le   = [300, 0, -40]
  }
}
part "blade-b" {
  pivot = hub.grip-b
  axis  = [-1, 0, 0]
  arms  = {
    horn = [60, 0, 120]
    le   = [-300, 0, 40]
  }
}
rod "pitch-link-a" {
  from = rotating-plate.a
  to   = blade-a.horn
}
rod "pitch-link-b" {
  from = rotating-plate.b
  to   = blade-b.horn
}

rotor {
  hub   = hub
  turns = "anticlockwise from above"
}

control "collective" {
  of   = lever
  from = -10
  to   = 10
}
control "pitch" {
  of   = pitch-lever
  from = -12
  to   = 12
}
control "roll" {
  of   = roll-lever
  from = -12
  to   = 12
}
control "azimuth" {
  of   = hub
  from = -180
  to   = 180
}

output "fore-and-aft" {
  of    = swashplate
  tilts = "forward"
  plus  = "forward"
}
output "left-and-right" {
  of    = swashplate
  tilts = [0, 0, -1]
  plus  = "right"
}
output "pitch-a" {
  of           = blade-a
  leading-edge = blade-a.le
  reads        = 5
}
output "pitch-b" {
  of           = blade-b
  leading-edge = blade-b.le
  reads        = 5
}

require "collective-pitch" "a" {
  of     = pitch-a
  low    = 0
  high   = 10
  within = 1
}
require "cyclic-pitch" "a" {
  of   = pitch-a
  most = 12
}
require "steady" "fore and aft" {
  of      = fore-and-aft
  within  = 0.5
  control = collective
}
require "cyclic-sense" "a" {
  of        = pitch-a
  when      = [pitch-lever.top, "aft"]
  most-over = 280
  within    = 15
  control   = pitch
}
