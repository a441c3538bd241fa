# A rod that a carrier would pull out of its plane.
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
  edge "tail" {
    through = [[0, 0], [-20, -15]]
    thick   = 4
  }
}

part "crank" {
  pivot = shaft.lug
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

stop "closed" {
  of = lever
  at = 30
}

require "sense" {
  of    = [hand, valve]
  turns = "same"
}

part "beam" {
  points = { left = [0, 150], right = [120, 150], low = [60, 120] }
}

rod "first" {
  from = lever.horn
  to   = beam.left
}

rod "second" {
  from = frame.hook
  to   = beam.right
}

rod "third" {
  from = crank.tip
  to   = beam.low
}

part "shaft" {
  pivot  = [200, 0]
  axis   = [1, 0, 0]
  points = { lug = [200, 0] }
}
