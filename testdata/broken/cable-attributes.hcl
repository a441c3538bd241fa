# What often is tried in a cable or a pair.
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
  from       = lever.up
  to         = crank.up
  conduit    = [frame.up, frame.aft]
  length     = 900
  pretension = 120
  diameter   = 3
  stifness   = 38
  spring     = "plus"
}

pair "lift" {
  of      = [up, down]
  tension = 120
  end "conduit-from" {
  }
}

control "hand" {
  of = lever
}
