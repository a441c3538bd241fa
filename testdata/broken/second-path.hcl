# What a second path is not.
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
  points      = { eye = [100, -40] }
  second-path = true
}

rod "b" {
  from = lever.low
  to   = crank.low
  play = 1/2
}

rod "c" {
  from = lever.low
  to   = crank.low
  second-path = false
  play        = 0
}

rod "d" {
  from = lever.low
  to   = crank.low
  second-path = "true"
  play        = -1
}

rod "e" {
  from = lever.low
  to   = crank.low
  second-path = true
  play        = -1
}

control "hand" {
  of   = lever
  from = -40
  to   = 40
}
