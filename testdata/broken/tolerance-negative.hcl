# Half-widths and plays below nothing, and what is no number.
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
  tolerance  = -0.1
  joint-play = -0.1
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
  tolerance  = "tight"
  joint-play = -1
  end "to" {
    thread  = "M6x1"
    engaged = 14
    joint-play = -0.02
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
  tolerance = -1
}

tolerance {
  points     = -0.3
  pivots     = "0.5"
  rods       = -1
  stops      = -0.5
  joint-play = -0.1
}
