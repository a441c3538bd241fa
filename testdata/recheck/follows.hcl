# signed.hcl with the hole in the crank 3 mm farther out: the rod without a length follows it,
# from 200 mm to 203 mm.
run "Push rod and lever" {
  units   = "mm"
  forward = [1, 0]
  up      = [0, 1]
}

part "grip" {
  slide  = [1, 0]
  points = { eye = [0, 0] }
}
part "far" {
  slide  = [1, 0]
  points = { eye = [200, 0] }
}
rod "push" {
  from   = grip.eye
  to     = far.eye
  length = 200
}
control "grip-travel" {
  of   = grip
  from = -40
  to   = 40
}
output "far-reads" {
  of   = far
  plus = "out"
}
stop "in" {
  of = grip
  at = -20
}
stop "out" {
  of = grip
  at = 20
}

part "lever" {
  pivot = [0, 300]
  arms  = { horn = [0, 50] }
}
part "crank" {
  pivot = [200, 300]
  arms  = { horn = [3, 50] }
}
rod "link" {                    # no length: it follows its holes
  from = lever.horn
  to   = crank.horn
}
control "lever-travel" {
  of   = lever
  from = -30
  to   = 30
}
output "crank-turns" { of = crank }

require "travel" "far" {
  of      = far-reads
  low     = -20
  high    = 20
  within  = 1
  control = grip-travel
}
require "stops" { control = grip-travel }
