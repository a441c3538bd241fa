run "B" {
  units   = "mm"
  forward = [1, 0]
  up      = [0, 1]
}
part "bell" {
  pivot      = [250, 0]
  arms       = { low = [0, -60] }
}
part "horn" {
  pivot = [500, 0]
  arms  = { in = [0, -60] }
}
rod "cd" {
  from = bell.low
  to   = horn.in
}
control "bell-in" {
  of   = bell
  from = -40
  to   = 40
}
output "blade" {
  of = horn
}
require "rod-angle" {
  least = 20
}
