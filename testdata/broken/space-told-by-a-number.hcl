run "What one number tells" {
  units   = "mm"
  forward = [-1, 0]
  up      = [0, 1]
}
fixed "airframe" {
  points = { a = [-50, -100], b = [0, -100, 50], c = [50, 0, -100] }
  round "post" {
    at     = [0, 100]
    radius = 5
  }
}
part "lever" {
  pivot = [100, 0]
  arms  = { eye = [0, 50] }
}
part "ring" {
  ball = [0, 0]
  arms = { fore = [-50, 0], left = [0, 0, 50], aft = [50, 0] }
  round "boss" {
    at     = [-60, 0]
    radius = 5
  }
  edge "rim" {
    through = [[-60, 0], [60, 0]]
    thick   = 4
  }
  edge "bar" {
    through  = [[-60, 0], [60, 0]]
    diameter = 4
  }
}
part "horn" {
  pivot = ring.left
  arms  = { tip = [0, 20] }
  round "roller" {
    at     = [0, 20, 50]
    radius = 3
  }
}
part "plate" {
  floats = "space"
  points = { eye = [0, 50], far = [50, 50] }
}
part "sleeve" {
  pivot  = [0, 0]
  axis   = [0, 1, 0]
  slides = true
  points = { eye = [10, 0] }
}
rod "a" {
  from = airframe.a
  to   = ring.fore
}
rod "b" {
  from = airframe.b
  to   = ring.left
}
rod "c" {
  from = lever.eye
  to   = ring.aft
}
rod "d" {
  from = lever.eye
  to   = horn.tip
}
control "hand" {
  of = lever
}
control "tilt" {
  of = ring
}
control "loose" {
  of = plate
}
control "slid" {
  of = sleeve
}
pin "ring-pin" {
  of = ring
}
pin "sleeve-pin" {
  of = sleeve
}
stop "tilted" {
  of = ring
  at = 8
}
stop "boss" {
  touch = [ring.boss, airframe.post]
}
stop "rim" {
  touch = [ring.rim, lever.eye]
}
stop "roller" {
  touch = [horn.roller, airframe.post]
}
require "clearance" {
  between = [ring.rim, airframe.post]
  least   = 3
}
require "travel" {
  of     = ring
  low    = -8
  high   = 8
  within = 1
}
require "together" {
  of     = [lever, plate]
  within = 1
}
output "which-way" {
  of = ring
}
output "turns" {
  of      = ring
  against = "carrier"
  tilts   = "forward"
}
