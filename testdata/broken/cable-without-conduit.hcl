# A core without its conduit, one with half of it, and ends that are missing.
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

cable "bare" {
  from   = crank.up
  to     = lever.up
  spring = "plus"
}

cable "half" {
  from    = crank.up
  to      = lever.up
  conduit = [frame.up]
  spring  = "plus"
}

cable "same" {
  from    = crank.up
  to      = lever.up
  conduit = frame.up
  spring  = "plus"
}

cable "nowhere" {
  conduit = [frame.aft, frame.up]
  spring  = "plus"
}

cable "one-end" {
  from    = crank.up
  conduit = [frame.aft, frame.up]
  spring  = "plus"
}

cable "nothing" {
}

control "hand" {
  of = lever
}
