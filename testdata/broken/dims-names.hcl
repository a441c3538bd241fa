# A dims block without a name, with the name of a part, and twice.
run "Bench" {
  units = "mm"
}

dims {
  arm = 60
}
dims "lever" {
  arm = 60
}
dims "bench" {
  arm = 60
}
dims "bench" {
  arm = 61
}

part "lever" {
  pivot = [0, 0]
  arms  = { horn = [0, bench.arm] }
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
