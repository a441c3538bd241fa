# Pairs whose cables pull the same way.
run "Bench" {
  units = "mm"
}

fixed "frame" {
  points = { up = [100, 130], down = [100, -130], aft = [900, 130], low = [900, -130] }
}

part "lever" {
  pivot  = [0, 0]
  points = { up = [0, 60], down = [0, -60], mid = [0, 0] }
}

part "crank" {
  pivot = [1000, 0]
  arms  = { up = [0, 50], down = [0, -55], tip = [40, 0] }
}

cable "a" {
  from      = lever
  to        = crank
  radius    = [60, 50]
  winds     = ["up", "down"]
  stiffness = 38
}

cable "b" {
  from      = lever
  to        = crank
  radius    = [60, 50]
  winds     = ["up", "down"]
  stiffness = 38
}

pair "alike" {
  cables     = [a, b]
  pretension = 120
}

cable "c" {
  from      = lever
  to        = crank
  radius    = [60, 50]
  winds     = ["up", "down"]
  stiffness = 38
}

cable "d" {
  from      = crank
  to        = lever
  radius    = [50, 60]
  winds     = ["down", "down"]
  stiffness = 38
}

pair "crossed" {
  cables     = [c, d]
  pretension = 120
}

control "hand" {
  of = lever
}
