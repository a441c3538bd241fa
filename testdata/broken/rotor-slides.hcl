run "Rotor" {
  units   = "mm"
  forward = [-1, 0]
  up      = [0, 1]
}
fixed "airframe" {
  points = { a = [0, 0] }
}
part "lever" {
  pivot = [100, 0]
  arms  = { eye = [0, 50] }
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
rotor {
  hub   = slider
  turns = "clockwise from above"
}
control "hand" {
  of = lever
}
