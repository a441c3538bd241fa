# Ends that lack what they need.
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

rod "a" {
  from = lever.low
  to   = crank.low
  end "from" {
    hand = "left"
  }
  end "to" {
    thread = "M6x1"
  }
}

control "hand" {
  of   = lever
  from = -40
  to   = 40
}
