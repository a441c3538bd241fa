# Brackwren, two-seat light helicopter; aircraft and figures are invented.
# Sheet 11: collective, lever to plunger.
#
# Lever, floor rod, bellcrank, mast rod, bellcrank, link, and the plunger that
# slides in the mast. Raise the lever: the floor rod goes forward, the mast rod
# down, the plunger up. In inches; 7 + 1/4 is how a fraction is written.
#
# Look at: how evenly the plunger follows (its ratio, least and most), what the
# floor rod set 1/32 in long does to the plunger with the lever down, and how far
# it wanders in its hole in the seat bulkhead.

run "Collective" {
  units   = "in"
  craft   = "rotorcraft"
  view    = "from the right side, nose to the right"
  forward = [1, 0]
  up      = [0, 1]
}

# Measured from the lever's pivot: x forward, y up. Drawn with the lever down on
# its stop, so its travel starts at 0.
fixed "airframe" {
  edge "firewall" {             # 1/16 sheet, behind the mast rod
    through = [[-(26 + 3/8), -3], [-(26 + 3/8), 26]]
    thick   = 1/16
  }
}

part "lever" {
  pivot  = [0, 0]
  points = { hand = [13, 4 + 1/2] }
  arms   = { horn = polar(3 + 1/4, -105) }
}

part "floor-crank" {
  pivot = [-22, 0]
  arms = {
    low = polar(3, -105)        # square to each other
    aft = polar(2 + 1/2, 165)
  }
}

part "mast-crank" {
  pivot = [-22, 24]
  arms = {
    aft  = polar(2 + 1/2, 165)
    fore = polar(2, -15)
  }
}

part "plunger" {
  slide  = [0.06, 1]            # the mast is raked: 0.06 forward for each 1 up
  points = { eye = [-(19 + 3/4), 27] }
}

rod "floor-rod" {
  from   = lever.horn
  to     = floor-crank.low
  length = 21 + 31/32           # hole to hole; 21 + 15/16 on the drawing
  points = { grommet = [-11, -3] }   # where it passes the seat bulkhead, as drawn
}

rod "mast-rod" {
  from     = floor-crank.aft
  to       = mast-crank.aft
  length   = 24
  diameter = 1/2
}

rod "link" {                    # length left out: as drawn
  from = mast-crank.fore
  to   = plunger.eye
}

control "collective" {
  of    = lever
  from  = -20
  to    = 60
  plus  = "lever up"
  minus = "lever down"
}

output "plunger-rule" {
  of    = plunger
  plus  = "up"
  reads = 1 + 1/2               # what the rule on the mast shows as drawn
}
output "rod-in-hole" {          # up and down, where it passes the bulkhead
  of    = floor-rod.grommet
  along = [0, 1]
  plus  = "up"
  minus = "down"
}

stop "lever-down" {
  of   = lever
  at   = 0
  side = "low"                  # drawn standing on it: the side has to be said
}
stop "lever-up" {
  of = lever
  at = 30
}
stop "guide-top" {              # the plunger bottoms in its guide: never before the lever
  of = plunger
  at = 1 + 1/4
}

require "travel" "plunger" {
  of     = plunger-rule
  low    = 1 + 1/2
  high   = 2 + 5/8
  within = 1/16
}
require "steady" "floor rod in its hole" {
  of     = rod-in-hole
  within = 1/8
}
require "sense" {
  of    = [lever, plunger]
  turns = "same"
}
require "order" "the lever stops, not the plunger" {
  first = lever-up
  then  = guide-top
  least = 2
}
require "clearance" "mast rod to firewall" {
  between = [mast-rod, airframe.firewall]
  least   = 3/4
}
require "over-center" { least = 15 }
require "rod-angle" { least = 60 }
require "stops" {}
