# The boom crank of the rear is no control's part.

aircraft "Chain" {
  craft = "airplane"
}

run "front" {
  file = "runs/front.hcl"
}
run "rear" {
  file = "runs/rear.hcl"
}

same-part "crank" {
  of = [front.deck-crank, rear.boom-crank]
}

require "rod-angle" { least = 40 }
