# The control of the rear is the deck crank: the front moves it, no hand.

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

require "over-center" "rear" {
  least   = 10
  control = rear.crank
}

require "rod-angle" { least = 40 }
