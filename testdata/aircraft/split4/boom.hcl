# The chain of whole.hcl, deck crank and boom crank, seen from the right, in inches.

run "Boom" {
  units   = "in"
  view    = "from the right side, nose to the right"
  forward = [1, 0]
  up      = [0, 1]
}

part "deck-crank" {
  pivot = [0, 0]
  arms = {
    in  = [-(58/25.4), 6/25.4]
    out = [-(10/25.4), 66/25.4]
  }
}
part "boom-crank" {
  pivot = [-(390/25.4), 20/25.4]
  arms = {
    in  = [-(4/25.4), 70/25.4]
    out = [8/25.4, -(54/25.4)]
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
  of   = deck-crank
  from = -32
  to   = 32
}

require "rod-angle" { least = 40 }
