# Names are told with their run.

aircraft "Chain" {
  craft = "airplane"
}

run "front" {
  file = "runs/front.hcl"
}
run "rear" {
  file = "runs/rear.hcl"
}

same-part "deck crank" {
  of = [front.deck-crank, rear.deck-crank]
}

require "travel" {
  of     = angle
  low    = -12
  high   = 27
  within = 1
}

require "rod-angle" { least = 40 }
