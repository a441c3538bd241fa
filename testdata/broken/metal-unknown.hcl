# Metal misnamed.
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

stop "closed" {
  touch = [levre.tail, link.tail]
}

require "sense" {
  of    = [hand, valve]
  turns = "same"
}

require "clearance" {
  between = [hand, valve]
  least   = 1
}

require "clearance" {
  between = lever.tail
  least   = 1
}

require "clearance" {
  between = [3, "lever.tail"]
  least   = 1
}
