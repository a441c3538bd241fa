# Two runs share no place: clearance is of one run.

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

require "clearance" {
  between = [front.floor-rod, rear.boom-rod]
  least   = 3
}

require "rod-angle" { least = 40 }
