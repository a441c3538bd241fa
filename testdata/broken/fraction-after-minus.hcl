# A fraction as on a tape measure, after a minus or beside other arithmetic.
run "Bench" {
  units = "mm"
}

fixed "frame" {
  points = { hook = [-3 1/4, 90] }
  round "post" {
    at     = [10 - 3 1/4, 2*3 1/4]
    radius = 3 1/4 / 2
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
  arms  = { horn = [0, 60], tip = polar(80, 45) }
}

rod "link" {
  from   = lever.horn
  to     = crank.horn
  length = 200 + 1/2
}

control "hand" {
  of   = lever
  from = (-40 1/2)
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
