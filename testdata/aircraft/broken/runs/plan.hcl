# The rear of whole.hcl as if it were a plan: seen from above its cranks turn about upright
# bolts, and the deck crank of front.hcl turns about one athwart. They can be no one part.

run "Rear" {
  units   = "mm"
  view    = "from above, nose to the left"
  forward = [-1, 0]
  right   = [0, 1]
}

part "deck-crank" {
  pivot = [0, 0]
  arms = {
    in  = [58, 6]
    out = [10, 66]
  }
}
part "boom-crank" {
  pivot = [390, 20]
  arms = {
    in  = [4, 70]
    out = [-8, -54]
  }
}
part "surface" {
  pivot = [650, -30]
  arms = {
    horn = [6, -58]
    te   = [160, 4]
  }
}

rod "boom-rod" {
  from = deck-crank.out
  to   = boom-crank.in
  end "from" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "last-rod" {
  from   = boom-crank.out
  to     = surface.horn
  length = 279
  end "from" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}

control "crank" {
  of   = deck-crank
  from = -32
  to   = 32
}

stop "surface-up" {
  of = surface
  at = 17
}

require "rod-angle" { least = 40 }
