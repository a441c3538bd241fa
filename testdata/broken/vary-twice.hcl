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
vary "place" {
  of    = arm.eye
  among = [[0, 250], [0, 251], [0, 250]]
}
vary "hole" {
  of    = arm.far
  among = [[0, 250]]
}
vary "again" {
  of   = arm.far.y
  low  = 250
  high = 260
}
