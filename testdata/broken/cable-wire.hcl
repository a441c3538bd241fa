# Wires that no figures are known of, or whose run is missing.
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

cable "order" {
  from   = lever
  to     = crank
  radius = [60, 50]
  winds  = ["up", "up"]
  run    = 900
  wire   = "1/8 7x19 galvanized"
  spring = "plus"
}

cable "strand" {
  from   = lever
  to     = crank
  radius = [60, 50]
  winds  = ["up", "up"]
  run    = 900
  wire   = "1x19 1/8 galvanized"
  spring = "plus"
}

cable "size" {
  from   = lever
  to     = crank
  radius = [60, 50]
  winds  = ["up", "up"]
  run    = 900
  wire   = "7x7 1/4 stainless"
  spring = "plus"
}

cable "decimal" {
  from   = lever
  to     = crank
  radius = [60, 50]
  winds  = ["up", "up"]
  run    = 900
  wire   = "7 x 19, 0.125 in, galv."
  spring = "plus"
}

cable "finish" {
  from   = lever
  to     = crank
  radius = [60, 50]
  winds  = ["up", "up"]
  run    = 900
  wire   = "7x7 3/32 tinned"
  spring = "plus"
}

cable "no-run" {
  from   = lever
  to     = crank
  radius = [60, 50]
  winds  = ["up", "up"]
  wire   = "7x19 1/8 galvanized"
  spring = "plus"
}

cable "twice" {
  from      = lever
  to        = crank
  radius    = [60, 50]
  winds     = ["up", "up"]
  run       = 900
  wire      = "7x19 1/8 galvanized"
  stiffness = 150
  spring    = "plus"
}

cable "in-conduit" {
  from    = lever.up
  to      = crank.up
  conduit = [frame.up, frame.aft]
  run     = 900
  wire    = "7x19 1/8 galvanized"
  radius  = [60, 50]
  winds   = ["up", "up"]
  spring  = "plus"
}

control "hand" {
  of = lever
}
