# Open cables with what only a conduit has, and without their quadrants.
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

cable "sheathed" {
  from    = lever
  to      = crank
  radius  = [60, 50]
  winds   = ["up", "up"]
  conduit = [frame.up, frame.aft]
  core    = 200
  pushes  = true
  spring  = "plus"
  end "conduit-from" {
    thread  = "M6x1"
    engaged = 14
  }
}

cable "plain" {
  from   = lever
  to     = crank
  spring = "minus"
}

cable "once" {
  from   = lever
  to     = crank
  radius = [60]
  winds  = "up"
  spring = "minus"
}

cable "odd" {
  from   = lever
  to     = crank
  radius = [60, -5]
  winds  = ["up", "left"]
  spring = "minus"
}

cable "small" {
  from   = lever
  to     = crank
  radius = [0, 60 + x]
  winds  = [up, "down"]
  spring = "minus"
}

control "hand" {
  of = lever
}
