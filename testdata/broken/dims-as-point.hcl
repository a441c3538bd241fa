# A named dimension where a point is wanted, and a dims block named as a part.
run "Bench" {
  units = "mm"
}

dims "bench" {
  arm = 60
}

stop "low" {
  of = bench
  at = -30
}

rod "second" {
  from = bench.arm
  to   = crank.tip
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
