# The chain of whole.hcl, floor crank and deck crank, seen from the right.

run "Upright" {
  units   = "mm"
  view    = "from the right side, nose to the right"
  forward = [1, 0]
  up      = [0, 1]
}

part "floor-crank" {
  pivot = [0, 0]
  arms = {
    in  = [-4, -64]
    out = [-62, 8]
  }
}
part "deck-crank" {
  pivot = [-10, 240]
  arms = {
    in  = [-58, 6]
    out = [-10, 66]
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

control "crank" {
  of   = floor-crank
  from = -32
  to   = 32
}

require "rod-angle" { least = 40 }
