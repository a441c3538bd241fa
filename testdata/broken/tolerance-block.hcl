# A tolerance block with a name, one that says nothing, and attributes that it has not.
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

tolerance "all" {
  points  = 0.3
  lengths = 0.25
  play    = 0.1
  point   = 0.3
}
tolerance {
}
