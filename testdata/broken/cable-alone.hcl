# Lone cables that nothing keeps taut, and one that pushes and has a spring.
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

cable "single" {
  from    = lever.up
  to      = crank.up
  conduit = [frame.up, frame.aft]
}

cable "not-pushing" {
  from    = lever.up
  to      = crank.up
  conduit = [frame.up, frame.aft]
  pushes  = false
}

cable "wound" {
  from   = lever
  to     = crank
  radius = [60, 50]
  winds  = ["up", "up"]
}

cable "both" {
  from    = lever.up
  to      = crank.up
  conduit = [frame.up, frame.aft]
  pushes  = true
  spring  = "plus"
}

control "hand" {
  of = lever
}
