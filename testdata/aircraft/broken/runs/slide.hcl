# A plunger that slides, and the crank that it moves.

run "Plunger" {
  units   = "mm"
  view    = "from the left side, nose to the left"
  forward = [-1, 0]
  up      = [0, 1]
}

part "plunger" {
  slide  = [0, 1]
  points = { in = [58, 6] }
}
part "crank" {
  pivot = [0, 120]
  arms  = { horn = [60, 0] }
}

rod "link" {
  from = plunger.in
  to   = crank.horn
}

control "plunger-travel" {
  of   = plunger
  from = -20
  to   = 20
}

require "rod-angle" { least = 40 }
