# Tamrell, one-seat light airplane; aircraft and figures are invented.
# Flaps: a lever with notches, and both flaps together.
#
# Measured from the axis of the flap tube at the middle of the aircraft: x to the right
# wing, y up, z aft, flaps up. The lever stands on the tube, and so does a horn at each
# end of it, from which a rod goes to the flap on that side. The left side is the mirror
# image of the right one. The lever has notches at 0, 15, 30 and 45 degrees.
#
# What to look at: what the flaps read in each notch (fullfree sweep --detents), that the
# second and the last are what the placard says, and that both flaps go as one.
run "Flaps" {
  units    = "in"
  craft    = "airplane"
  view     = "from behind, looking forward"
  up       = [0, 1, 0]
  forward  = [0, 0, -1]
  symmetry = "x"
}

part "tube" {
  pivot  = [0, 0, 0]
  axis   = [-1, 0, 0]
  points = {
    hand       = [0, 6, -9]
    right-horn = [18, -3, -0.6]
    left-horn  = [-18, -3, -0.6]
  }
}
part "right-flap" {
  pivot = [20, 5, 38]
  axis  = [-1, 0, 0]
  arms  = {
    horn = [-2, -3.5, 0.2]
    te   = [30, -1, 11]
  }
}
part "left-flap" { mirror = right-flap }

rod "right-rod" {
  from         = tube.right-horn
  to           = right-flap.horn
  misalignment = 10
  end "to" {
    thread  = "10-32"
    engaged = 1/2
  }
}
rod "left-rod" { mirror = right-rod }

control "flap-handle" {
  of      = tube
  grip    = tube.hand
  from    = -60
  to      = 15
  plus    = "pushed down"
  minus   = "pulled up"
  detents = [0, -15, -30, -45]
}
output "right" {
  of      = right-flap
  seen-at = right-flap.te
  plus    = "trailing edge up"
  minus   = "trailing edge down"
}
output "left" { mirror = right }

stop "first-notch" {
  of   = tube
  at   = 0
  side = "high"
}
stop "last-notch" {
  of = tube
  at = -45
}

require "sense" {
  when = [tube.hand, "up"]
  then = [right-flap.te, "down"]
}
require "together" "both flaps" {
  of     = [right-flap, left-flap]
  within = 0.1
}
require "reading" "second notch" {
  of     = right
  at     = -15
  wants  = -12
  within = 1
}
require "reading" "last notch" {
  of     = right
  at     = -45
  wants  = -31.5
  within = 1
}
require "neutral" {
  of     = right-flap
  within = 0.5
}
require "over-center"  { least = 10 }
require "misalignment" {}
require "engagement"   {}
require "stops"        {}
