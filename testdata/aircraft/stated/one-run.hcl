# One run, nothing to join: it may be, and the answer is the run's.

aircraft "Chain" {
  craft = "airplane"
}

run "front" {
  file = "front.hcl"
}

require "rod-angle" { least = 40 }
