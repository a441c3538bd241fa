# Parts stand in the files of the runs.

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

part "lever" {
  pivot = [0, 0]
}

require "rod-angle" { least = 40 }
