# Quadrants that do not turn on the airframe.
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

part "guide" {
  slide  = [1, 0]
  points = { eye = [300, 0] }
}

part "grip" {
  pivot = lever.up
}

part "beam" {
  points = { left = [0, 300], right = [60, 300] }
}

cable "sliding" {
  from   = lever
  to     = guide
  radius = [60, 50]
  winds  = ["up", "up"]
  spring = "plus"
}

cable "riding" {
  from   = grip
  to     = crank
  radius = [60, 50]
  winds  = ["up", "up"]
  spring = "plus"
}

cable "floating" {
  from   = beam
  to     = crank
  radius = [60, 50]
  winds  = ["up", "up"]
  spring = "plus"
}

cable "fast" {
  from   = lever
  to     = frame
  radius = [60, 50]
  winds  = ["up", "up"]
  spring = "plus"
}

cable "itself" {
  from   = crank
  to     = crank
  radius = [60, 50]
  winds  = ["up", "up"]
  spring = "plus"
}

cable "unknown" {
  from   = levr
  to     = hand
  radius = [60, 50]
  winds  = ["up", "up"]
  spring = "plus"
}

control "hand" {
  of = lever
}
