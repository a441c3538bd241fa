# Metal that touches is not set by a number.
run "Bench" {
  units = "mm"
}

part "lever" {
  pivot  = [0, 0]
  points = { horn = [0, 60], low = [0, -40] }
}

part "crank" {
  pivot = [200, 0]
  arms  = { horn = [0, 60], low = [0, -40] }
}

fixed "frame" {
  round "post" {
    at     = [-30, 20]
    radius = 6
  }
}

part "arm" {
  pivot = [0, 90]
  round "boss" {
    at     = [-30, 80]
    radius = 6
  }
}

control "hand" {
  of   = lever
  from = -40
  to   = 40
}

stop "metal" {
  touch  = [arm.boss, frame.post]
  adjust = [20, 30]
  step   = 1/2
}
