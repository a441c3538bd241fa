# Brackwren, two-seat light helicopter; aircraft and figures are invented.
# Sheet 42: throttle by a single cable.
#
# The twist grip draws the core of one cable through its conduit, and the
# carburetor's arm follows. A single cable only pulls: what brings the arm back is
# the return spring on the carburetor. The spring itself is not reckoned with; it
# is taken to keep the cable taut, and every report says so.
#
# Look at: the spring must pull against the cable. Write spring = "minus", the side
# to which the cable pulls, and see it refused. And one nut out, at the carburetor,
# takes slack up:
#   fullfree effect throttle-cable.hcl

run "Throttle by cable" {
  units   = "mm"
  craft   = "rotorcraft"
  view    = "from the right side, nose to the right"
  forward = [1, 0]
  up      = [0, 1]
}

# Measured from the middle of the twist grip.
fixed "frame" {
  points = {
    grip-bracket = [-62, 22]    # holds the conduit at the grip
    carb-bracket = [-560, -48]  # and at the carburetor
  }
}

part "grip" {
  pivot = [0, 0]
  arms  = { horn = polar(22, 100) }
}

part "carburetor" {             # its arm
  pivot = [-640, -80]
  arms  = { hole = polar(32, 115) }
}

cable "throttle-cable" {
  from    = grip.horn
  to      = carburetor.hole
  conduit = [frame.grip-bracket, frame.carb-bracket]
  spring  = "plus"              # the return spring turns the arm this way: closed
  end "conduit-to" {
    thread  = "M6x1"
    engaged = 12
  }
}

control "throttle" {
  of    = grip
  from  = -70
  to    = 30
  plus  = "closed"
  minus = "open"
  seen-from = "right"           # as drawn
  turns     = "counterclockwise"
}

output "butterfly" {
  of    = carburetor
  plus  = "closed"
  minus = "open"
}

# The carburetor's own idle stop stands on the spring's side: it holds the arm, not
# the grip, which could be turned on with the cable going slack. So the grip has one
# that bites where the arm shuts. Take it out, and "stops" falls short: it says so.
stop "grip-idle" {
  of   = grip
  at   = 0
  side = "high"
}
stop "idle" {
  of   = carburetor
  at   = 0
  side = "high"
}
stop "full" {
  of = carburetor
  at = -38
}

require "sense" "grip opens, butterfly opens" {
  when = [grip.horn, "aft"]
  then = [carburetor.hole, "aft"]
}
require "travel" "closed to full" {
  of     = butterfly
  low    = -38
  high   = 0
  within = 1
}
require "over-center" { least = 10 }
require "stops" {}
require "engagement" {}         # the thread in the nuts
