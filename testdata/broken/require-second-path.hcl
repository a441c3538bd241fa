# A second path without a misfit allowed, and with less than none.
run "Bench" {
  units = "mm"
}

part "lever" {
  pivot  = [0, 0]
  points = { horn = [0, 60], low = [0, -40] }
}

part "crank" {
  pivot = [200, 0]
  arms  = { horn = [0, 60], low = [0, -40] }
}

rod "a" {
  from = lever.low
  to   = crank.low
  second-path = true
}

control "hand" {
  of   = lever
  from = -40
  to   = 40
}

require "second-path" {
}

require "second-path" "less" {
  most = -1
}
