# Cables that nothing changes the length of, or that join a part to itself.
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

cable "fast" {
  from    = frame.up
  to      = frame.down
  conduit = [frame.low, frame.aft]
  spring  = "plus"
}

cable "along" {
  from    = lever.up
  to      = crank.up
  conduit = [lever.down, crank.tip]
  spring  = "plus"
}

cable "itself" {
  from    = lever.up
  to      = lever.down
  conduit = [frame.up, frame.down]
  spring  = "plus"
}

cable "around" {
  from    = frame.up
  to      = crank.up
  conduit = [crank.tip, frame.aft]
  spring  = "plus"
}

cable "on-axis" {
  from    = lever.mid
  to      = crank.up
  conduit = [frame.up, frame.aft]
  spring  = "plus"
}

control "hand" {
  of = lever
}
