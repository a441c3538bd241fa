run "Which way it tilts" {
  units = "mm"
  up    = [0, 1]
}
fixed "airframe" {
  points = { a = [-50, -100], b = [0, -100, 50], c = [50, 0, -100] }
}
part "lever" {
  pivot = [100, 0]
  arms  = { eye = [0, 50] }
}
part "ring" {
  ball = [0, 0]
  arms = { fore = [-50, 0], left = [0, 0, 50], aft = [50, 0] }
}
rod "a" {
  from = lever.eye
  to   = ring.fore
}
rod "b" {
  from = airframe.b
  to   = ring.left
}
rod "c" {
  from = airframe.c
  to   = ring.aft
}
control "hand" {
  of = lever
}
output "forward" {
  of    = ring
  tilts = "forward"
}
output "upward" {
  of    = ring
  tilts = "up"
}
output "nearly-up" {
  of    = ring
  tilts = [0.001, 1, 0]
}
output "nowhere" {
  of    = ring
  tilts = [0, 0]
}
output "sideways" {
  of    = ring
  tilts = "sideways"
}
output "name" {
  of    = ring
  tilts = ring.fore
}
output "hinge" {
  of    = lever
  tilts = [1, 0, 0]
}
output "point" {
  of    = ring.fore
  along = [0, 1]
  tilts = [1, 0, 0]
}
