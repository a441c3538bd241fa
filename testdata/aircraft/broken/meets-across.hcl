# Two runs share no place: meets is of one run.

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

require "meets" {
  of     = [front.deck-crank.out, rear.deck-crank.out]
  within = 1
}

require "rod-angle" { least = 40 }
