# The same, said of all: each is told once.
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
  end "to" {
    thread  = "M6x1"
    engaged = 14
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
}

tolerance {
  points     = 80
  pivots     = 70
  rods       = 0.25
  joint-play = 300
}
