# The chain of whole.hcl, boom crank and surface, in inches.

run "Rear" {
  units   = "in"
  view    = "from the left side, nose to the left"
  forward = [-1, 0]
  up      = [0, 1]
}

part "boom-crank" {
  pivot = [0, 0]
  arms = {
    in  = [4/25.4, 70/25.4]
    out = [-(8/25.4), -(54/25.4)]
  }
}
part "surface" {
  pivot = [260/25.4, -(50/25.4)]
  arms = {
    horn = [6/25.4, -(58/25.4)]
    te   = [160/25.4, 4/25.4]
  }
}

rod "last-rod" {
  from   = boom-crank.out
  to     = surface.horn
  length = 279/25.4
  end "from" {
    thread  = "M6x1"
    engaged = 12/25.4
    least   = 9/25.4
    most    = 16/25.4
  }
}

control "crank" {
  of   = boom-crank
  from = -32
  to   = 32
}

output "angle" {
  of      = surface
  seen-at = surface.te
  plus    = "up"
  minus   = "down"
  reads   = 5
}

stop "surface-up" {
  of = surface
  at = 17
}

require "rod-angle" { least = 40 }
