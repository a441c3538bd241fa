run "A" {
  units   = "mm"
  forward = [1, 0]
  up      = [0, 1]
}
part "lever" {
  pivot = [0, 0]
  arms  = { in = [0, 60] }
}
part "crank" {
  pivot      = [250, 0]
  joint-play = 0.5
  arms       = { top = [0, 60] }
}
rod "ab" {
  from = lever.in
  to   = crank.top
}
control "stick" {
  of   = lever
  from = -40
  to   = 40
}
output "crank-out" {
  of = crank
}
stop "hi" {
  of = lever
  at = 20
}
stop "lo" {
  of = lever
  at = -20
}
require "rod-angle" {
  least = 20
}
