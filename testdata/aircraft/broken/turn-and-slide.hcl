# A crank that turns can't be a plunger that slides.

aircraft "Chain" {
  craft = "airplane"
}

run "front" {
  file = "runs/front.hcl"
}
run "rear" {
  file = "runs/slide.hcl"
}

same-part "plunger" {
  of = [front.deck-crank, rear.plunger]
}

require "rod-angle" { least = 40 }
