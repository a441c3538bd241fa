# A run that drives itself.

aircraft "Chain" {
  craft = "airplane"
}

run "front" {
  file = "runs/front.hcl"
}

same-part "lever" {
  of = [front.deck-crank, front.lever]
}

require "rod-angle" { least = 40 }
