# Sedgewing, two-seat ultralight airplane; aircraft and figures are invented.
# Sheet 14: elevator, and the trim tab on it.
#
# A rod runs aft from the stick's horn to an idler behind the seats, and another from
# there to the elevator's upper horn. The trim lever moves the tab by a push-pull core,
# whose conduit ends on the elevator itself, so the tab goes with the elevator and keeps
# its trim. Measured from the stick's bolt: x aft, y up.
#
# Look at: the two "steady" requirements, that neither control moves what belongs to
# the other; and the sense of the tab: trim lever forward, tab up, elevator down, nose
# down.

run "Elevator" {
  units   = "mm"
  craft   = "airplane"
  view    = "from the left side, nose to the left"
  forward = [-1, 0]
  up      = [0, 1]
}

fixed "fuselage" {
  points = { conduit = [320, 110] }
}

part "stick" {
  pivot  = [0, 0]
  points = {
    grip = [-34, 432]
    horn = [0, -81]
  }
}

part "idler" {
  pivot  = [1504, 58]
  points = { hole = [1504, -82] }    # both rods on one bolt
}

part "elevator" {
  pivot = [2897, 103]
  arms  = {
    horn    = [0, 81]
    te      = [310, 0]
    hinge   = [250, 0]               # of the tab
    conduit = [140, -40]
  }
}

part "tab" {
  pivot = elevator.hinge             # carried: it goes with the elevator
  arms  = {
    horn = [0, -40]
    te   = [70, 0]
  }
}

part "trim-lever" {
  pivot  = [200, 150]
  points = {
    knob = [200, 260]
    horn = [200, 110]
  }
}

rod "forward-rod" {
  from         = stick.horn
  to           = idler.hole
  misalignment = 10
}
rod "aft-rod" {
  from         = idler.hole
  to           = elevator.horn
  misalignment = 10
}

cable "trim-core" {
  from    = trim-lever.horn
  to      = tab.horn
  conduit = [fuselage.conduit, elevator.conduit]
  pushes  = true
}

control "pitch" {
  of    = stick
  from  = -45
  to    = 45
  held  = [0, -26.5, 19]
  plus  = "stick forward"
  minus = "stick aft"
}

control "trim" {
  of    = trim-lever
  from  = -40
  to    = 40
  held  = [0, -20, 20]
  plus  = "lever forward"
  minus = "lever aft"
}

output "elevator-angle" {
  of      = elevator
  seen-at = elevator.te
  plus    = "trailing edge up"
  minus   = "trailing edge down"
}
output "tab-angle" {
  of      = tab
  against = "carrier"
}

stop "stick-aft" {
  of = stick
  at = -26.5
}
stop "stick-forward" {
  of = stick
  at = 19
}
stop "trim-aft" {
  of = trim-lever
  at = -20
}
stop "trim-forward" {
  of = trim-lever
  at = 20
}

require "sense" "elevator" {
  when = [stick.grip, "aft"]
  then = [elevator.te, "up"]
}
require "sense" "trim" {
  when = [trim-lever.knob, "forward"]
  then = [tab.te, "up"]
}
require "travel" "elevator" {
  of      = elevator-angle
  low     = -20
  high    = 25
  within  = 1
  control = pitch
}
require "travel" "tab" {
  of      = tab-angle
  low     = -20
  high    = 20
  within  = 1
  control = trim
}
require "steady" "tab" {
  of      = tab-angle
  within  = 0.1
  control = pitch
}
require "steady" "elevator" {
  of      = elevator-angle
  within  = 0.1
  control = trim
}
require "over-center"  { least = 15 }
require "rod-angle"    { least = 40 }
require "misalignment" {}
require "stops"        {}
