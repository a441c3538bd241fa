# Numbers and words that can not be so.
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

cable "none" {
  from      = lever.up
  to        = crank.up
  conduit   = [frame.up, frame.aft]
  core      = 0
  stiffness = -38
  spring    = "up"
}

cable "text" {
  from      = lever.up
  to        = crank.up
  conduit   = [frame.up, frame.aft]
  core      = "214"
  stiffness = "38"
  pushes    = "yes"
}

cable "run" {
  from   = lever
  to     = crank
  radius = [60, 50]
  winds  = ["up", "up"]
  run    = 0
  spring = plus
}

control "hand" {
  of = lever
}
