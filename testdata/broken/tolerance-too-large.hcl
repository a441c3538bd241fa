# Half-widths as large as an arm, a rod and a half turn.
run "Bench" {
  units = "mm"
}

fixed "frame" {
  points = { pin = [200, 0] }
  round "bolt" {
    at     = [-40, 0]
    radius = 4
  }
}

part "lever" {
  pivot  = [0, 0]
  points = { horn = [0, 60] }
  tolerance = 60
  edge "lug" {
    through = [[0, 0], [0, -40]]
  }
}

part "crank" {
  pivot = frame.pin
  arms  = { horn = [0, 60] }
}

rod "link" {
  from = lever.horn
  to   = crank.horn
  tolerance = 250
  end "to" {
    thread  = "M6x1"
    engaged = 14
    joint-play = 200
  }
}

control "hand" {
  of   = lever
  from = -30
  to   = 30
}

output "reads" { of = crank }

stop "bolt" {
  touch = [lever.lug, frame.bolt]
}
stop "fore" {
  of = crank
  at = 20
  tolerance = 180
}

tolerance {
  points = 80
  pivots = 0.5
  stops  = 180
}
