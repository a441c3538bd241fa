# A point is named in three levels, no more.
aircraft "Chain" {}
run "front" { file = "runs/front.hcl" }
require "sense" {
  when = [front.lever.grip.x, "forward"]
  then = [front.deck-crank, "up"]
}
