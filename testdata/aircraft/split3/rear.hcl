# The chain of whole.hcl, boom crank and surface. Measured from the boom crank.

run "Rear" {
  units   = "mm"
  view    = "from the left side, nose to the left"
  forward = [-1, 0]
  up      = [0, 1]
}

part "boom-crank" {
  pivot = [0, 0]
  arms = {
    in  = [4, 70]
    out = [-8, -54]
  }
}
part "surface" {
  pivot = [260, -50]
  arms = {
    horn = [6, -58]
    te   = [160, 4]
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
