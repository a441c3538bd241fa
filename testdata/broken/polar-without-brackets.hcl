# Numbers of polar without their brackets.
run "Bench" {
  units = "mm"
}

fixed "frame" {
  points = {
    a = polar 2.5, -80
    b = polar 80
  }
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
