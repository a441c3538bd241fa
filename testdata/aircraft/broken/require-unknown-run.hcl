# A requirement names a run that is not there.
aircraft "Chain" {}
run "front" { file = "runs/front.hcl" }
require "stops" {}
require "travel" {
  of     = rear.angle
  low    = -1
  high   = 1
  within = 1
}
