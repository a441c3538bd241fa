# signed.hcl in inches: one thing in two units.
run "Push rod and lever" {
  units   = "in"
  forward = [1, 0]
  up      = [0, 1]
}

part "grip" {
  slide  = [1, 0]
  points = { eye = [0, 0] }
}
part "far" {
  slide  = [1, 0]
  points = { eye = [200 / 25.4, 0] }
}
rod "push" {
  from   = grip.eye
  to     = far.eye
  length = 200 / 25.4
}
control "grip-travel" {
  of   = grip
  from = -40 / 25.4
  to   = 40 / 25.4
}
output "far-reads" {
  of   = far
  plus = "out"
}
stop "in" {
  of = grip
  at = -20 / 25.4
}
stop "out" {
  of = grip
  at = 20 / 25.4
}

part "lever" {
  pivot = [0, 300 / 25.4]
  arms  = { horn = [0, 50 / 25.4] }
}
part "crank" {
  pivot = [200 / 25.4, 300 / 25.4]
  arms  = { horn = [0, 50 / 25.4] }
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
  low     = -20 / 25.4
  high    = 20 / 25.4
  within  = 1 / 25.4
  control = grip-travel
}
require "stops" { control = grip-travel }
