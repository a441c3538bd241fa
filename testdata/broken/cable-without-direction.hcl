# Cores drawn where their conduit ends, square to the drawing, and shorter than they climb.
run "Bench" {
  units = "mm"
}

fixed "frame" {
  points = { up = [100, 130], down = [100, -130], aft = [900, 130], low = [900, -130], eye = [30, 40], above = [1050, 20, 9], high = [100, 60, 50], deep = [900, 60, -40] }
}

part "lever" {
  pivot  = [0, 0]
  points = { up = [0, 60], down = [0, -60], eye = [30, 40] }
}

part "crank" {
  pivot = [1000, 0]
  arms  = { up = [0, 50], down = [0, -55], eye = [50, 20] }
}

cable "no-way" {
  from    = lever.eye
  to      = crank.up
  conduit = [frame.eye, frame.aft]
  spring  = "plus"
}

cable "square" {
  from    = lever.up
  to      = crank.eye
  conduit = [frame.up, frame.above]
  spring  = "plus"
}

cable "climbs" {
  from    = lever.up
  to      = crank.up
  conduit = [frame.high, frame.deep]
  core    = 90
  spring  = "plus"
}

control "hand" {
  of = lever
}
