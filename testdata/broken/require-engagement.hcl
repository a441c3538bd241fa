# Nothing has a thread, and nothing is a second path.
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

control "hand" {
  of   = lever
  from = -40
  to   = 40
}

require "engagement" {
  least = 9
}

require "second-path" {
  most = 1/2
}
