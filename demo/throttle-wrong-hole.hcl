# Brackwren, two-seat light helicopter; aircraft and figures are invented.
# Sheet 41: throttle, as found on the bench.
#
# The link hangs in hole 2 of the grip lever, the hole for the other seat. It was
# let out until the engine came down on its idle stop, and there it looked right.
#
# Look at: the butterfly opens only half way before the tail is on the cross shaft.
# Filing the tail is no cure. A few degrees on, the lever and the link are in line:
# the butterfly halts there, still half way, and then goes back as the grip opens.

run "Throttle, wrong hole" {
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
# to the right; hole 2 is for the right grip.
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

rod "link" {
  from   = grip-lever.hole-2    # hole-1 on the drawing
  to     = engine-lever.hole
  length = 263                  # hole to hole, as set to reach idle
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
  when = [grip-lever.hole-2, "down"]
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

# Where the lever has metal for another hole, and what the link can be made up to.
# "fullfree find" tells which of them works.
vary "hole for the link" {
  of    = grip-lever.hole-2
  among = [[-32, 21], [-28, 27], [-16, 34], [-37, 35], [-26, 40]]
}
vary "link" {
  of   = link.length
  low  = 250
  high = 266
  step = 0.5
}
