# Ends that are all the way out, or further in than they are long.
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
    thread = "M6x1"
    home   = 15
    most   = 15
  }
  end "to" {
    thread  = "M6x1"
    exposed = 21
    shank   = 20
  }
}

rod "b" {
  from = lever.low
  to   = crank.low
  end "from" {
    thread  = "M6x1"
    engaged = 21
    shank   = 20
  }
  end "to" {
    thread = "M6x1"
    home   = 0
    most   = 21
    shank  = 20
  }
}

control "hand" {
  of   = lever
  from = -40
  to   = 40
}
