run "Joints" {
  units   = "mm"
  forward = [-1, 0]
  up      = [0, 1]
}
fixed "airframe" {
  points = { hook = [0, -100], pin = [100, 0], eye = [10, 10] }
}
part "lever" {
  pivot = airframe.pin
  arms  = { eye = [0, 50], far = [0, 80] }
}
part "crank" {
  pivot = [300, 0]
  arms  = { eye = [-200, 50], top = [0, 60] }
}
rod "link" {
  from   = lever.far
  to     = crank.top
  points = { bracket = [200, 60] }
}
joint "nothing" {
}
joint "one" {
  of = [lever.eye]
}
joint "alone" {
  of = lever.eye
}
joint "itself" {
  of = [lever.eye, lever.far]
}
joint "same" {
  of = [lever.eye, lever.eye]
}
joint "still" {
  of = [airframe.hook, airframe.eye]
}
joint "pin" {
  of = [lever.eye, crank.eye]
}
joint "again" {
  of = [crank.eye, lever.eye]
}
joint "rod" {
  of = [link.bracket, crank.eye]
}
joint "whole" {
  of = [lever, crank]
}
joint "ends" {
  from   = lever.far
  to     = crank.top
  length = 3
  play   = 0.1
  axis   = [0, 0, 1]
}
joint "missing" {
  of = [lever.ere, crank.eye]
}
joint {
  of = [lever.far, crank.top]
}
joint "lever" {
  of         = [lever.far, crank.top]
  joint-play = -1
}
control "hand" {
  of = lever
}
