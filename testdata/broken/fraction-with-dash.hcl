# A fraction hung on with a dash, which is a minus.
run "Bench" {
  units = "in"
}

fixed "frame" {
  points = { hook = [0, 9-7/16] }
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
  pivot = [200, 0]
  arms  = { horn = [0, 60], tip = polar(3-3/4, -(12-1/2)) }
}

rod "link" {
  from   = lever.horn
  to     = crank.horn
  length = 200-1/2
}

control "hand" {
  of   = lever
  from = -40-1/2
  to   = 40 - 1/2
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
