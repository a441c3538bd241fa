# That a setting can be so is judged by itself, and not to be required.
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

require "setting" {
}

require "setting" "of the rod ends" {
  least = 9
}
