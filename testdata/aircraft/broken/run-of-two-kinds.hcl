# A run of an aircraft has a file, and its units stand there.

aircraft "Chain" {
  craft = "airplane"
}

run "front" {
  file = "runs/front.hcl"
}
run "rear" {
  file  = "runs/rear.hcl"
  units = "mm"
}

same-part "deck crank" {
  of = [front.deck-crank, rear.deck-crank]
}

require "rod-angle" { least = 40 }
