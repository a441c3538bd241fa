# Threads that there are none of.
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
    thread  = "1/4-82"
    engaged = 11
  }
  end "to" {
    thread  = "M7"
    engaged = 11
  }
}

rod "b" {
  from = lever.low
  to   = crank.low
  end "from" {
    thread  = "13-32"
    engaged = 11
  }
  end "to" {
    thread  = "M6x1.2"
    engaged = 11
  }
}

rod "c" {
  from = lever.low
  to   = crank.low
  end "from" {
    thread  = "1/3-28"
    engaged = 11
  }
  end "to" {
    thread  = "1-12"
    engaged = 11
  }
}

rod "d" {
  from = lever.low
  to   = crank.low
  end "from" {
    thread  = "quarter fine"
    engaged = 11
  }
  end "to" {
    thread  = ""
    engaged = 11
  }
}

control "hand" {
  of   = lever
  from = -40
  to   = 40
}
