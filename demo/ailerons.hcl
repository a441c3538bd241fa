# Sedgewing, two-seat ultralight airplane; aircraft and figures are invented.
# Sheet 12: ailerons.
#
# A torque tube under the stick, a rod from its horn out to a crank in each wing, and
# a rod from each crank aft to the aileron. The right side is drawn; the left one is
# its mirror image, part for part ("fullfree show" writes it out). Every lever that
# was made twice is one named dimension.
#
# Look at: each aileron goes further up than down. The cranks' outer arms make that:
# they stand 42 degrees ahead of square to their rods, for 19 degrees up and 13 down.
# --set crank.lead=180 stands them square: then it is 23 and 19.

run "Ailerons" {
  units    = "mm"
  craft    = "airplane"
  view     = "from behind, looking forward"
  forward  = [0, 0, -1]
  up       = [0, 1, 0]
  symmetry = "x"                # x changes its sign from one side to the other
}

dims "crank" {
  arm  = 100                    # both arms
  lead = -138                   # of the outer one, from right to aft
}
dims "aileron" {
  horn  = 76
  chord = 230
}

# Measured from the torque tube at the stick: x to the right wing, y up, z aft.
part "stick" {
  pivot  = [0, 0, 0]
  points = {
    grip = [0, 430, 0]
    horn = [0, -80, 360]        # at the aft end of the torque tube
  }
}

part "right-crank" {
  pivot = [1500, -80, 460]
  axis  = [0, 1, 0]             # upright: it turns in the plane of x and z
  arms  = {
    in  = polar(crank.arm, -90, "xz")
    out = polar(crank.arm, crank.lead, "xz")
  }
}
part "right-aileron" {
  pivot = [1426, 0, 1010]
  axis  = [1, 0, 0]
  arms  = {
    horn = [0, -aileron.horn, 35]
    te   = [0, 0, aileron.chord]
  }
}
part "left-crank" { mirror = right-crank }
part "left-aileron" { mirror = right-aileron }

rod "right-rod" {
  from         = stick.horn
  to           = right-crank.in
  misalignment = 12
  end "to" {
    thread  = "M6x1"
    engaged = 14
  }
}
rod "right-push-rod" {
  from         = right-crank.out
  to           = right-aileron.horn
  misalignment = 12
  end "to" {
    thread  = "M6x1"
    engaged = 14
  }
}
rod "left-rod" { mirror = right-rod }
rod "left-push-rod" { mirror = right-push-rod }

control "stick-sideways" {
  of    = stick
  from  = -40
  to    = 40
  plus  = "stick left"
  minus = "stick right"
}

output "right" {
  of    = right-aileron
  plus  = "down"                # the trailing edge, about an axis that points right
  minus = "up"
}
output "left" { mirror = right }
output "right-te" {
  of    = right-aileron.te
  along = [0, 1, 0]
  plus  = "up"
}
output "left-te" { mirror = right-te }

stop "stick-left" {
  of = stick
  at = 20
}
stop "stick-right" { mirror = stick-left }    # the stick is its own mirror image: at -20

require "sense" "stick right, right aileron up" {
  of    = [stick-sideways, right-te]
  turns = "opposite"
}
require "sense" "stick left, left aileron up" {
  of    = [stick-sideways, left-te]
  turns = "same"
}
require "travel" "right" {
  of     = right
  low    = -19
  high   = 13
  within = 1
}
require "travel" "left" {
  of     = left
  low    = -19
  high   = 13
  within = 1
}
require "over-center" { least = 15 }
require "rod-angle" { least = 40 }
require "misalignment" {}
require "stops" {}
require "engagement" {}
