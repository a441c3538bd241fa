# A second path that joins nothing, and one that is nothing.
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
  to   = lever.horn
  second-path = true
}

part "other" {
  pivot  = [0, -90]
  points = { same = [0, -40] }
}

rod "b" {
  from = lever.low
  to   = other.same
  second-path = true
}

control "hand" {
  of   = lever
  from = -40
  to   = 40
}
