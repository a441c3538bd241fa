# A line too long to show.
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
  points = { p0 = [1, 0], p1 = [2, 0], p2 = [3, 0], p3 = [4, 0], p4 = [5, 0], p5 = [6, 0], p6 = [7, 0], p7 = [8, 0], p8 = [9, 0], p9 = [10, 0], p10 = [11, 0], p11 = [12, 0], horn = [0, 60, x], q0 = [1, 0], q1 = [2, 0], q2 = [3, 0], q3 = [4, 0], q4 = [5, 0], q5 = [6, 0], q6 = [7, 0], q7 = [8, 0], q8 = [9, 0], q9 = [10, 0], q10 = [11, 0], q11 = [12, 0] }
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
  of = lever
  at = 30
}

require "sense" {
  of    = [hand, valve]
  turns = "same"
}
