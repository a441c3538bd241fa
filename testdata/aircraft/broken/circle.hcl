# The rear moves the front, which moves the rear.

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

same-part "lever" {
  of = [rear.surface, front.lever]
}

require "rod-angle" { least = 40 }
