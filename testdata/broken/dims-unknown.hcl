# Named dimensions that are not there.
run "Bench" {
  units = "mm"
}

dims "bench" {
  arm = 60
  out = bench.amr
  far = bnech.arm
}
dims "other" {
  far = arm
}

part "lever" {
  pivot = [0, 0]
  arms  = { horn = [0, lever.horn] }
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
  to   = bench
}

output "valve" {
  of = crank
}

require "sense" {
  of    = [hand, valve]
  turns = "same"
}
