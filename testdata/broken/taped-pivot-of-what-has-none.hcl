# Pivots of parts that don't turn.
run "Bench" {
  units = "mm"
}

fixed "frame" {
  points = { hook = [0, 90] }
  round "post" {
    at     = [-30, 20]
    radius = 6
  }
}

part "lever" {
  pivot  = [0, 0]
  points = { horn = [0, 60] }
}

part "crank" {
  pivot = [200, 0]
  arms  = { horn = [0, 60], tip = polar(80, 45) }
}

rod "link" {
  from   = lever.horn
  to     = crank.horn
  length = 200 + 1/2
}

control "hand" {
  of   = lever
  from = -40
  to   = 40
}

output "valve" {
  of = crank
}

require "stops" {
}

part "block" {
  slide  = [1, 0]
  points = { eye = [300, 100] }
}

part "guide" {
  pivot = crank.tip
  slide = [1, 0]
}

part "beam" {
  points = { left = [0, 200], right = [50, 200] }
}

taped "diagonal" {
  from   = lever.horn
  to     = block.pivot
  is     = 208.8
  within = 1
}

taped "b" {
  from   = lever.horn
  to     = guide.pivot
  is     = 208.8
  within = 1
}

taped "c" {
  from   = lever.horn
  to     = beam.pivot
  is     = 208.8
  within = 1
}
