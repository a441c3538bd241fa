# Figures that no end has.
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
    engaged = 0
    least   = 0
    most    = -1
    step    = -1/2
    shank   = 0
  }
  end "to" {
    thread  = "M6x1"
    engaged = -2
    hand    = "up"
  }
}

rod "b" {
  from = lever.low
  to   = crank.low
  end "from" {
    thread = "M6x1"
    home   = -1
    most   = 19
  }
  end "to" {
    thread  = "M6x1"
    exposed = -1
    shank   = "long"
  }
}

control "hand" {
  of   = lever
  from = -40
  to   = 40
}
