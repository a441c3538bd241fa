# A named dimension that makes no length.
run "Bench" {
  units = "mm"
}

dims "bench" {
  short = 10 - 70
}

rod "second" {
  from   = lever.horn
  to     = crank.tip
  length = bench.short
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
