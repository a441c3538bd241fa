# Points that a cable can not be held at.
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

rod "strut" {
  from   = lever.up
  to     = crank.up
  points = { bracket = [300, 20] }
}

cable "on-rod" {
  from    = strut.bracket
  to      = crank.up
  conduit = [frame.up, strut.bracket]
  spring  = "plus"
}

cable "unknown" {
  from    = lever.upp
  to      = krank.up
  conduit = [frame.up, frame.aft.x]
  spring  = "plus"
}

cable "whole" {
  from    = lever.up
  to      = crank.up
  conduit = [frame, hand]
  spring  = "plus"
}

cable "hinge" {
  from    = lever.pivot
  to      = crank.up
  conduit = [frame.up, frame.aft]
  spring  = "plus"
}

control "hand" {
  of = lever
}
