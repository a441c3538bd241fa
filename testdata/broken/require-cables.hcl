# Requirements of cables that are of nothing.
run "Bench" {
  units = "mm"
}

fixed "frame" {
  points = { up = [100, 130], down = [100, -130], aft = [900, 130], low = [900, -130] }
}

part "lever" {
  pivot  = [0, 0]
  points = { up = [0, 60], down = [0, -60], mid = [0, 0] }
}

part "crank" {
  pivot = [1000, 0]
  arms  = { up = [0, 50], down = [0, -55], tip = [40, 0] }
}

cable "up" {
  from      = crank.up
  to        = lever.up
  conduit   = [frame.aft, frame.up]
  stiffness = 38
}

cable "down" {
  from      = crank.down
  to        = lever.down
  conduit   = [frame.low, frame.down]
  stiffness = 38
}

pair "lift" {
  cables     = [up, down]
  pretension = 120
}

require "taut" {
  of    = up
  least = 40
}

require "taut" {
  of    = [lift]
  least = -1
}

require "taut" {
}

require "meets" {
  of      = [lever.up, lever.up]
  within  = 0.5
  control = hand
}

require "meets" {
  of     = [lever.up, lever.down]
  within = -1
}

require "meets" {
  of     = [frame.up, frame.aft]
  within = 0.5
}

fixed "wall" {
  points = { hook = [500, 0] }
}

require "meets" {
  of     = [frame.up, wall.hook]
  within = 0.5
}

require "meets" {
  of     = [lever, crank.up]
  within = 0.5
}

require "meets" {
  of = lever.up
}

control "hand" {
  of = lever
}
