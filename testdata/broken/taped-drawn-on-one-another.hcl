# Places drawn on one another, between which there is no direction.
run "Bench" {
  units = "mm"
}

fixed "frame" {
  points = { hook = [0, 90], datum = [200, 0], high = [0, 60, 5] }
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

taped "diagonal" {
  from   = frame.datum
  to     = crank.pivot
  is     = 208.8
  within = 1
}

gauged "up" {
  from   = lever.horn
  to     = frame.high
  is     = 208.8
  within = 1
}

taped "climb" {
  from   = lever.horn
  to     = frame.high
  is     = 208.8
  within = 1
}
