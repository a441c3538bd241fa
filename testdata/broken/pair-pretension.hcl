# Pairs drawn up to more than their cables stand.
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

cable "up" {
  from      = crank.up
  to        = lever.up
  conduit   = [frame.aft, frame.up]
  stiffness = 1/4
}

cable "down" {
  from      = crank.down
  to        = lever.down
  conduit   = [frame.low, frame.down]
  stiffness = 1/4
}

pair "lift" {
  cables     = [up, down]
  pretension = 120
}

cable "left" {
  from   = lever
  to     = crank
  radius = [60, 50]
  winds  = ["up", "up"]
  run    = 3150
  wire   = "7x19 1/8 galvanized"
}

cable "right" {
  from   = lever
  to     = crank
  radius = [60, 50]
  winds  = ["down", "down"]
  run    = 3150
  wire   = "7x19 1/8 galvanized"
}

pair "tail" {
  cables     = [left, right]
  pretension = 8900
}

cable "fore" {
  from      = lever
  to        = crank
  radius    = [60, 50]
  winds     = ["up", "up"]
  stiffness = 1/1000000
}

cable "back" {
  from      = lever
  to        = crank
  radius    = [60, 50]
  winds     = ["down", "down"]
  run       = 0.9
  wire      = "7x7 3/16 galvanized"
}

pair "trim" {
  cables     = [fore, back]
  pretension = 100
}

control "hand" {
  of = lever
}
