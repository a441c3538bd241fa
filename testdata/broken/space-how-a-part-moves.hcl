run "How parts move" {
  units   = "mm"
  forward = [-1, 0]
  up      = [0, 1]
}
fixed "airframe" {
  points = { hook = [0, -100] }
  ball   = [0, 0]
  floats = "space"
}
part "lever" {
  pivot     = [100, 0]
  square-to = [0, 1, 0]
  arms      = { eye = [0, 50] }
}
part "ring" {
  ball      = [0, 0]
  pivot     = [0, 0]
  slide     = [0, 1]
  slides    = true
  floats    = "space"
  axis      = [0, 1, 0]
  square-to = [0, 0, 0]
  arms      = { fore = [-50, 0] }
}
part "plate" {
  pivot  = [200, 0]
  floats = "space"
  points = { eye = [200, 50] }
}
part "beam" {
  floats = "plane"
  points = { left = [0, 50], right = [100, 50] }
}
part "bare" {
  floats = "space"
}
part "armed" {
  floats = "space"
  axis   = [0, 1, 0]
  arms   = { left = [0, 50] }
  joint-play = 0.1
}
part "sleeve" {
  pivot  = [0, 0]
  slides = true
}
part "guided" {
  slide  = [0, 1]
  slides = true
  points = { eye = [0, 0] }
}
part "collar" {
  slides = true
  points = { eye = [0, 0] }
}
part "cap" {
  pivot  = [0, 0]
  axis   = [0, 1, 0]
  slides = "yes"
}
part "hung" {
  ball = link.bracket
  arms = { tilt-x = [1, 0] }
}
part "own" {
  ball   = own.eye
  points = { eye = [0, 0] }
}
part "nowhere" {
  ball      = "center"
  square-to = "up"
}
rod "link" {
  from   = airframe.hook
  to     = lever.eye
  points = { bracket = [50, 20] }
}
control "hand" {
  of = lever
}
