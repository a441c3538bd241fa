# A rod that hangs on a second path.
run "Bench" {
  units = "mm"
}

part "lever" {
  pivot  = [0, 0]
  points = { horn = [0, 60], low = [0, -40] }
}

part "crank" {
  pivot = [200, 0]
  arms  = { horn = [0, 60], low = [0, -40] }
}

rod "a" {
  from = lever.low
  to   = crank.low
  second-path = true
}

rod "b" {
  from = a.eye
  to   = crank.horn
}

control "hand" {
  of   = lever
  from = -40
  to   = 40
}
