# The chain of whole.hcl, floor crank to boom crank, in inches. Measured from the
# floor crank.

run "Middle" {
  units   = "in"
  view    = "from the left side, nose to the left"
  forward = [-1, 0]
  up      = [0, 1]
}

part "floor-crank" {
  pivot = [0, 0]
  arms = {
    in  = [4/25.4, -(64/25.4)]
    out = [62/25.4, 8/25.4]
  }
}
part "deck-crank" {
  pivot = [10/25.4, 240/25.4]
  arms = {
    in  = [58/25.4, 6/25.4]
    out = [10/25.4, 66/25.4]
  }
}
part "boom-crank" {
  pivot = [400/25.4, 260/25.4]
  arms = {
    in  = [4/25.4, 70/25.4]
    out = [-(8/25.4), -(54/25.4)]
  }
}

rod "upright-rod" {
  from = floor-crank.out
  to   = deck-crank.in
  end "from" {
    thread  = "M6x1"
    engaged = 12/25.4
    least   = 9/25.4
    most    = 16/25.4
  }
}
rod "boom-rod" {
  from = deck-crank.out
  to   = boom-crank.in
  end "from" {
    thread  = "M6x1"
    engaged = 12/25.4
    least   = 9/25.4
    most    = 16/25.4
  }
}

control "crank" {
  of   = floor-crank
  from = -32
  to   = 32
}

require "rod-angle" { least = 40 }
