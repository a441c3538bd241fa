# No hole of the deck crank has one name on both drawings: that they show it in one
# position is not checked, and told. Else it is split2.

aircraft "Chain" {
  craft = "airplane"
}

run "front" {
  file = "front.hcl"
}
run "rear" {
  file = "rear.hcl"
}

same-part "deck crank" {
  of = [front.deck-crank, rear.deck-crank]
}

require "sense" "lever forward, trailing edge up" {
  when = [front.lever.grip, "forward"]
  then = [rear.surface.te, "up"]
}
require "travel" {
  of     = rear.angle
  low    = -12
  high   = 27
  within = 1
}
require "reading" {
  of     = rear.angle
  at     = 10
  wants  = -6
  within = 1
}
require "order" {
  first = rear.surface-up
  then  = front.hand-high
  least = 1
}
require "over-center" { least = 10 }
require "rod-angle" { least = 40 }
require "engagement" {}
require "stops" {}
