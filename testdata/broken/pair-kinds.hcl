# An open cable with one in a conduit, and cables that join other parts.
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

part "tail" {
  pivot  = [1000, 300]
  points = { up = [1000, 350] }
}

cable "up" {
  from      = crank.up
  to        = lever.up
  conduit   = [frame.aft, frame.up]
  stiffness = 38
}

cable "wound" {
  from      = lever
  to        = crank
  radius    = [60, 50]
  winds     = ["up", "up"]
  stiffness = 38
}

pair "mixed" {
  cables     = [up, wound]
  pretension = 120
}

cable "down" {
  from      = crank.down
  to        = lever.down
  conduit   = [frame.low, frame.down]
  stiffness = 38
}

cable "elsewhere" {
  from      = lever.up
  to        = tail.up
  conduit   = [frame.up, frame.aft]
  stiffness = 38
}

pair "apart" {
  cables     = [down, elsewhere]
  pretension = 120
}

control "hand" {
  of = lever
}
