# A chain from a lever to a surface in one run. split2, split3 and split4 are the same
# metal on two, three and four drawings. Aircraft and figures are invented.

run "Whole" {
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
part "boom-crank" {
  pivot = [640, 200]
  arms = {
    in  = [4, 70]
    out = [-8, -54]
  }
}
part "surface" {
  pivot = [900, 150]
  arms = {
    horn = [6, -58]
    te   = [160, 4]
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

control "hand" {
  of   = lever
  from = -45
  to   = 45
}

output "angle" {
  of      = surface
  seen-at = surface.te
  plus    = "up"
  minus   = "down"
  reads   = 5
}

stop "hand-low" {
  of = lever
  at = -22
}

stop "hand-high" {
  of = lever
  at = 26
}

stop "surface-up" {
  of = surface
  at = 17
}

require "sense" "lever forward, trailing edge up" {
  when = [lever.grip, "forward"]
  then = [surface.te, "up"]
}
require "travel" {
  of     = angle
  low    = -17
  high   = 22
  within = 1
}
require "reading" {
  of     = angle
  at     = 10
  wants  = 16
  within = 1
}
require "order" {
  first = surface-up
  then  = hand-high
  least = 1
}
require "over-center" { least = 10 }
require "rod-angle" { least = 40 }
require "engagement" {}
require "stops" {}
