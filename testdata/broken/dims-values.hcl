# What a dims block holds that is no number.
run "Bench" {
  units = "mm"
}

dims "bench" {
  arm  = [0, 60]
  text = "60"
  part = crank
  none = 1 / 0
  far  = 1e7
  end "from" {
    thread = "M6x1"
  }
}

part "lever" {
  pivot = [0, 0]
  arms  = { horn = [0, 60] }
}

part "crank" {
  pivot = [200, 0]
  arms  = { horn = [0, 60], tip = polar(80, 45) }
}

rod "link" {
  from = lever.horn
  to   = crank.horn
}

control "hand" {
  of   = lever
  from = -40
  to   = 40
}

output "valve" {
  of = crank
}

require "sense" {
  of    = [hand, valve]
  turns = "same"
}
