# Seen from both sides it turns opposite, not the same.

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
  of    = [front.deck-crank, rear.deck-crank]
  turns = "same"
}

require "rod-angle" { least = 40 }
