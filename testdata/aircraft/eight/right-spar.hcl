# One of eight runs: aircraft.hcl tells how they are joined. Invented.

run "right-spar" {
  units   = "mm"
  view    = "from the left side, nose to the left"
  forward = [-1, 0]
  up      = [0, 1]
}

part "crank-1" {
  pivot = [0, 0]
  arms = {
    in  = [2.8, 59]
    out = [-2.1, 58]
  }
}
part "crank-2" {
  pivot = [170, 8]
  arms = {
    in  = [-3.1, 59]
    out = [-2.2, 60]
  }
}
part "crank-3" {
  pivot = [350, 16]
  arms = {
    in  = [-1.8, 62]
    out = [-3.6, 58]
  }
}
part "crank-4" {
  pivot = [540, 24]
  arms = {
    in  = [-2.7, 60]
    out = [-2.8, 62]
  }
}
part "crank-5" {
  pivot = [710, 32]
  arms = {
    in  = [-3.6, 58]
    out = [4.3, 60]
  }
}

rod "rod-1" {
  from = crank-1.out
  to   = crank-2.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "rod-2" {
  from = crank-2.out
  to   = crank-3.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "rod-3" {
  from = crank-3.out
  to   = crank-4.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "rod-4" {
  from = crank-4.out
  to   = crank-5.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
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
