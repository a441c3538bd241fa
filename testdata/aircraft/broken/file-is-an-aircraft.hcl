# An aircraft is no run.

aircraft "Chain" {
  craft = "airplane"
}

run "front" {
  file = "runs/front.hcl"
}
run "rear" {
  file = "circle.hcl"
}

same-part "deck crank" {
  of = [front.deck-crank, rear.deck-crank]
}

require "rod-angle" { least = 40 }
