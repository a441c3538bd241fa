# A craft of which no rules are known.
run "Bench" {
  units = "mm"
  craft = "seaplane"
}


part "lever" {
  pivot  = [0, 0]
  points = { horn = [0, 60], right = [30, 40], left = [-30, 40.2] }
  round "lug" {
    at     = [8, -20]
    radius = 3
  }
}

part "right-crank" {
  pivot = [200, 0]
  arms  = { horn = [0, 60], tip = polar(80, 45) }
  edge "heel" {
    through = [[200, 0], [190, -30]]
    thick   = 4
  }
}

rod "right-link" {
  from = lever.horn
  to   = right-crank.horn
}

control "hand" {
  of   = lever
  from = -40
  to   = 40
}

output "right-valve" {
  of = right-crank
}

stop "right-end" {
  of = right-crank
  at = 30
}

require "sense" {
  of    = [hand, right-valve]
  turns = "same"
}
