# A pair without pretension, and cables of a pair that do not tell what they give.
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
  from    = crank.up
  to      = lever.up
  conduit = [frame.aft, frame.up]
}

cable "down" {
  from    = crank.down
  to      = lever.down
  conduit = [frame.low, frame.down]
}

pair "lift" {
  cables = [up, down]
}

cable "left" {
  from   = lever
  to     = crank
  radius = [60, 50]
  winds  = ["up", "up"]
}

cable "right" {
  from   = lever
  to     = crank
  radius = [60, 50]
  winds  = ["down", "down"]
  wire   = "7x19 1/8 galvanized"
}

pair "tail" {
  cables     = [left, right]
  pretension = 0
}

cable "third" {
  from      = crank.up
  to        = lever.up
  conduit   = [frame.aft, frame.up]
}

cable "fourth" {
  from      = crank.down
  to        = lever.down
  conduit   = [frame.low, frame.down]
  stiffness = 38
}

pair "text" {
  cables     = [third, fourth]
  pretension = "120"
}

control "hand" {
  of = lever
}
