# Attributes that readings lack.
run "Bench" {
  units = "mm"
}

fixed "frame" {
  points = { hook = [0, 90] }
  round "post" {
    at     = [-30, 20]
    radius = 6
  }
}

part "lever" {
  pivot  = [0, 0]
  points = { horn = [0, 60] }
}

part "crank" {
  pivot = [200, 0]
  arms  = { horn = [0, 60], tip = polar(80, 45) }
}

rod "link" {
  from   = lever.horn
  to     = crank.horn
  length = 200 + 1/2
}

control "hand" {
  of   = lever
  from = -40
  to   = 40
}

output "valve" {
  of = crank
}

require "stops" {
}

measured "first rigging" {
  of       = valve
  readings = [[-20, 19.1], [0, 0.6], [20, -18.4]]
  within   = 0.4
  dated    = "2026-05-01"
}
