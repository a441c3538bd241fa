# Can't be joined: the bolts of the two drawings of the deck crank are not parallel.

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
  of = [front.deck-crank, rear.deck-crank]
}

require "rod-angle" { least = 40 }
