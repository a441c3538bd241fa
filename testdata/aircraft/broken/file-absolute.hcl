# A file is told from the folder of the aircraft.

aircraft "Chain" {
  craft = "airplane"
}

run "front" {
  file = "runs/front.hcl"
}
run "rear" {
  file = "/tmp/rear.hcl"
}

same-part "deck crank" {
  of = [front.deck-crank, rear.deck-crank]
}

require "rod-angle" { least = 40 }
