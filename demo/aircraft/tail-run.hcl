# Brackwren, kit 2, two-seat light helicopter; aircraft and figures are invented.
# Sheet 62: tail run, from the floor to the tail blade.
#
# The crank is the arm "tail" of the pedals' rocker (sheet 61), here seen from the right
# and in inches, as the boom is made. A rod runs aft to an idler that hangs in the
# boom, a second one to the tail crank, which lies flat on the gearbox: its other arm
# draws the pitch slider out to the left through the hollow shaft, and the pitch link
# turns the blade by its horn. The blade is shown standing upright.
#
# Look at: the stops. On the aircraft they are not to be met: the pedals' own come
# first, by more than a degree of pedal. Alone, this run goes as far as they let it.

run "Tail run" {
  units   = "in"
  craft   = "rotorcraft"
  view    = "from the right side, nose to the right"
  forward = [1, 0]
  up      = [0, 1]
}

# Measured from the rocker's tube: x forward, y up, z to the right.
part "crank" {
  pivot = [0, 0]
  arms  = { tail = polar(3 + 5/32, 88) }    # 80 mm on sheet 61, as far forward of upright
}
part "idler" {
  pivot = [-60, 2]
  arms = {
    in  = polar(3 + 1/8, 88)
    out = polar(3 + 1/8, 88)
  }
}
part "tail-crank" {
  pivot = [-118, 7, -(2 + 3/4)]
  axis  = [0, 1, 0]             # upright
  arms = {
    in  = [0, 0, 2 + 3/4]
    out = [-(1 + 5/8), 0, 0]
  }
}
part "pitch-slider" {
  slide  = [0, 0, 1]            # plus is to the right
  points = {
    eye  = [-119.55, 7, -(5 + 1/4)]
    horn = [-117.65, 9, -10]    # its own, outside the hub
  }
  bolts = {
    eye  = [0, 1, 0]
    horn = [0, 1, 0]
  }
}
part "blade" {
  pivot  = [-119.55, 9, -8]
  axis   = [0, 1, 0]            # along its span
  points = {
    horn = [-117.65, 9, -8]
    tip  = [-119.55, 30, -8]
  }
}

rod "front-rod" {
  from         = crank.tail
  to           = idler.in
  misalignment = 8
  end "from" {
    thread  = "1/4-28"
    engaged = 1/2
    least   = 3/8
    most    = 3/4
  }
}
rod "boom-rod" {
  from         = idler.out
  to           = tail-crank.in
  misalignment = 25             # the aft end swings sideways: a wide rod end there
  end "to" {
    thread  = "1/4-28"
    engaged = 1/2
    least   = 3/8
    most    = 3/4
  }
}
rod "slider-link" {
  from = tail-crank.out
  to   = pitch-slider.eye
}
rod "pitch-link" {
  from = pitch-slider.horn
  to   = blade.horn
  end "to" {
    thread  = "10-32"
    engaged = 3/8
    least   = 5/16
    most    = 1/2
  }
}

control "tail-arm" {
  of    = crank
  from  = -45
  to    = 45
  plus  = "left pedal"
  minus = "right pedal"
}

output "pitch" {
  of      = blade
  seen-at = blade.horn
  plus    = "nose left"
  minus   = "nose right"
  reads   = 6                   # on the protractor, as drawn
}

stop "full-left" {
  of = blade
  at = 27.3
}
stop "full-right" {
  of = blade
  at = -27.3
}

require "sense" "tail arm aft, horn left" {
  when = [crank.tail, "aft"]
  then = [blade.horn, "left"]
}
require "travel" "tail pitch" {
  of     = pitch
  low    = -20.5
  high   = 32.5
  within = 1
}
require "over-center" { least = 8 }
require "rod-angle" { least = 45 }
require "misalignment" {}
require "engagement" {}
require "stops" {}
