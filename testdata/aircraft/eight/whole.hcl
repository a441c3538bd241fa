# The eight runs of aircraft.hcl in one, in millimeters and from the left. Names begin
# with the run's. Invented.

run "Eight" {
  units   = "mm"
  view    = "from the left side, nose to the left"
  forward = [-1, 0]
  up      = [0, 1]
}

part "floor-crank-1" {
  pivot = [0, 0]
  arms = {
    in  = [-1, 58]
    out = [1, 58]
  }
}
part "floor-crank-2" {
  pivot = [190, 0]
  arms = {
    in  = [0.5, 61]
    out = [-0.5, 62]
  }
}
part "floor-crank-3" {
  pivot = [360, 0]
  arms = {
    in  = [-0.5, 59]
    out = [0.5, 60]
  }
}
part "floor-crank-4" {
  pivot = [540, 0]
  arms = {
    in  = [1, 62]
    out = [-1, 58]
  }
}
part "floor-crank-5" {
  pivot = [730, 0]
  arms = {
    in  = [0, 60]
    out = [0, 62]
  }
}
part "left-boom-crank-2" {
  pivot = [900, 10]
  arms = {
    in  = [-4.2, 58]
    out = [-2.3, 60]
  }
}
part "left-boom-crank-3" {
  pivot = [1080, 20]
  arms = {
    in  = [-2.9, 61]
    out = [-3.7, 58]
  }
}
part "left-boom-crank-4" {
  pivot = [1270, 30]
  arms = {
    in  = [-3.8, 59]
    out = [-2.9, 62]
  }
}
part "left-boom-crank-5" {
  pivot = [1440, 40]
  arms = {
    in  = [-2.4, 62]
    out = [1, 60]
  }
}
part "right-boom-crank-2" {
  pivot = [910, -10]
  arms = {
    in  = [3.3, 60]
    out = [3.2, 58]
  }
}
part "right-boom-crank-3" {
  pivot = [1100, -20]
  arms = {
    in  = [2.2, 58]
    out = [4.4, 62]
  }
}
part "right-boom-crank-4" {
  pivot = [1270, -30]
  arms = {
    in  = [3.9, 61]
    out = [2.8, 60]
  }
}
part "right-boom-crank-5" {
  pivot = [1450, -40]
  arms = {
    in  = [2.8, 59]
    out = [-2.1, 58]
  }
}
part "left-spar-crank-2" {
  pivot = [1630, 34]
  arms = {
    in  = [3.1, 62]
    out = [1.1, 62]
  }
}
part "left-spar-crank-3" {
  pivot = [1800, 28]
  arms = {
    in  = [2, 60]
    out = [2, 60]
  }
}
part "left-spar-crank-4" {
  pivot = [1980, 22]
  arms = {
    in  = [0.9, 58]
    out = [2.9, 58]
  }
}
part "left-spar-crank-5" {
  pivot = [2170, 16]
  arms = {
    in  = [2.5, 61]
    out = [-3.3, 62]
  }
}
part "right-spar-crank-2" {
  pivot = [1620, -32]
  arms = {
    in  = [-3.1, 59]
    out = [-2.2, 60]
  }
}
part "right-spar-crank-3" {
  pivot = [1800, -24]
  arms = {
    in  = [-1.8, 62]
    out = [-3.6, 58]
  }
}
part "right-spar-crank-4" {
  pivot = [1990, -16]
  arms = {
    in  = [-2.7, 60]
    out = [-2.8, 62]
  }
}
part "right-spar-crank-5" {
  pivot = [2160, -8]
  arms = {
    in  = [-3.6, 58]
    out = [4.3, 60]
  }
}
part "left-rib-crank-2" {
  pivot = [2350, 24]
  arms = {
    in  = [-2.2, 61]
    out = [-3.1, 58]
  }
}
part "left-rib-crank-3" {
  pivot = [2540, 32]
  arms = {
    in  = [-3.1, 59]
    out = [-2.3, 62]
  }
}
part "left-rib-crank-4" {
  pivot = [2710, 40]
  arms = {
    in  = [-1.8, 62]
    out = [-3.7, 60]
  }
}
part "left-rib-crank-5" {
  pivot = [2890, 48]
  arms = {
    in  = [-2.7, 60]
    out = [-1.3, 58]
  }
}
part "right-rib-crank-2" {
  pivot = [2350, -18]
  arms = {
    in  = [2.2, 58]
    out = [4.4, 62]
  }
}
part "right-rib-crank-3" {
  pivot = [2520, -28]
  arms = {
    in  = [3.9, 61]
    out = [2.8, 60]
  }
}
part "right-rib-crank-4" {
  pivot = [2700, -38]
  arms = {
    in  = [2.8, 59]
    out = [3.7, 58]
  }
}
part "right-rib-crank-5" {
  pivot = [2890, -48]
  arms = {
    in  = [4.4, 62]
    out = [-1, 62]
  }
}
part "left-tip-crank-2" {
  pivot = [3060, 52]
  arms = {
    in  = [-1.3, 60]
    out = [-1.3, 60]
  }
}
part "left-tip-crank-3" {
  pivot = [3240, 56]
  arms = {
    in  = [-2.3, 58]
    out = [-0.3, 58]
  }
}
part "left-tip-crank-4" {
  pivot = [3430, 60]
  arms = {
    in  = [-0.9, 61]
    out = [-1.9, 62]
  }
}
part "left-tip-crank-5" {
  pivot = [3600, 64]
  arms = {
    in  = [-1.8, 59]
    out = [0.5, 60]
  }
}
rod "floor-rod-1" {
  from = floor-crank-1.out
  to   = floor-crank-2.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "floor-rod-2" {
  from = floor-crank-2.out
  to   = floor-crank-3.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "floor-rod-3" {
  from = floor-crank-3.out
  to   = floor-crank-4.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "floor-rod-4" {
  from = floor-crank-4.out
  to   = floor-crank-5.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "left-boom-rod-1" {
  from = floor-crank-5.out
  to   = left-boom-crank-2.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "left-boom-rod-2" {
  from = left-boom-crank-2.out
  to   = left-boom-crank-3.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "left-boom-rod-3" {
  from = left-boom-crank-3.out
  to   = left-boom-crank-4.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "left-boom-rod-4" {
  from = left-boom-crank-4.out
  to   = left-boom-crank-5.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "right-boom-rod-1" {
  from = floor-crank-5.out
  to   = right-boom-crank-2.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "right-boom-rod-2" {
  from = right-boom-crank-2.out
  to   = right-boom-crank-3.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "right-boom-rod-3" {
  from = right-boom-crank-3.out
  to   = right-boom-crank-4.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "right-boom-rod-4" {
  from = right-boom-crank-4.out
  to   = right-boom-crank-5.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "left-spar-rod-1" {
  from = left-boom-crank-5.out
  to   = left-spar-crank-2.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "left-spar-rod-2" {
  from = left-spar-crank-2.out
  to   = left-spar-crank-3.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "left-spar-rod-3" {
  from = left-spar-crank-3.out
  to   = left-spar-crank-4.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "left-spar-rod-4" {
  from = left-spar-crank-4.out
  to   = left-spar-crank-5.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "right-spar-rod-1" {
  from = right-boom-crank-5.out
  to   = right-spar-crank-2.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "right-spar-rod-2" {
  from = right-spar-crank-2.out
  to   = right-spar-crank-3.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "right-spar-rod-3" {
  from = right-spar-crank-3.out
  to   = right-spar-crank-4.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "right-spar-rod-4" {
  from = right-spar-crank-4.out
  to   = right-spar-crank-5.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "left-rib-rod-1" {
  from = left-spar-crank-5.out
  to   = left-rib-crank-2.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "left-rib-rod-2" {
  from = left-rib-crank-2.out
  to   = left-rib-crank-3.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "left-rib-rod-3" {
  from = left-rib-crank-3.out
  to   = left-rib-crank-4.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "left-rib-rod-4" {
  from = left-rib-crank-4.out
  to   = left-rib-crank-5.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "right-rib-rod-1" {
  from = right-spar-crank-5.out
  to   = right-rib-crank-2.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "right-rib-rod-2" {
  from = right-rib-crank-2.out
  to   = right-rib-crank-3.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "right-rib-rod-3" {
  from = right-rib-crank-3.out
  to   = right-rib-crank-4.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "right-rib-rod-4" {
  from = right-rib-crank-4.out
  to   = right-rib-crank-5.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "left-tip-rod-1" {
  from = left-rib-crank-5.out
  to   = left-tip-crank-2.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "left-tip-rod-2" {
  from = left-tip-crank-2.out
  to   = left-tip-crank-3.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "left-tip-rod-3" {
  from = left-tip-crank-3.out
  to   = left-tip-crank-4.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}
rod "left-tip-rod-4" {
  from = left-tip-crank-4.out
  to   = left-tip-crank-5.in
  end "to" {
    thread  = "M6x1"
    engaged = 12
    least   = 9
    most    = 16
  }
}

control "floor-hand" {
  of   = floor-crank-1
  from = -40
  to   = 40
  grip = floor-crank-1.out
}

output "floor-end" {
  of      = floor-crank-5
  seen-at = floor-crank-5.out
}
stop "floor-low" {
  of = floor-crank-1
  at = -18
}
stop "floor-high" {
  of = floor-crank-1
  at = 18
}

output "left-boom-end" {
  of      = left-boom-crank-5
  seen-at = left-boom-crank-5.out
}
stop "left-boom-low" {
  of = left-boom-crank-5
  at = 27
}
stop "left-boom-high" {
  of = left-boom-crank-5
  at = -27
}

output "right-boom-end" {
  of      = right-boom-crank-5
  seen-at = right-boom-crank-5.out
}
stop "right-boom-low" {
  of = right-boom-crank-5
  at = -27
}
stop "right-boom-high" {
  of = right-boom-crank-5
  at = 27
}

output "left-spar-end" {
  of      = left-spar-crank-5
  seen-at = left-spar-crank-5.out
}
stop "left-spar-low" {
  of = left-spar-crank-5
  at = 27
}
stop "left-spar-high" {
  of = left-spar-crank-5
  at = -27
}

output "right-spar-end" {
  of      = right-spar-crank-5
  seen-at = right-spar-crank-5.out
}
stop "right-spar-low" {
  of = right-spar-crank-5
  at = -27
}
stop "right-spar-high" {
  of = right-spar-crank-5
  at = 27
}

output "left-rib-end" {
  of      = left-rib-crank-5
  seen-at = left-rib-crank-5.out
}
stop "left-rib-low" {
  of = left-rib-crank-5
  at = -27
}
stop "left-rib-high" {
  of = left-rib-crank-5
  at = 27
}

output "right-rib-end" {
  of      = right-rib-crank-5
  seen-at = right-rib-crank-5.out
}
stop "right-rib-low" {
  of = right-rib-crank-5
  at = 27
}
stop "right-rib-high" {
  of = right-rib-crank-5
  at = -27
}

output "left-tip-end" {
  of      = left-tip-crank-5
  seen-at = left-tip-crank-5.out
}
stop "left-tip-low" {
  of = left-tip-crank-5
  at = 27
}
stop "left-tip-high" {
  of = left-tip-crank-5
  at = -27
}

require "sense" "floor" {
  when = [floor-crank-1.out, "forward"]
  then = [floor-crank-5.out, "forward"]
}

require "sense" "left-boom" {
  when = [floor-crank-5.out, "forward"]
  then = [left-boom-crank-5.out, "forward"]
}

require "sense" "right-boom" {
  when = [floor-crank-5.out, "forward"]
  then = [right-boom-crank-5.out, "forward"]
}

require "sense" "left-spar" {
  when = [left-boom-crank-5.out, "forward"]
  then = [left-spar-crank-5.out, "forward"]
}

require "sense" "right-spar" {
  when = [right-boom-crank-5.out, "forward"]
  then = [right-spar-crank-5.out, "forward"]
}

require "sense" "left-rib" {
  when = [left-spar-crank-5.out, "forward"]
  then = [left-rib-crank-5.out, "forward"]
}

require "sense" "right-rib" {
  when = [right-spar-crank-5.out, "forward"]
  then = [right-rib-crank-5.out, "forward"]
}

require "sense" "left-tip" {
  when = [left-rib-crank-5.out, "forward"]
  then = [left-tip-crank-5.out, "forward"]
}

require "sense" "hand to left tip" {
  when = [floor-crank-1.out, "forward"]
  then = [left-tip-crank-5.out, "forward"]
}
require "sense" "hand to right rib" {
  when = [floor-crank-1.out, "forward"]
  then = [right-rib-crank-5.out, "forward"]
}
require "travel" "left tip" {
  of     = left-tip-end
  low    = -17
  high   = 17
  within = 0.5
}
require "travel" "right rib" {
  of     = right-rib-end
  low    = -17.6
  high   = 17.6
  within = 0.5
}
require "order" "the hand's stop first" {
  first = floor-high
  then  = left-tip-low
  least = 1
}
require "over-center" { least = 10 }
require "rod-angle" { least = 45 }
require "engagement" {}
require "stops" {}
