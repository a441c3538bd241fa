# Two runs have one name.

aircraft "Chain" {
  craft = "airplane"
}

run "front" {
  file = "runs/front.hcl"
}
run "front" {
  file = "runs/rear.hcl"
}

require "rod-angle" { least = 40 }
