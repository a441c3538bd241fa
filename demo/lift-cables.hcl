# Brackwren, two-seat light helicopter; aircraft and figures are invented.
# Sheet 12: collective to the crosshead, by
# a pair of cables.
#
# From the collective lever the run goes on in two cables, each a core in a
# conduit: one pulls the crosshead up the mast, the other pulls it down. They are
# drawn up against each other, so neither ever hangs loose, and with one gone the
# other still pulls one way. At the crosshead a rod end stands out forward, which
# must land in the clevis of the pitch spider: where it stands is set by the nuts
# on the conduit ends.
#
# Look at: whether both cables stay taut over the whole travel (taut), where the
# crosshead settles when it is let go (meets), what a turn of a nut does
#   fullfree effect lift-cables.hcl
# and what is left with one cable gone
#   fullfree fail lift-cables.hcl

run "Collective to crosshead" {
  units   = "mm"
  craft   = "rotorcraft"
  view    = "from the right side, nose to the right"
  forward = [1, 0]
  up      = [0, 1]
}

# Measured from the middle of the mast, level with the crosshead at neutral.
fixed "mast" {
  points = {
    up     = [-34, 120]         # conduit brackets, clamped round the mast
    down   = [-34, -120]
    clevis = [52, 0]            # of the pitch spider, held by its rig pin
  }
}
fixed "frame" {
  points = {
    aft = [-470, -186]          # conduit bracket over the lever's tube
    fwd = [-370, -186]
  }
}

part "lever" {
  pivot = [-420, -280]
  arms = {
    hand = polar(430, 12)
    aft  = [-48, 0]             # one arm each side of the tube, a cable in each
    fwd  = [48, 0]
  }
}

part "crosshead" {
  slide  = [0, 1]               # up the mast
  points = {
    bore    = [0, 0]            # on the mast
    up      = [-34, 24]
    down    = [-34, -24]
    rod-end = [52, 0]
  }
}

cable "lift-up" {
  from      = crosshead.up
  to        = lever.aft
  conduit   = [mast.up, frame.aft]
  stiffness = 38                # N a mm, core and sheath together, from the maker
  end "conduit-from" {
    thread  = "M6x1"
    engaged = 14
  }
}
cable "lift-down" {
  from      = crosshead.down
  to        = lever.fwd
  conduit   = [mast.down, frame.fwd]
  stiffness = 38
  end "conduit-from" {
    thread  = "M6x1"
    engaged = 14
  }
}
pair "lift" {
  cables     = [lift-up, lift-down]
  pretension = 120              # N in each, with the crosshead held on its rig pin
}

control "collective" {
  of    = lever
  from  = -15
  to    = 18
  plus  = "lever up"
  minus = "lever down"
}

output "pitch" {
  of    = crosshead
  plus  = "more lift"
  minus = "less lift"
}

stop "down" {
  of = lever
  at = -11
}
stop "up" {
  of = lever
  at = 13
}

require "sense" "lever up, more lift" {
  when = [lever.hand, "up"]
  then = [crosshead.rod-end, "up"]
}
require "travel" "what the spider needs" {
  of     = pitch
  low    = -9
  high   = 10.5
  within = 0.5
}
require "taut" {
  of    = lift
  least = 60
}
require "meets" "rod end into the clevis" {
  of     = [crosshead.rod-end, mast.clevis]
  within = 0.5
}
require "over-center" { least = 4 }
require "stops" {}
require "engagement" {}        # the thread in the nuts of both conduits
