# A named dimension in three names, and one by its number.
run "Bench" {
  units = "mm"
}

dims "bench" {
  arm = 60
}

part "lever" {
  pivot = [0, 0]
  arms  = { horn = [0, bench.arm.long] }
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
  to   = bench[0]
}

output "valve" {
  of = crank
}

require "sense" {
  of    = [hand, valve]
  turns = "same"
}
