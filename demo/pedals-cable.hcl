# Brackwren, two-seat light helicopter; aircraft and figures are invented.
# Sheet 35: pedals to the tail, by open cables.
#
# The pedals stand on a bar with a quadrant under the floor, and two cables run aft
# from it along the tail boom to a quadrant at the tail gearbox, one on each side,
# drawn up against each other by turnbuckles. The tail quadrant is the smaller of
# the two, so it turns further than the bar. The boom is of aluminum: warm, it grows
# more than the cables do, and draws them up; cold, they go slack.
#
# Look at: the tension that is left on a hot day, and on a cold morning, when the
# tail quadrant can be moved by hand with the pedals held:
#   fullfree check pedals-cable.hcl --temperature 40
#   fullfree check pedals-cable.hcl --temperature -25

run "Pedals to tail, by cable" {
  units     = "mm"
  craft     = "rotorcraft"
  view      = "from above, nose to the left"
  forward   = [-1, 0]
  up        = [0, 0, 1]
  rigged-at = 15                # degrees Celsius, when the cables were drawn up
  airframe  = "6061-T6"         # the boom that the cables lie along
}

# Measured from the middle of the pedals' quadrant: x aft, y to the right.
part "pedals" {
  pivot = [0, 0]
  arms = {
    left-foot  = [-60, -150]
    right-foot = [-60, 150]
  }
}

part "tail-quadrant" {
  pivot = [3150, 0]
  arms  = { pitch-horn = polar(42, 180) }
}

part "pitch-slider" {           # through the tail gearbox
  slide  = [0, 1]
  points = { eye = [3108, 140] }
}

rod "pitch-link" {
  from = tail-quadrant.pitch-horn
  to   = pitch-slider.eye
}

cable "tail-left" {
  from   = pedals
  to     = tail-quadrant
  radius = [60, 55]
  winds  = ["down", "up"]
  run    = 3150
  wire   = "7x19 1/8 galvanized"
}
cable "tail-right" {
  from   = pedals
  to     = tail-quadrant
  radius = [60, 55]
  winds  = ["up", "down"]
  run    = 3150
  wire   = "7x19 1/8 galvanized"
}
pair "tail" {
  cables     = [tail-left, tail-right]
  pretension = 220              # N in each, on a cable gauge, at 15 degrees
}

control "pedals-control" {
  of    = pedals
  from  = -35
  to    = 35
  plus  = "right pedal forward"
  minus = "left pedal forward"
  grip  = pedals.right-foot
}

output "tail-pitch" {
  of    = pitch-slider
  plus  = "nose right"
  minus = "nose left"
}

stop "left" {
  of = pedals
  at = -24
}
stop "right" {
  of = pedals
  at = 24
}

require "sense" "right pedal, nose right" {
  when = [pedals.right-foot, "forward"]
  then = [pitch-slider.eye, "left"]
}
require "travel" "what the tail rotor needs" {
  of     = tail-pitch
  low    = -18.5
  high   = 18.5
  within = 1
}
require "taut" {
  of    = tail
  least = 80
}
require "over-center" { least = 10 }
require "stops" {}
