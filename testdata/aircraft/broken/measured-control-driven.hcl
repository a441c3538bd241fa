# Readings are taken against a hand, not against a part that another run moves.
aircraft "Chain" {}
run "front" { file = "runs/front.hcl" }
run "rear" { file = "runs/rear.hcl" }
same-part "deck crank" { of = [front.deck-crank, rear.deck-crank] }
measured "first" {
  of       = rear.angle
  control  = rear.crank
  readings = [[0, 0]]
  within   = 0.5
}
