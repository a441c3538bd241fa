# Adjusters on no side, twice on one, and of rods.
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
  from    = lever.up
  to      = crank.up
  conduit = [frame.up, frame.aft]
  spring  = "plus"
  end     = 14
  end "from" {
    thread  = "M6x1"
    engaged = 14
  }
  end "conduit-to" {
    thread  = "M6x1"
    engaged = 14
  }
  end "conduit-to" {
    thread  = "M6x1"
    engaged = 14
  }
  end {
    thread  = "M6x1"
    engaged = 14
  }
}

cable "down" {
  from    = lever.down
  to      = crank.down
  conduit = [frame.down, frame.low]
  spring  = "plus"
  end "conduit-from" {
    thread  = "M6"
    home    = 3
    shank   = 20
    engaged = 0
    least   = 12
    most    = 10
    step    = -1
    hand    = "wrong"
    pitch   = 1
  }
  end "conduit-to" {
    thread = "6x1"
  }
}

control "hand" {
  of = lever
}
