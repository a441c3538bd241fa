# Tamrell, one-seat light airplane; aircraft and figures are invented.
# Differential ailerons.
#
# Measured from the axis of the torque tube at the stick: x to the right wing, y up,
# z aft. The stick rolls the torque tube; a horn at its aft end pushes a rod to a crank
# in each wing, and the cranks are set so that each aileron goes further up than down.
#
# What to look at: the two ailerons are not opposite, and need not be. They are
# symmetrical: the right one does with the stick right what the left one does with it
# left. The tab on the right aileron is read against the aileron that carries it.
run "Ailerons" {
  units   = "in"
  craft   = "airplane"
  view    = "from behind, looking forward"
  up      = [0, 1, 0]
  forward = [0, 0, -1]
}

fixed "wing" {
  axis   = [1, 0, 0]
  points = { tab-lug = [50, -3.5, 39.5] }
}

part "stick" {
  pivot  = [0, 0, 0]
  points = {
    grip = [0, 16, 0]
    horn = [0, -3, 14]
  }
}

part "right-crank" {
  pivot = [58, -3, 18]
  axis  = [0, 1, 0]
  arms  = {
    in  = [0, 0, -4]
    out = [-3, 0, -2.5]
  }
}
part "left-crank" {
  pivot = [-58, -3, 18]
  axis  = [0, 1, 0]
  arms  = {
    in  = [0, 0, -4]
    out = [3, 0, -2.5]
  }
}

part "right-aileron" {
  pivot = [55, 0, 40]
  axis  = [1, 0, 0]
  arms  = {
    horn  = [0, -3, 1.25]
    te    = [0, 0, 9]
    hinge = [-5, 0, 7]
  }
}
part "left-aileron" {
  pivot = [-55, 0, 40]
  axis  = [1, 0, 0]
  arms  = {
    horn = [0, -3, 1.25]
    te   = [0, 0, 9]
  }
}
part "tab" {
  pivot = right-aileron.hinge
  axis  = [1, 0, 0]
  arms  = {
    horn = [0, -2.5, 0]
    te   = [0, 0, 2.5]
  }
}

rod "right-rod" {
  from         = stick.horn
  to           = right-crank.in
  misalignment = 12
}
rod "left-rod" {
  from         = stick.horn
  to           = left-crank.in
  misalignment = 12
}
rod "right-aileron-rod" {
  from         = right-crank.out
  to           = right-aileron.horn
  misalignment = 12
}
rod "left-aileron-rod" {
  from         = left-crank.out
  to           = left-aileron.horn
  misalignment = 12
}
rod "tab-rod" {
  from         = wing.tab-lug
  to           = tab.horn
  misalignment = 12
}

control "roll" {
  of    = stick
  from  = -40
  to    = 40
  plus  = "stick left"
  minus = "stick right"
}

output "right" {
  of      = right-aileron
  seen-at = right-aileron.te
  plus    = "trailing edge down"
  minus   = "trailing edge up"
}
output "left" {
  of      = left-aileron
  seen-at = left-aileron.te
  plus    = "trailing edge down"
  minus   = "trailing edge up"
}
output "tab-on-aileron" {
  of      = tab
  against = "carrier"
  seen-at = tab.te
}

stop "stick-left" {
  of = stick
  at = 20
}
stop "stick-right" {
  of = stick
  at = -20
}

require "symmetrical" "differential ailerons" {
  of     = [right-aileron, left-aileron]
  within = 0.25
}
require "neutral" "right" {
  of     = right
  within = 0.5
}
require "neutral" "left" {
  of     = left
  within = 0.5
}
require "sense" {
  when = [stick.grip, "right"]
  then = [right-aileron.te, "up"]
}
require "travel" {
  of     = right
  low    = -17.5
  high   = 13
  within = 1
}
require "over-center" { least = 10 }
require "stops"       {}
