# The rear tells no directions, and nobody states how it turns.

aircraft "Chain" {
  craft = "airplane"
}

run "front" {
  file = "runs/front.hcl"
}
run "rear" {
  file = "runs/no-directions.hcl"
}

same-part "deck crank" {
  of = [front.deck-crank, rear.deck-crank]
}

require "rod-angle" { least = 40 }
