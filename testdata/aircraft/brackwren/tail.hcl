# The same metal as demo/aircraft/pedals.hcl and tail-run.hcl in one
# run: every place in millimeters and as seen from the left. Names begin with p- and t-.

run "Whole" {
  units = "mm"
  craft = "rotorcraft"
  view = "from the left side, nose to the left"
  forward = [-1, 0]
  up = [0, 1]
}
part "p-left-pedal" {
  pivot = [0, 0, 0]
  points = {
    foot = [-18, 210, 360]
    horn = [12, -61, 300]
  }
}
part "p-right-pedal" {
  pivot = [0, 0, 0]
  points = {
    foot = [-18, 210, 200]
    horn = [-12, -61, 260]
  }
}
part "p-far-left-pedal" {
  pivot = [0, 0, 0]
  points = {
    foot = [-18, 210, -200]
    horn = [12, -61, -260]
  }
}
part "p-far-right-pedal" {
  pivot = [0, 0, 0]
  points = {
    foot = [-18, 210, -360]
    horn = [-12, -61, -300]
  }
}
part "p-rocker" {
  pivot = [315, -62, 0]
  arms = {
    upper = [-12, 60, 290]
    lower = [-12, -60, 270]
    far-upper = [-12, 60, -270]
    far-lower = [-12, -60, -290]
    tail = polar(80, 92)
    t-tail = polar(80.16875, 92)
  }
}
rod "p-left-link" {
  from = p-left-pedal.horn
  to = p-rocker.upper
  length = 297
  misalignment = 10
  end "from" {
    thread  = "M6x1"
    engaged = 12.5
    least = 9
    most = 16
  }
}
rod "p-right-link" {
  from = p-right-pedal.horn
  to = p-rocker.lower
  length = 321
  misalignment = 10
  end "from" {
    thread  = "M6x1"
    engaged = 12.5
    least = 9
    most = 16
  }
}
rod "p-far-left-link" {
  from = p-far-left-pedal.horn
  to = p-rocker.far-upper
  length = 297
  misalignment = 10
  end "from" {
    thread  = "M6x1"
    engaged = 12.5
    least = 9
    most = 16
  }
}
rod "p-far-right-link" {
  from = p-far-right-pedal.horn
  to = p-rocker.far-lower
  length = 321
  misalignment = 10
  end "from" {
    thread  = "M6x1"
    engaged = 12.5
    least = 9
    most = 16
  }
}
control "p-pedals" {
  of = p-left-pedal
  from  = -45
  to    = 45
}
output "p-tail-arm" {
  of = p-rocker
}
stop "p-left-stop" {
  of = p-left-pedal
  at = 26
}
stop "p-right-stop" {
  of = p-right-pedal
  at = 26
}
part "t-idler" {
  pivot = [1839, -11.2, 0]
  arms = {
    in = polar(79.375, 92)
    out = polar(79.375, 92)
  }
}
part "t-tail-crank" {
  pivot = [3312.2, 115.8, 69.85]
  axis = [0, 1, 0]
  arms = {
    in = [0, 0, -69.85]
    out = [41.275, 0, 0]
  }
}
part "t-pitch-slider" {
  slide = [0, 0, -1]
  points = {
    eye = [3351.57, 115.8, 133.35]
    horn = [3303.31, 166.6, 254]
  }
  bolts = {
    eye = [0, 1, 0]
    horn = [0, 1, 0]
  }
}
part "t-blade" {
  pivot = [3351.57, 166.6, 203.2]
  axis = [0, 1, 0]
  points = {
    horn = [3303.31, 166.6, 203.2]
    tip = [3351.57, 700, 203.2]
  }
}
rod "t-front-rod" {
  from = p-rocker.t-tail
  to = t-idler.in
  misalignment = 8
  end "from" {
    thread  = "1/4-28"
    engaged = 12.7
    least = 9.525
    most = 19.05
  }
}
rod "t-boom-rod" {
  from = t-idler.out
  to = t-tail-crank.in
  misalignment = 25
  end "to" {
    thread  = "1/4-28"
    engaged = 12.7
    least = 9.525
    most = 19.05
  }
}
rod "t-slider-link" {
  from = t-tail-crank.out
  to = t-pitch-slider.eye
}
rod "t-pitch-link" {
  from = t-pitch-slider.horn
  to = t-blade.horn
  end "to" {
    thread  = "10-32"
    engaged = 9.525
    least = 7.9375
    most = 12.7
  }
}
output "t-pitch" {
  of = t-blade
  seen-at = t-blade.horn
  reads   = 6
}
stop "t-full-left" {
  of = t-blade
  at = 27.3
}
stop "t-full-right" {
  of = t-blade
  at = -27.3
}
require "stops" {}
require "order" "l" {
  first = p-left-stop
  then = t-full-left
  least = 1
}
require "order" "r" {
  first = p-right-stop
  then = t-full-right
  least = 1
}
require "sense" "a" {
  when = [p-left-pedal.foot,"forward"]
  then = [t-blade.horn,"left"]
}
require "sense" "b" {
  when = [p-far-left-pedal.foot,"forward"]
  then = [t-blade.horn,"left"]
}
require "travel" {
  of = t-pitch
  low = -19.7
  high = 31.8
  within = 0.5
}
require "travel" "file's own" {
  of = t-pitch
  low = -20.5
  high = 32.5
  within = 1
}
require "over-center" { least  =  10 }
require "rod-angle" { least = 45 }
