# Threads with more written than tells them.
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
    thread  = "1/4-28 UNF"
    engaged = 11
  }
  end "to" {
    thread  = "m6 x 1"
    engaged = 11
  }
}

rod "b" {
  from = lever.low
  to   = crank.low
  end "from" {
    thread  = "#10-32"
    engaged = 11
  }
  end "to" {
    thread  = "1/4-28 LH"
    engaged = 11
  }
}

control "hand" {
  of   = lever
  from = -40
  to   = 40
}
