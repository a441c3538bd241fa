# Two cranks drive one.

aircraft "Chain" {
  craft = "airplane"
}

run "front" {
  file = "runs/front.hcl"
}
run "other" {
  file = "runs/front.hcl"
}
run "rear" {
  file = "runs/rear.hcl"
}

same-part "deck crank" {
  of = [front.deck-crank, rear.deck-crank]
}

same-part "deck crank of the other" {
  of = [other.deck-crank, rear.deck-crank]
}

require "rod-angle" { least = 40 }
