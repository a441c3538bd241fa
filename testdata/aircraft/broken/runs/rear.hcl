# The chain of whole.hcl, from the deck crank to the surface, seen from the right:
# x is forward and every turn looks opposite. Measured from the deck crank.

run "Rear" {
  units   = "mm"
  view    = "from the right side, nose to the right"
  forward = [1, 0]
  up      = [0, 1]
}

part "deck-crank" {
  pivot = [0, 0]
  arms = {
    in  = [-58, 6]
    out = [-10, 66]
  }
}
part "boom-crank" {
  pivot = [-390, 20]
  arms = {
    in  = [-4, 70]
    out = [8, -54]
  }
}
part "surface" {
  pivot = [-650, -30]
  arms = {
    horn = [-6, -58]
    te   = [-160, 4]
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

output "angle" {
  of      = surface
  seen-at = surface.te
  plus    = "down"
  minus   = "up"
  reads   = 5
}

stop "surface-up" {
  of = surface
  at = -17
}

require "rod-angle" { least = 40 }
