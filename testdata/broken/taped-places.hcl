# Places that nothing can be taped to.
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

taped "diagonal" {
  from   = lever.hron
  to     = link.pivot
  is     = 208.8
  within = 1
}

taped "b" {
  from   = frame.pivot
  to     = valve.pivot
  is     = 208.8
  within = 1
}

taped "c" {
  from   = lever
  to     = frame.post
  is     = 208.8
  within = 1
}

taped "d" {
  from   = crnk.pivot
  to     = "lever.horn"
  is     = 208.8
  within = 1
}

taped "e" {
  from   = [0, 60]
  to     = crank.horn.x
  is     = 208.8
  within = 1
}
