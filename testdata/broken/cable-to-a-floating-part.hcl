# Cores that would pull a floating part out of its plane.
run "Bench" {
  units = "mm"
}

fixed "frame" {
  points = { up = [100, 130], down = [100, -130], aft = [900, 130], low = [900, -130], high = [100, 60, 50] }
}

part "lever" {
  pivot  = [0, 0]
  points = { up = [0, 60], down = [0, -60], mid = [0, 0] }
}

part "crank" {
  pivot = [1000, 0]
  arms  = { up = [0, 50], down = [0, -55], tip = [40, 0] }
}

part "beam" {
  points = { left = [0, 300], right = [60, 300] }
}

part "tilt" {
  pivot  = [0, 400]
  axis   = [1, 0, 0]
  points = { ear = [0, 430] }
}

cable "climbs" {
  from    = beam.left
  to      = crank.up
  conduit = [frame.high, frame.aft]
  spring  = "plus"
}

cable "tilts" {
  from    = crank.up
  to      = beam.right
  conduit = [frame.aft, tilt.ear]
  spring  = "plus"
}

control "hand" {
  of = lever
}
