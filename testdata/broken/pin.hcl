# Pins that hold nothing, or hold twice.
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
  points = { hook = [0, 90] }
}

part "beam" {
  points = { left = [0, 200], right = [50, 200] }
}

control "hand" {
  of   = lever
  from = -40
  to   = 40
}

output "valve" {
  of = crank
}

pin "rig" {
  of     = lever
  within = 0
}

pin "again" {
  of = lever
  at = 4
}

pin "fast" {
  of = frame
}

pin "loose" {
  of = beam
}

pin "gauge" {
  of = valve
}

pin "point" {
  of = crank.horn
}

pin "nothing" {
  at = 4
}

pin "hole" {
  of     = crank
  at     = "neutral"
  within = -1
}

pin "lever" {
  of = crank
}
