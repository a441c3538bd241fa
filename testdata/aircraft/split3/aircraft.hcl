# whole.hcl on three drawings, the middle one in inches.

aircraft "Chain" {
  craft = "airplane"
}

run "front" {
  file = "front.hcl"
}
run "middle" {
  file = "middle.hcl"
}
run "rear" {
  file = "rear.hcl"
}

same-part "floor crank" {
  of    = [front.floor-crank, middle.floor-crank]
  turns = "same"
}
same-part "boom crank" {
  of = [middle.boom-crank, rear.boom-crank]
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
