# One pair is told twice.

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

same-part "again" {
  of = [front.deck-crank, rear.deck-crank]
}

require "rod-angle" { least = 40 }
