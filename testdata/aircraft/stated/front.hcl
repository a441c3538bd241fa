# The chain of whole.hcl, from the lever to the deck crank.

run "Front" {
  units   = "mm"
  view    = "from the left side, nose to the left"
  forward = [-1, 0]
  up      = [0, 1]
}

part "lever" {
  pivot = [0, 0]
  arms = {
    grip = [-20, 300]
    horn = [6, -70]
  }
}
part "floor-crank" {
  pivot = [240, -60]
  arms = {
    in  = [4, -64]
    out = [62, 8]
  }
}
part "deck-crank" {
  pivot = [250, 180]
  arms = {
    in  = [58, 6]
    out = [10, 66]
  }
}

rod "floor-rod" {
  from   = lever.horn
  to     = floor-crank.in
  length = 244.3
  end "from" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "upright-rod" {
  from = floor-crank.out
  to   = deck-crank.in
  end "from" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}

control "hand" {
  of   = lever
  from = -45
  to   = 45
}

stop "hand-low" {
  of = lever
  at = -22
}

stop "hand-high" {
  of = lever
  at = 26
}

require "rod-angle" { least = 40 }
