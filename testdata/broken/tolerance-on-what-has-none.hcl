# What has no tolerance, and no joint.
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

fixed "floor" {
  points     = { hole = [0, -100] }
  joint-play = 0.1
}
part "beam" {
  points     = { a = [300, 0], b = [400, 0], c = [350, 80] }
  joint-play = 0.1
}
rod "spare" {
  from        = lever.horn
  to          = crank.horn
  second-path = true
  joint-play  = 0.1
  end "from" {
    thread     = "M6x1"
    engaged    = 14
    joint-play = 0.1
  }
}
stop "lug" {
  touch     = [lever.lug, frame.bolt]
  tolerance = 0.1
}
output "other" {
  of        = crank
  tolerance = 0.1
}
pin "rig" {
  of        = crank
  tolerance = 0.1
}
