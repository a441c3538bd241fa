# whole.hcl on four drawings, from both sides and in both units; neither the runs nor
# the joints stand in working order here.

aircraft "Chain" {
  craft = "airplane"
}

run "rear" {
  file = "rear.hcl"
}
run "front" {
  file = "front.hcl"
}
run "boom" {
  file = "boom.hcl"
}
run "upright" {
  file = "upright.hcl"
}

same-part "boom crank" {
  of    = [boom.boom-crank, rear.boom-crank]
  turns = "opposite"
}
same-part "floor crank" {
  of    = [front.floor-crank, upright.floor-crank]
  turns = "opposite"
}
same-part "deck crank" {
  of    = [upright.deck-crank, boom.deck-crank]
  turns = "same"
}

require "sense" "lever forward, trailing edge up" {
  when = [front.lever.grip, "forward"]
  then = [rear.surface.te, "up"]
}
require "travel" {
  of     = rear.angle
  low    = -17
  high   = 22
  within = 1
}
require "reading" {
  of     = rear.angle
  at     = 10
  wants  = 16
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
