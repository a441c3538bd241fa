run "Joints" {
  units   = "mm"
  forward = [-1, 0]
  up      = [0, 1]
}
fixed "airframe" {
  points = { pin = [100, 0], ball = [0, 0] }
}
part "lever" {
  pivot  = [100, 0]
  points = { pin = [100, 0], eye = [100, 50] }
}
part "ring" {
  ball = airframe.ball
  arms = { middle = [0, 0], fore = [-50, 0], aft = [50, 0], left = [0, 0, 50] }
}
part "beam" {
  points = { left = [-50, 0], right = [100, 50] }
}
joint "pivot" {
  of = [airframe.pin, lever.pin]
}
joint "middle" {
  of = [ring.middle, airframe.ball]
}
joint "plane" {
  of = [beam.left, ring.fore]
}
rod "dead" {
  from = lever.eye
  to   = ring.middle
}
rod "fore" {
  from = beam.right
  to   = ring.aft
}
control "hand" {
  of = lever
}
