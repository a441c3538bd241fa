# The front has no "deck-crnk".

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
  of = [front.deck-crnk, rear.deck-crank]
}

require "rod-angle" { least = 40 }
