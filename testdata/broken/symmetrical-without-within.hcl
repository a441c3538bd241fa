run "Broken" {
  units = "mm"
}
fixed "airframe" {
  points = { lug = [0, 0] }
}
part "lever" {
  pivot  = [0, 0]
  points = { top = [0, 400], horn = [0, -60] }
}
part "tab" {
  pivot  = lever.top
  points = { tip = [60, 400], horn = [-40, 400] }
}
rod "tab-rod" {
  from = airframe.lug
  to   = tab.horn
}
part "trolley" {
  slide  = [1, 0]
  points = { eye = [300, -60] }
}
rod "link" {
  from = lever.horn
  to   = trolley.eye
}
control "flap-lever" {
  of   = lever
  from = -30
  to   = 30
}
output "flap" {
  of = tab
}
require "symmetrical" {
  of = [tab, lever]
}
