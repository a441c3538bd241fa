# Cables from a point to a whole part, and from what is neither.
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

cable "there" {
  from    = lever.up
  to      = crank
  conduit = [frame.up, frame.aft]
  spring  = "plus"
}

cable "back" {
  from   = lever
  to     = crank.up
  radius = [60, 50]
  winds  = ["up", "up"]
  spring = "plus"
}

cable "number" {
  from   = 12
  to     = crank
  radius = [60, 50]
  winds  = ["up", "up"]
  spring = "plus"
}

cable "text" {
  from   = "lever.up"
  to     = "crank.up"
  spring = "plus"
}

cable "place" {
  from    = [0, 60]
  to      = crank.up
  conduit = [frame.up, [900, 130]]
  spring  = "plus"
}

control "hand" {
  of = lever
}
