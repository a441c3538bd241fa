# Ultralight, aileron run. Measured from the torque tube's axis at the stick.
run "Ailerons" {
  units = "in"
  view  = "from behind, looking forward"
  up    = [0, 1, 0]
}

# x to the right wing, y up, z aft (towards me)
part "stick" {
  pivot  = [0, 0, 0]
  points = {
    grip = [0, 17, 0]
    horn = [0, -3, 14]        # at the aft end of the torque tube
  }
}

part "right-crank" {
  pivot = [60, -3, 18]
  axis  = [0, 1, 0]
  arms  = {
    in  = [0, 0, -4]
    out = [-(3 + 1/16), 0, -(2 + 11/16)]
  }
}
part "left-crank" {
  pivot = [-60, -3, 18]
  axis  = [0, 1, 0]
  arms  = {
    in  = [0, 0, -4]
    out = [3 + 1/16, 0, -(2 + 11/16)]
  }
}

part "right-aileron" {
  pivot = [57, 0, 40]
  axis  = [1, 0, 0]
  arms  = {
    horn = [0, -3, 1 + 3/8]
    te   = [0, 0, 9]
  }
}
part "left-aileron" {
  pivot = [-57, 0, 40]
  axis  = [1, 0, 0]
  arms  = {
    horn = [0, -3, 1 + 3/8]
    te   = [0, 0, 9]
  }
}

rod "right-rod" {
  from = stick.horn
  to   = right-crank.in
  length = 59.964286
  misalignment = 12
  end "to" {
    thread = "1/4-28"
    engaged = 0.598214
  }
}
rod "left-rod" {
  from = stick.horn
  to   = left-crank.in
  length = 59.964286
  misalignment = 12
  end "to" {
    thread = "1/4-28"
    engaged = 0.598214
  }
}
rod "right-aileron-rod" {
  from = right-crank.out
  to   = right-aileron.horn
  misalignment = 12
  end "to" {
    thread = "1/4-28"
    engaged = 9/16
  }
}
rod "left-aileron-rod" {
  from = left-crank.out
  to   = left-aileron.horn
  misalignment = 12
  end "to" {
    thread = "1/4-28"
    engaged = 9/16
  }
}

control "stick-lr" {
  of    = stick
  from  = -40
  to    = 40
  plus  = "left"
  minus = "right"
}

# about [1, 0, 0] plus is down at the trailing edge (I looked at the report)
output "right" {
  of    = right-aileron
  plus  = "down"
  minus = "up"
}
output "left" {
  of    = left-aileron
  plus  = "down"
  minus = "up"
}
output "right-te" {
  of    = right-aileron.te
  along = [0, 1, 0]
  plus  = "up"
}
output "left-te" {
  of    = left-aileron.te
  along = [0, 1, 0]
  plus  = "up"
}

stop "stick-left" {
  of     = stick
  at     = 20
  adjust = [18, 26]
}
stop "stick-right" {
  of     = stick
  at     = -20
  adjust = [-26, -18]
}

require "sense" "stick right, right aileron up" {
  of    = [stick-lr, right-te]
  turns = "opposite"
}
require "sense" "stick left, left aileron up" {
  of    = [stick-lr, left-te]
  turns = "same"
}
require "travel" "right, 20 up 12 down" {
  of   = right
  low  = -20
  high = 12
  within = 1.5
}
require "travel" "left, 20 up 12 down" {
  of   = left
  low  = -20
  high = 12
  within = 1.5
}
require "over-center"  { least = 15 }
require "rod-angle"    { least = 40 }
require "misalignment" {}
require "stops"        {}
require "engagement"   {}
require "symmetrical" {
  of = [right-aileron, left-aileron]
  within = 1/1000
}
