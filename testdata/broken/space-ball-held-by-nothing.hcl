run "Held by nothing" {
  units   = "mm"
  forward = [-1, 0]
  up      = [0, 1]
}
part "lever" {
  pivot  = [100, 0]
  arms   = { eye = [0, 50] }
}
part "sleeve" {
  slide  = [0, 1]
  points = { lug = [10, 20], center = [0, 0] }
}
part "ring" {
  ball = sleeve.center
  arms = { fore = [-50, 0], middle = [0, 0] }
}
part "turning-ring" {
  pivot = ring.middle
  axis  = [0, 1, 0]
  arms  = { fore = [-50, 0] }
}
part "idle" {                   # nothing asks for it
  ball = [400, 0]
}
rod "lift" {
  from = lever.eye
  to   = sleeve.lug
}
control "hand" {
  of = lever
}
output "tilt" {
  of    = ring
  tilts = "forward"
}
