# A plane of polar that is none.
run "Bench" {
  units = "mm"
}

fixed "frame" {
  points = { a = polar(80, 20, "xx"), b = polar(80, 20, "forward"), c = polar(80, 20, xz), d = polar(80, 20, "xz", 4), e = polar(80) }
}

part "lever" {
  pivot = [0, 0]
  arms  = { horn = [0, 60] }
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
