# Brackwren, two-seat light helicopter; aircraft and figures are invented.
# Sheet 31: tail pedals, left seat.
#
# Both pedals turn on one shaft across the floor. Below the floor each has a
# horn, and from each horn a rod runs aft to a reversing rocker: its upper arm
# takes the left pedal's rod, its lower arm the right pedal's. Push the left
# pedal and the right one comes back as far.
#
# Look at: the worst of "opposite" (the two rods slope against each other, so
# the pedals are not quite equal and opposite), and whether both pedals reach
# their stop bolts before anything in the run is on center.

run "Pedals, left seat" {
  units   = "mm"
  sketch  = 30     # the coordinates are from a sketch, and may be out by so much
  craft   = "rotorcraft"
  view    = "from the left side, nose to the left"
  forward = [-1, 0]
  up      = [0, 1]
}

# Everything is told from here, so this is exact by choice; all else is as taped.
fixed "datum" {
  exact  = true
  points = { shaft = [0, 0] }
}

# Measured from the middle of the pedal shaft: x aft, y up, and the third figure,
# where there is one, how far to the left of the middle of the seat.
fixed "airframe" {
  round "left-stop-bolt" {
    at     = [-38, -16]
    radius = 5                  # M10 bolt: file the lug, never the bolt
    z      = [70, 90]
  }
  round "right-stop-bolt" {
    at     = [-38, -16]
    radius = 5
    z      = [-90, -70]
  }
  round "seat-tube" {           # runs right across: no z, it meets anything
    at     = [150, -2]
    radius = 12
  }
}

part "left-pedal" {
  pivot  = datum.shaft
  points = {
    foot = [-20, 210, 80]
    horn = [0, -60, 30]
  }
  edge "lug" {                  # flat bar, welded to the boss, comes down on the bolt
    through = [[0, 0], [-30, 14], [-50, 14]]
    thick   = 8
    z       = [74, 86]
  }
}

part "right-pedal" {
  pivot  = datum.shaft
  points = {
    foot = [-20, 210, -80]
    horn = [0, -60, -30]
  }
  edge "lug" {
    through = [[0, 0], [-30, 14], [-50, 14]]
    thick   = 8
    z       = [-86, -74]
  }
}

# The arms are swept 10 forward, to stand nearly square to their rods: straight up
# and down, the pedals would be 3.4 degrees from equal and opposite.
# The rods stand 18 out of the drawing over their length (horns at 30, these bolts
# at 12), which tilts every rod end a little, and no more in one position than in
# another.
part "rocker" {
  pivot = [300, -60]
  arms = {
    upper = [-10, 60, 12]
    lower = [-10, -60, -12]
    tail  = polar(80, 80)       # the tail run is pinned here: sheet 32
  }
}

rod "left-link" {
  from         = left-pedal.horn
  to           = rocker.upper
  diameter     = 12
  misalignment = 10             # most that these rod ends tilt before they bind
}

rod "right-link" {
  from         = right-pedal.horn
  to           = rocker.lower
  diameter     = 12
  misalignment = 10
}

control "pedals" {
  of    = left-pedal
  from  = -45
  to    = 45
  plus  = "left pedal forward"
  minus = "right pedal forward"
}

output "tail-run" {             # what sheet 32 gets to work with
  of    = rocker.tail
  along = [1, 0]
  plus  = "nose left"
}

stop "left-stop" {
  touch = [left-pedal.lug, airframe.left-stop-bolt]
}
stop "right-stop" {
  touch = [right-pedal.lug, airframe.right-stop-bolt]
}

require "opposite" {
  of     = [left-pedal, right-pedal]
  within = 0.5
}
require "sense" "left pedal, nose left" {
  when = [left-pedal.foot, "forward"]
  then = [rocker.tail, "aft"]
}
require "travel" "what the tail run needs" {
  of     = tail-run
  low    = -38
  high   = 38
  within = 1
}
require "over-center" { least = 15 }
require "rod-angle" { least = 45 }
require "misalignment" {}       # no most: each rod's own figure counts
require "clearance" "rod to seat tube" {
  between = [left-link, airframe.seat-tube]
  least   = 5
}
require "stops" {}

# To be measured at neutral, rig pins in, hole center to hole center; the letters are
# those of the page. Write each figure in place of the word blank. What can't be
# reached: take its block out, and see what "fullfree survey" says of it.
# within is what a tape and a level read to with care (common practice, no source): write
# what yours do.
gauged "C to B, level" {
  from   = left-pedal.horn
  to     = left-pedal.foot
  is     = blank   # degrees anticlockwise from level: upright, reads about 90
  within = 0.5
}
taped "A to B" {
  from   = datum.shaft
  to     = left-pedal.foot
  is     = blank
  within = 1
}
taped "A to C" {
  from   = datum.shaft
  to     = left-pedal.horn
  is     = blank
  within = 1
}
taped "A to D" {
  from   = datum.shaft
  to     = right-pedal.foot
  is     = blank
  within = 1
}
taped "A to E" {
  from   = datum.shaft
  to     = right-pedal.horn
  is     = blank
  within = 1
}
taped "F to G" {
  from   = rocker.pivot
  to     = rocker.upper
  is     = blank
  within = 1
}
taped "H to I" {
  from   = rocker.lower
  to     = rocker.tail
  is     = blank
  within = 1
}
taped "G to I" {
  from   = rocker.upper
  to     = rocker.tail
  is     = blank
  within = 1
}
taped "F to I" {
  from   = rocker.pivot
  to     = rocker.tail
  is     = blank
  within = 1
}
taped "E to H" {
  from   = right-pedal.horn
  to     = rocker.lower
  is     = blank
  within = 1
}
taped "C to G" {
  from   = left-pedal.horn
  to     = rocker.upper
  is     = blank
  within = 1
}
taped "A to F" {
  from   = datum.shaft
  to     = rocker.pivot
  is     = blank
  within = 1
}
taped "A to H" {
  from   = datum.shaft
  to     = rocker.lower
  is     = blank
  within = 1
}
taped "A to I" {
  from   = datum.shaft
  to     = rocker.tail
  is     = blank
  within = 1
}
taped "B to F" {
  from   = left-pedal.foot
  to     = rocker.pivot
  is     = blank
  within = 1
}
taped "D to F" {
  from   = right-pedal.foot
  to     = rocker.pivot
  is     = blank
  within = 1
}
taped "C to F" {
  from   = left-pedal.horn
  to     = rocker.pivot
  is     = blank   # checks others: a slip of the tape shows
  within = 1
}
taped "B to H" {
  from   = left-pedal.foot
  to     = rocker.lower
  is     = blank   # checks others: a slip of the tape shows
  within = 1
}
taped "B to C" {
  from   = left-pedal.foot
  to     = left-pedal.horn
  is     = blank   # checks others: a slip of the tape shows
  within = 1
}
taped "D to E" {
  from   = right-pedal.foot
  to     = right-pedal.horn
  is     = blank   # checks others: a slip of the tape shows
  within = 1
}
taped "E to F" {
  from   = right-pedal.horn
  to     = rocker.pivot
  is     = blank   # checks others: a slip of the tape shows
  within = 1
}
taped "D to G" {
  from   = right-pedal.foot
  to     = rocker.upper
  is     = blank   # checks others: a slip of the tape shows
  within = 1
}
