# Names with dashes where a difference is meant.
run "Bench" {
  units = "mm"
}

dims "bench" {
  arm     = 60
  arm-two = 40
}

part "lever" {
  pivot = [0, 0]
  arms  = { horn = [0, bench.arm-20] }
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
  to   = bench-arm
}

output "valve" {
  of = crank
}

require "sense" {
  of    = [hand, valve]
  turns = "same"
}
