# Ends on no side, and twice on one.
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
    thread  = "M6x1"
    engaged = 11
  }
  end "from" {
    thread  = "M6x1"
    engaged = 11
  }
}

rod "b" {
  from = lever.low
  to   = crank.low
  end "middle" {
    thread  = "M6x1"
    engaged = 11
  }
  end {
    thread  = "M6x1"
    engaged = 11
  }
  end "to" "far" {
    thread  = "M6x1"
    engaged = 11
  }
}

control "hand" {
  of   = lever
  from = -40
  to   = 40
}
