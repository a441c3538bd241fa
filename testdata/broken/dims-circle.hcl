# Named dimensions that rest on one another, and one on itself.
run "Bench" {
  units = "mm"
}

dims "bench" {
  arm   = bench.reach / 2
  reach = bench.width + 4
  width = 2 * bench.arm
  own   = bench.own - 1
  after = bench.reach
}

part "lever" {
  pivot = [0, 0]
  arms  = { horn = [0, bench.after] }
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
