# Tamrell, one-seat light airplane; aircraft and figures are invented.
# Flaps.
#
# Measured from the pivot of the flap lever between the seat and the sill, seen from the
# left with the nose to the left, flaps up. The lever has notches at 0, 15, 30 and 45
# degrees.
#
# What to look at: what the flap reads in each notch, and that the second and the last
# are what the placard says.
run "Flaps" {
  units   = "in"
  craft   = "airplane"
  view    = "from the left, nose to the left"
  forward = [-1, 0]
  up      = [0, 1]
}

part "lever" {
  pivot  = [0, 0]
  points = { hand = [-9, 6] }
  arms   = { horn = [-0.6, -3] }
}
part "flap" {
  pivot = [38, 5]
  arms  = {
    horn = [0.2, -3.5]
    te   = [11, -1]
  }
}
rod "flap-rod" {
  from = lever.horn
  to   = flap.horn
  end "to" {
    thread  = "10-32"
    engaged = 1/2
  }
}

control "flap-handle" {
  of      = lever
  from    = -60
  to      = 15
  plus    = "pushed down"
  minus   = "pulled up"
  detents = [0, -15, -30, -45]
}
output "flaps" {
  of      = flap
  seen-at = flap.te
  plus    = "trailing edge up"
  minus   = "trailing edge down"
}

stop "first-notch" {
  of   = lever
  at   = 0
  side = "high"
}
stop "last-notch" {
  of = lever
  at = -45
}

require "reading" "second notch" {
  of     = flaps
  at     = -15
  wants  = -12
  within = 1
}
require "reading" "last notch" {
  of     = flaps
  at     = -45
  wants  = -31.5
  within = 1
}
require "neutral" {
  of     = flap
  within = 0.5
}
require "over-center" { least = 10 }
require "stops"       {}
