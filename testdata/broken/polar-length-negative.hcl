# The length and the angle of polar in each other's place, and a negative length.
run "Bench" {
  units = "mm"
}

fixed "frame" {
  points = { a = polar(-80, 2.5), b = polar(-80, -2.5), c = polar(-(2 + 1/2), 30, "xz") }
}

part "lever" {
  pivot = [0, 0]
  arms  = { horn = [0, 60] }
}

part "crank" {
  pivot = [200, 0]
  arms  = { horn = [0, 60], tip = polar(80, 45) }
}

rod "link" {
  from = lever.horn
  to   = crank.horn
}

control "hand" {
  of   = lever
  from = -40
  to   = 40
}

output "valve" {
  of = crank
}

require "sense" {
  of    = [hand, valve]
  turns = "same"
}
