# A temperature with its unit.
run "Bench" {
  units     = "mm"
  rigged-at = "15 C"
  airframe  = steel
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
  spring    = "plus"
}

control "hand" {
  of = lever
}
