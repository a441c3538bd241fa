# One of eight runs: aircraft.hcl tells how they are joined. Invented.

run "right-boom" {
  units   = "in"
  view    = "from the left side, nose to the left"
  forward = [-1, 0]
  up      = [0, 1]
}

part "crank-1" {
  pivot = [0, 0]
  arms = {
    in  = [0, 60/25.4]
    out = [0, 62/25.4]
  }
}
part "crank-2" {
  pivot = [180/25.4, -(10/25.4)]
  arms = {
    in  = [3.3/25.4, 60/25.4]
    out = [3.2/25.4, 58/25.4]
  }
}
part "crank-3" {
  pivot = [370/25.4, -(20/25.4)]
  arms = {
    in  = [2.2/25.4, 58/25.4]
    out = [4.4/25.4, 62/25.4]
  }
}
part "crank-4" {
  pivot = [540/25.4, -(30/25.4)]
  arms = {
    in  = [3.9/25.4, 61/25.4]
    out = [2.8/25.4, 60/25.4]
  }
}
part "crank-5" {
  pivot = [720/25.4, -(40/25.4)]
  arms = {
    in  = [2.8/25.4, 59/25.4]
    out = [-(2.1/25.4), 58/25.4]
  }
}

rod "rod-1" {
  from = crank-1.out
  to   = crank-2.in
  end "to" {
    thread  = "M6x1"
    engaged = 12/25.4
    least   = 9/25.4
    most    = 16/25.4
  }
}
rod "rod-2" {
  from = crank-2.out
  to   = crank-3.in
  end "to" {
    thread  = "M6x1"
    engaged = 12/25.4
    least   = 9/25.4
    most    = 16/25.4
  }
}
rod "rod-3" {
  from = crank-3.out
  to   = crank-4.in
  end "to" {
    thread  = "M6x1"
    engaged = 12/25.4
    least   = 9/25.4
    most    = 16/25.4
  }
}
rod "rod-4" {
  from = crank-4.out
  to   = crank-5.in
  end "to" {
    thread  = "M6x1"
    engaged = 12/25.4
    least   = 9/25.4
    most    = 16/25.4
  }
}

control "hand" {
  of   = crank-1
  from = -40
  to   = 40
  grip = crank-1.out
}

output "end" {
  of      = crank-5
  seen-at = crank-5.out
}

stop "low" {
  of = crank-5
  at = -27
}
stop "high" {
  of = crank-5
  at = 27
}

require "sense" {
  when = [crank-1.out, "forward"]
  then = [crank-5.out, "forward"]
}
require "over-center" { least = 10 }
require "rod-angle" { least = 45 }
require "engagement" {}
require "stops" {}
