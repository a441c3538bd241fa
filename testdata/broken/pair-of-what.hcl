# Pairs that are not of two different cables.
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
  stiffness = 38
}

cable "down" {
  from      = crank.down
  to        = lever.down
  conduit   = [frame.low, frame.down]
  stiffness = 38
}

pair "lift" {
  cables     = [up, down]
  pretension = 120
}

pair "again" {
  cables     = [down, up]
  pretension = 120
}

pair "same" {
  cables     = [spare, spare]
  pretension = 120
}

cable "spare" {
  from      = crank.up
  to        = lever.up
  conduit   = [frame.aft, frame.up]
  stiffness = 38
}

pair "three" {
  cables     = [up, down, spare]
  pretension = 120
}

pair "parts" {
  cables     = [lever, dwon]
  pretension = 120
}

pair "nothing" {
}

control "hand" {
  of = lever
}
