run "Throttle" {
  units    = "mm"
  symmetry = "x"
}
dims "bench" { arm = 50 }
fixed "frame" {
  round "bolt" {
    at     = [-60, 20]
    radius = 5
  }
}
part "lever" {
  pivot  = [-100, 0]
  points = { horn = [-100, 50], eye = [-100, bench.arm] }
  edge "tail" {
    through = [[-100, 0], [-70, 0], [-65, 10]]
    thick   = 4
  }
}
part "other" { mirror = lever }
part "arm" {
  pivot  = [0, 200]
  points = { eye = [0, 250], far = [0, 260] }
}
rod "link" {
  from = lever.horn
  to   = arm.eye
}
rod "link-2" {
  from = other.horn
  to   = arm.far
}
control "hand" {
  of   = lever
  from = -20
  to   = 20
}
stop "end" {
  of = lever
  at = 12
}
stop "metal" { touch = [lever.tail, frame.bolt] }
require "stops" {}
vary "step" {
  of   = arm.eye.y
  low  = 240
  high = 260
  step = 30
}
vary "turned" {
  of   = arm.far.y
  low  = 260
  high = 240
}
vary "same" {
  of   = arm.far.x
  low  = 5
  high = 5
}
vary "no step" {
  of   = arm.eye.x
  low  = 0
  high = 5
  step = 0
}
vary "length" {
  of   = link.length
  low  = -1
  high = 5
}
vary "stop" {
  of   = end.at
  low  = -5
  high = 5
}
