# Brackwren, two-seat light helicopter; aircraft and figures are invented.
# Sheet 21: twin sticks.
#
# Fore and aft, both sticks turn with the cross shaft. Sideways each turns on a
# bolt that the shaft carries, and a tube ties the two together. The roll rod
# hangs below the shaft, so pushing the sticks forward swings its end and moves
# the roll crank a little: that is what "steady" asks about.
#
# Look at: "together" (what a tube set 0.3 mm long does to the right stick) and the
# first "steady". The nearer the hole "roll" lies to the shaft line, the smaller that
# one gets, and the side-to-side travel with it.

run "Twin sticks" {
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
  points = { shaft = [0, 0], far-end = [0, 0, 240] }
}

# Measured from the middle of the cross shaft: x aft, y up, z to the left.
fixed "airframe" {
  edge "seat-tube" {            # a tube in space has a diameter, not a thickness
    through  = [[-64, -52, 330], [-64, -52, -330]]
    diameter = 22
  }
}

part "cross-shaft" {
  pivot  = datum.shaft               # axis left out: square to the drawing, athwart
  points = {
    left  = [0, 20, 240]
    right = [0, 20, -240]
    horn  = [0, -70]
  }
}

part "left-stick" {
  pivot  = cross-shaft.left     # carried: its axis goes with the shaft
  axis   = [1, 0, 0]
  points = {
    grip = [-40, 420, 240]
    tie  = [-30, -50, 240]
  }
}

part "right-stick" {
  pivot  = cross-shaft.right
  axis   = [1, 0, 0]
  points = {
    grip = [-40, 420, -240]
    tie  = [-30, -50, -240]
    roll = [0, -30, -240]
  }
}

part "roll-crank" {
  pivot = [0, -80, -30]
  axis  = [1, 0, 0]
  arms  = {
    in  = [0, 50]
    out = [0, 0, 60]            # on to the mixer: sheet 24
  }
}

part "pitch-crank" {
  pivot = [310, -130]
  arms  = {
    in  = polar(60, 90)
    out = polar(60, 0)
  }
}

rod "tie-tube" {
  from     = left-stick.tie
  to       = right-stick.tie
  diameter = 16
}

rod "roll-rod" {
  from         = right-stick.roll
  to           = roll-crank.in
  diameter     = 12
  misalignment = 8
}

rod "pitch-rod" {
  from         = cross-shaft.horn
  to           = pitch-crank.in
  diameter     = 12
  misalignment = 8
}

# Each is swept with the other held at neutral and hard over both ways.
control "pitch" {
  of    = cross-shaft
  from  = -30
  to    = 30
  held  = [0, -14, 12]
  plus  = "sticks forward"
  minus = "sticks aft"
  grip  = left-stick.grip       # rides on the shaft
}

control "roll" {
  of    = left-stick            # measured on the shaft that carries it
  from  = -30
  to    = 30
  held  = [0, -12, 12]
  plus  = "sticks left"
  minus = "sticks right"
}

output "fore-and-aft" {
  of    = pitch-crank
  plus  = "aft"
  minus = "forward"
}
output "side-to-side" {
  of    = roll-crank
  plus  = "right"
  minus = "left"
}

stop "forward" {
  of = cross-shaft
  at = 12
}
stop "aft" {
  of = cross-shaft
  at = -14
}
stop "left" {
  of = left-stick
  at = 12
}
stop "right" {
  of = left-stick
  at = -12
}

require "together" {
  of     = [left-stick, right-stick]
  within = 0.5
}
require "steady" "side to side, while the sticks go fore and aft" {
  of      = side-to-side
  within  = 0.3
  control = pitch
}
require "steady" "fore and aft, while the sticks go sideways" {
  of      = fore-and-aft
  within  = 0.1
  control = roll
}
require "sense" "fore and aft" {
  when    = [left-stick.grip, "forward"]
  then    = [pitch-crank.out, "down"]
  control = pitch
}
require "sense" "side to side" {
  when    = [right-stick.grip, "left"]
  then    = [roll-crank.out, "up"]
  control = roll
}
require "travel" "fore and aft" {
  of      = fore-and-aft
  low     = -14
  high    = 16.5
  within  = 0.5
  control = pitch
}
require "travel" "side to side" {
  of      = side-to-side
  low     = -12
  high    = 12
  within  = 1
  control = roll
}
# Asked of roll alone: while the sticks go fore and aft the roll crank only wavers,
# and halts at neutral. For pitch, sense and rod-angle say that nothing locks.
require "over-center" {
  least   = 20
  control = roll
}
require "rod-angle" { least = 60 }
require "misalignment" {}
require "clearance" "tie tube to seat tube" {
  between = [tie-tube, airframe.seat-tube]
  least   = 6
}
require "stops" {}

