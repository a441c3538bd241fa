# Brackwren, two-seat light helicopter; aircraft and figures are invented.
# Sheet 31, second aircraft: tail pedals as taped.
#
# This one was built without sheet 31. The run is the same: two pedals on one shaft,
# a rod from each horn to a reversing rocker. Its coordinates come from a sketch on
# the back of an envelope; what was measured on the airframe is below, written as it
# was read, with three distances more than it takes so that a slip of the tape shows.
# At the end stand the readings of two riggings.
#
# Look at: "survey", how sure each hole is, and which distance would help most;
# "check", what that does to each answer; "diagnose", what the second rigging's
# readings can and can't tell.

run "Pedals, as taped" {
  units   = "mm"
  craft   = "rotorcraft"
  sketch  = 30                  # the coordinates may be out by so much
  view    = "from the left side, nose to the left"
  forward = [-1, 0]
  up      = [0, 1]
}

# Everything is told from the middle of the pedal shaft, so that is exact. The third
# figure, where there is one, is how far to the left a hole lies; it is not taped.
fixed "airframe" {
  exact  = true
  points = { shaft = [0, 0] }
}

part "left-pedal" {
  pivot  = airframe.shaft
  points = { horn = [0, -60, 30] }
}

part "right-pedal" {
  pivot  = airframe.shaft
  points = { horn = [0, -60, -30] }
}

part "rocker" {
  pivot  = [300, -60]
  points = {
    upper = [290, 0, 12]
    lower = [290, -120, -12]
  }
}

rod "left-link" {               # no length: as it sat when it was taped
  from = left-pedal.horn
  to   = rocker.upper
}

rod "right-link" {
  from = right-pedal.horn
  to   = rocker.lower
}

control "pedals" {
  of    = left-pedal
  from  = -45
  to    = 45
  plus  = "left pedal forward"
  minus = "right pedal forward"
}

output "tail" {                 # the inclinometer lies on the rocker
  of    = rocker
  minus = "nose left"
}

stop "left-stop" {
  of = left-pedal
  at = 24
}
stop "right-stop" {
  of = left-pedal
  at = -24
}

require "opposite" {
  of     = [left-pedal, right-pedal]
  within = 1.5
}
require "sense" "left pedal, nose left" {
  when = [left-pedal.horn, "aft"]   # it hangs below the shaft: the foot goes forward
  then = [rocker.upper, "aft"]
}
require "over-center" { least = 15 }
require "rod-angle" { least = 45 }
require "stops" {}

# Taped at neutral, rig pins in, hole center to hole center, there and back.
gauged "rocker leans" {         # a straightedge on its two bolts, from level
  from   = rocker.lower
  to     = rocker.upper
  is     = 90.5
  within = 0.5
}
taped "left horn" {
  from   = airframe.shaft
  to     = left-pedal.horn
  is     = 67.5
  within = 1
}
taped "right horn" {
  from   = airframe.shaft
  to     = right-pedal.horn
  is     = 67
  within = 1
}
taped "upper arm" {
  from   = rocker.pivot
  to     = rocker.upper
  is     = 62.5
  within = 1
}
taped "lower arm" {
  from   = rocker.pivot
  to     = rocker.lower
  is     = 63
  within = 1
}
taped "rocker, hole to hole" {
  from   = rocker.upper
  to     = rocker.lower
  is     = 124
  within = 1
}
taped "left rod" {
  from   = left-pedal.horn
  to     = rocker.upper
  is     = 296.5
  within = 1
}
taped "right rod" {
  from   = right-pedal.horn
  to     = rocker.lower
  is     = 296.5
  within = 1
}
taped "shaft to rocker" {
  from   = airframe.shaft
  to     = rocker.pivot
  is     = 307.5
  within = 1.5
}
taped "shaft to upper" {
  from   = airframe.shaft
  to     = rocker.upper
  is     = 292
  within = 1.5
}
taped "left horn to rocker" {   # under the floor, round nothing
  from   = left-pedal.horn
  to     = rocker.pivot
  is     = 300.5
  within = 1.5
}
taped "right horn to rocker" {
  from   = right-pedal.horn
  to     = rocker.pivot
  is     = 301.5
  within = 1.5
}
taped "diagonal" {              # a check
  from   = left-pedal.horn
  to     = rocker.lower
  is     = 298
  within = 1.5
}
taped "other diagonal" {        # a check
  from   = right-pedal.horn
  to     = rocker.upper
  is     = 299.5
  within = 1.5
}

# Where the pedals stood, and what the inclinometer on the rocker showed.
measured "first rigging" {
  of       = tail
  readings = [[-20, 18.9], [-10, 9.5], [0, 0.1], [10, -9.8], [20, -20.3]]
  within   = 0.4
  date     = "2026-05-01"
}
measured "after the new left rod" {
  of       = tail
  readings = [[-20, 17.6], [-10, 8.5], [0, -1.1], [10, -11.1], [20, -21.3]]
  within   = 0.4
  date     = "2026-08-14"
}
