# Eight runs, forty parts: a row of five from the floor to the left tip, and a branch of
# three to the right rib. Some are seen from the left and some from the right, some are
# in inches. whole.hcl is the same metal in one run. Invented.

aircraft "Eight" {
  craft = "airplane"
}

run "floor" {
  file = "floor.hcl"
}
run "left-boom" {
  file = "left-boom.hcl"
}
run "right-boom" {
  file = "right-boom.hcl"
}
run "left-spar" {
  file = "left-spar.hcl"
}
run "right-spar" {
  file = "right-spar.hcl"
}
run "left-rib" {
  file = "left-rib.hcl"
}
run "right-rib" {
  file = "right-rib.hcl"
}
run "left-tip" {
  file = "left-tip.hcl"
}

same-part "floor to left-boom" {
  of = [floor.crank-5, left-boom.crank-1]
}
same-part "floor to right-boom" {
  of = [floor.crank-5, right-boom.crank-1]
}
same-part "left-boom to left-spar" {
  of = [left-boom.crank-5, left-spar.crank-1]
}
same-part "right-boom to right-spar" {
  of = [right-boom.crank-5, right-spar.crank-1]
}
same-part "left-spar to left-rib" {
  of = [left-spar.crank-5, left-rib.crank-1]
}
same-part "right-spar to right-rib" {
  of = [right-spar.crank-5, right-rib.crank-1]
}
same-part "left-rib to left-tip" {
  of = [left-rib.crank-5, left-tip.crank-1]
}

require "sense" "hand to left tip" {
  when = [floor.crank-1.out, "forward"]
  then = [left-tip.crank-5.out, "forward"]
}
require "sense" "hand to right rib" {
  when = [floor.crank-1.out, "forward"]
  then = [right-rib.crank-5.out, "forward"]
}
require "travel" "left tip" {
  of     = left-tip.end
  low    = -17
  high   = 17
  within = 0.5
}
require "travel" "right rib" {
  of     = right-rib.end
  low    = -17.6
  high   = 17.6
  within = 0.5
}
require "order" "the hand's stop first" {
  first = floor.high
  then  = left-tip.low
  least = 1
}
require "over-center" { least = 10 }
require "rod-angle" { least = 45 }
require "engagement" {}
require "stops" {}