# To be measured at neutral, rig pins in, hole center to hole center; the letters are
# those of the page. Write each figure in place of the word blank. What can't be
# reached: take its block out, and see what "fullfree survey" says of it.
# within is what a tape and a level read to with care (common practice, no source): write
# what yours do.
gauged "G to F, level" {
  from   = left-stick.tie
  to     = left-stick.grip
  is     = blank   # degrees anticlockwise from level: upright, reads about 90
  within = 0.5
}
taped "A to C" {
  from   = datum.shaft
  to     = cross-shaft.left
  is     = blank
  within = 1
}
taped "A to D" {
  from   = datum.shaft
  to     = cross-shaft.right
  is     = blank
  within = 1
}
taped "A to E" {
  from   = datum.shaft
  to     = cross-shaft.horn
  is     = blank
  within = 1
}
taped "F to G" {
  from   = left-stick.grip
  to     = left-stick.tie
  is     = blank
  within = 1
}
taped "H to I" {
  from   = right-stick.grip
  to     = right-stick.tie
  is     = blank
  within = 1
}
taped "K to L" {
  from   = roll-crank.pivot
  to     = roll-crank.in
  is     = blank
  within = 1
}
taped "K to M" {
  from   = roll-crank.pivot
  to     = roll-crank.out
  is     = blank
  within = 1
}
taped "N to O" {
  from   = pitch-crank.pivot
  to     = pitch-crank.in
  is     = blank
  within = 1
}
taped "N to P" {
  from   = pitch-crank.pivot
  to     = pitch-crank.out
  is     = blank
  within = 1
}
taped "D to J" {
  from   = cross-shaft.right
  to     = right-stick.roll
  is     = blank
  within = 1
}
taped "I to J" {
  from   = right-stick.tie
  to     = right-stick.roll
  is     = blank
  within = 1
}
taped "C to G" {
  from   = cross-shaft.left
  to     = left-stick.tie
  is     = blank
  within = 1
}
taped "L to M" {
  from   = roll-crank.in
  to     = roll-crank.out
  is     = blank
  within = 1
}
taped "O to P" {
  from   = pitch-crank.in
  to     = pitch-crank.out
  is     = blank
  within = 1
}
taped "H to J" {
  from   = right-stick.grip
  to     = right-stick.roll
  is     = blank
  within = 1
}
taped "C to E" {
  from   = cross-shaft.left
  to     = cross-shaft.horn
  is     = blank
  within = 1
}
taped "C to F" {
  from   = cross-shaft.left
  to     = left-stick.grip
  is     = blank
  within = 1
}
taped "D to I" {
  from   = cross-shaft.right
  to     = right-stick.tie
  is     = blank
  within = 1
}
taped "G to I" {
  from   = left-stick.tie
  to     = right-stick.tie
  is     = blank
  within = 1
}
taped "E to O" {
  from   = cross-shaft.horn
  to     = pitch-crank.in
  is     = blank
  within = 1
}
taped "J to L" {
  from   = right-stick.roll
  to     = roll-crank.in
  is     = blank
  within = 1
}
taped "M to N" {
  from   = roll-crank.out
  to     = pitch-crank.pivot
  is     = blank
  within = 1
}
taped "K to O" {
  from   = roll-crank.pivot
  to     = pitch-crank.in
  is     = blank
  within = 1
}
taped "B to H" {
  from   = datum.far-end
  to     = right-stick.grip
  is     = blank
  within = 1
}
taped "L to N" {
  from   = roll-crank.in
  to     = pitch-crank.pivot
  is     = blank
  within = 1
}
taped "B to O" {
  from   = datum.far-end
  to     = pitch-crank.in
  is     = blank
  within = 1
}
taped "B to M" {
  from   = datum.far-end
  to     = roll-crank.out
  is     = blank
  within = 1
}
taped "G to N" {
  from   = left-stick.tie
  to     = pitch-crank.pivot
  is     = blank
  within = 1
}
taped "A to L" {
  from   = datum.shaft
  to     = roll-crank.in
  is     = blank
  within = 1
}
taped "A to F" {
  from   = datum.shaft
  to     = left-stick.grip
  is     = blank
  within = 1
}
taped "B to I" {
  from   = datum.far-end
  to     = right-stick.tie
  is     = blank
  within = 1
}
taped "A to M" {
  from   = datum.shaft
  to     = roll-crank.out
  is     = blank
  within = 1
}
taped "B to P" {
  from   = datum.far-end
  to     = pitch-crank.out
  is     = blank
  within = 1
}
taped "J to N" {
  from   = right-stick.roll
  to     = pitch-crank.pivot
  is     = blank
  within = 1
}
taped "F to N" {
  from   = left-stick.grip
  to     = pitch-crank.pivot
  is     = blank
  within = 1
}
taped "B to G" {
  from   = datum.far-end
  to     = left-stick.tie
  is     = blank
  within = 1
}
taped "H to N" {
  from   = right-stick.grip
  to     = pitch-crank.pivot
  is     = blank
  within = 1
}
taped "A to O" {
  from   = datum.shaft
  to     = pitch-crank.in
  is     = blank
  within = 1
}
taped "B to N" {
  from   = datum.far-end
  to     = pitch-crank.pivot
  is     = blank
  within = 1
}
taped "D to E" {
  from   = cross-shaft.right
  to     = cross-shaft.horn
  is     = blank
  within = 1
}
taped "A to N" {
  from   = datum.shaft
  to     = pitch-crank.pivot
  is     = blank
  within = 1
}
taped "I to K" {
  from   = right-stick.tie
  to     = roll-crank.pivot
  is     = blank   # checks others: a slip of the tape shows
  within = 1
}
taped "D to O" {
  from   = cross-shaft.right
  to     = pitch-crank.in
  is     = blank   # checks others: a slip of the tape shows
  within = 1
}
taped "C to H" {
  from   = cross-shaft.left
  to     = right-stick.grip
  is     = blank   # checks others: a slip of the tape shows
  within = 1
}
taped "G to J" {
  from   = left-stick.tie
  to     = right-stick.roll
  is     = blank   # checks others: a slip of the tape shows
  within = 1
}
taped "D to P" {
  from   = cross-shaft.right
  to     = pitch-crank.out
  is     = blank   # checks others: a slip of the tape shows
  within = 1
}
taped "F to K" {
  from   = left-stick.grip
  to     = roll-crank.pivot
  is     = blank   # checks others: a slip of the tape shows
  within = 1
}
taped "K to P" {
  from   = roll-crank.pivot
  to     = pitch-crank.out
  is     = blank   # checks others: a slip of the tape shows
  within = 1
}
taped "A to H" {
  from   = datum.shaft
  to     = right-stick.grip
  is     = blank   # checks others: a slip of the tape shows
  within = 1
}
taped "C to N" {
  from   = cross-shaft.left
  to     = pitch-crank.pivot
  is     = blank   # checks others: a slip of the tape shows
  within = 1
}
taped "E to N" {
  from   = cross-shaft.horn
  to     = pitch-crank.pivot
  is     = blank   # checks others: a slip of the tape shows
  within = 1
}
taped "F to O" {
  from   = left-stick.grip
  to     = pitch-crank.in
  is     = blank   # checks others: a slip of the tape shows
  within = 1
}
taped "H to O" {
  from   = right-stick.grip
  to     = pitch-crank.in
  is     = blank   # checks others: a slip of the tape shows
  within = 1
}
taped "L to O" {
  from   = roll-crank.in
  to     = pitch-crank.in
  is     = blank   # checks others: a slip of the tape shows
  within = 1
}
taped "M to O" {
  from   = roll-crank.out
  to     = pitch-crank.in
  is     = blank   # checks others: a slip of the tape shows
  within = 1
}
