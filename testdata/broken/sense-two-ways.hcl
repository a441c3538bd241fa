run "Broken" {
  units = "mm"
  forward = [-1, 0]
  up      = [0, 1]
}
fixed "airframe" {
  points = { lug = [0, 0] }
}
part "stick" {
  pivot  = [0, 0]
  points = { top = [0, 400], horn = [0, -60] }
}
control "fore-aft" {
  of   = stick
  from = -30
  to   = 30

}
output "disk" {
  of = stick

}
require "sense" {
  of    = [fore-aft, disk]
  when  = [stick.top, "forward"]
  then  = [stick.horn, "aft"]
}
