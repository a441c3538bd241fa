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
vary "nothing" {
  of = arm.eye.y
}
vary "both" {
  of    = arm.eye.y
  among = [1, 2]
  low   = 3
}
vary "point by range" {
  of   = arm.far
  low  = 3
  high = 4
}
vary "no of" {
  low  = 3
  high = 4
}
vary "half" {
  of  = arm.eye.x
  low = 3
}
