# The rear tells no directions: how its drawing turns is stated.

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
  of    = [front.deck-crank, rear.deck-crank]
  turns = "opposite"
}

require "travel" {
  of     = rear.angle
  low    = -12
  high   = 27
  within = 1
}
require "order" {
  first = rear.surface-up
  then  = front.hand-high
  least = 1
}
require "rod-angle" { least = 40 }
require "stops" {}
