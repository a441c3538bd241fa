# Brackwren, two-seat light helicopter; aircraft and figures are invented.
# Sheet 41: throttle.
#
# A twist grip turns the grip lever; a link pulls the engine's lever open. The
# carburetor has an idle stop and no other, so what ends the opening is the
# lever's own tail, which comes round on the cross shaft. Without it the engine
# lever would be pulled in line with the link, on center: there the grip locks,
# and if it slips past, closing the grip opens the throttle.
#
# Look at: how many degrees are in hand between the tail and on center, and what
# a millimeter filed or worn off the tail costs of them; and by how much the idle
# stop bites before the grip's own stop, so that idle is set at the carburetor.

run "Throttle" {
  units = "mm"
  craft = "rotorcraft"
  view  = "from behind, along the grip"
  up    = [0, 1]
  right = [1, 0]                # so forward is into the paper
}

# Measured from the middle of the grip: x right, y up. Drawn at half throttle.
fixed "airframe" {
  round "cross-shaft" {
    at     = [36, -25]
    radius = 14
  }
}

# The lever serves both seats. Hole 1 is for the left grip, where the link leaves
# to the right; hole 2 is for the right grip. Keep to hole 1 here: sheet 41 as
# found, throttle-wrong-hole, is what hole 2 does.
part "grip-lever" {
  pivot = [0, 0]
  arms = {
    hole-1 = polar(38, 115)
    hole-2 = polar(38, 147)
  }
  edge "tail" {                 # its center line, and how thick it is
    through = [[0, 0], [-8, -22], [2, -40]]
    thick   = 6
  }
}

part "engine-lever" {
  pivot = [240, -30]
  arms  = { hole = polar(36, 116) }
}

rod "link" {                    # no length: as drawn, hole to hole
  from = grip-lever.hole-1
  to   = engine-lever.hole
}

control "throttle" {
  of    = grip-lever
  from  = -60
  to    = 80
  plus  = "open"
  minus = "closed"
  seen-from = "aft"             # from behind, as drawn
  turns     = "counterclockwise"
}

output "butterfly" {
  of    = engine-lever
  plus  = "open"
  minus = "closed"
  reads = 36                    # on the carburetor's quadrant, as drawn
}

stop "tail-stop" {
  touch = [grip-lever.tail, airframe.cross-shaft]
}
stop "idle-stop" {              # the screw on the carburetor: butterfly shut
  of = engine-lever
  at = -36
}
stop "grip-stop" {              # the pin in the grip: it must not get there first
  of = grip-lever
  at = -38
}

require "travel" "shut to full throttle" {
  of     = butterfly
  low    = 0
  high   = 69
  within = 1.5
}
require "sense" {
  when = [grip-lever.hole-1, "left"]
  then = [engine-lever.hole, "left"]
}
require "over-center" { least = 8 }
require "order" "idle is set at the engine" {
  first = idle-stop
  then  = grip-stop
  least = 2
}
require "rod-angle" { least = 20 }
require "stops" {}
