run "Rotors" {
  units = "mm"
}
fixed "airframe" {
  points = { a = [0, 0] }
}
part "lever" {
  pivot = [100, 0]
  arms  = { eye = [0, 50], le = [10, 0] }
}
part "slider" {
  slide  = [0, 1]
  points = { eye = [0, 20] }
}
part "hub" {
  pivot = [0, 0]
  axis  = [0, 1, 0]
}
rod "link" {
  from = lever.eye
  to   = slider.eye
}
rotor "main" {
  hub   = lever
  turns = "clockwise"
}
rotor {
  hub   = hub
  turns = "anticlockwise from above"
}
control "hand" {
  of   = lever
  from = -20
  to   = 20
}
output "pitch" {
  of           = lever
  leading-edge = lever.le
}
require "collective-pitch" {
  of = pitch
}
