# Brackwren, kit 2, two-seat light helicopter; aircraft and figures are invented.
# Sheet 60, changed: all controls, from the hand to the blade, after one rod end was turned.
#
# It is aircraft.hcl but for the file of its pedals: there the right seat's right pedal
# was set half a degree back, by half a turn of its rod end. Nothing falls short of it and
# the tail's blade doesn't move by a hair.
#
# Look at: "fullfree recheck aircraft.hcl changed.hcl". It voids more than one rod and a
# pedal: the control is one from both seats to the blade, so free play, full and free, the
# sense and the second person's signature are to be done again at the tail too, where none
# of the changed metal is. The figures that were rigged there may stand.
#
# Each sheet is a run by itself, and is rigged by itself. Here they are joined: where
# a crank stands on two sheets, it is one piece of metal, and what the first sheet gives
# is all that the second gets.
#
#   pedals (61) ------ rocker = crank ------------------- tail-run (62): tail blade
#   cyclic (63) ------ pitch-crank = pitch-arm ---------- mixing (64): swashplate
#                      roll-crank = roll-arm ------------ mixing
#   collective (65) -- collective-arm = collective-arm -- mixing
#   mixing ----------- collar, gimbal, swashplate ------- head (66): blades
#
# Look at: what ends each control's travel, and in which run. Alone, the tail run goes
# to its own stops; on the aircraft the pedals' screws must come first, by a degree of
# pedal, or a foot can stand on the tail's stops with the whole run in between.

aircraft "Brackwren, kit 2" {
  craft = "rotorcraft"
}

run "pedals" {
  file = "changed-pedals.hcl"   # all that differs from aircraft.hcl
}
run "tail" {
  file = "tail-run.hcl"         # in inches, from the other side
}
run "cyclic" {
  file = "cyclic.hcl"
}
run "collective" {
  file = "collective.hcl"
}
run "mixing" {
  file = "mixing.hcl"
}
run "head" {
  file = "head.hcl"
}

# One piece of metal on two sheets: first what drives it, then what it is a control of.
same-part "tail arm" {
  of    = [pedals.rocker, tail.crank]
  turns = "opposite"            # seen from the left, and from the right
}
same-part "pitch crank" {
  of    = [cyclic.pitch-crank, mixing.pitch-arm]
  turns = "opposite"
}
same-part "roll crank" {
  of    = [cyclic.roll-crank, mixing.roll-arm]
  turns = "same"                # both are told about an arrow that points aft
}
same-part "collective arm" {
  of = [collective.collective-arm, mixing.collective-arm]   # both from the right
}
same-part "collar" {
  of = [mixing.collar, head.collar]
}
same-part "gimbal" {
  of = [mixing.gimbal, head.gimbal]           # rides on the collar, on both sheets
}
same-part "swashplate" {
  of = [mixing.swashplate, head.swashplate]
}

# Sense, from each seat to the end: as the maker of the kit wants it.
require "sense" "left seat, left pedal: horn of the tail blade left" {
  when = [pedals.left-pedal.foot, "forward"]
  then = [tail.blade.horn, "left"]
}
require "sense" "right seat, left pedal: horn of the tail blade left" {
  when = [pedals.far-left-pedal.foot, "forward"]
  then = [tail.blade.horn, "left"]
}
require "sense" "stick forward, front of the swashplate down" {
  when    = [cyclic.left-stick.grip, "forward"]
  then    = [mixing.gimbal.fore, "down"]
  control = cyclic.pitch
}
require "sense" "right stick left, left of the swashplate down" {
  when    = [cyclic.right-stick.grip, "left"]
  then    = [mixing.swashplate.left, "down"]
  control = cyclic.roll
}
require "sense" "lever up, swashplate up" {
  when    = [collective.lever.hand, "up"]
  then    = [mixing.collar.center, "up"]
  control = collective.collective
}
require "sense" "lever up, leading edge of the main blade up" {
  when    = [collective.lever.hand, "up"]
  then    = [head.blade-a.le, "up"]
  control = collective.collective
}

# What the hand is left of the blade's travel.
require "travel" "tail pitch, from the pedals" {
  of      = tail.pitch
  low     = -19.7
  high    = 31.8
  within  = 0.5
  control = pedals.pedals
}
require "travel" "height of the swashplate, from the lever" {
  of      = mixing.height
  low     = 41.8
  high    = 86.1
  within  = 0.5
  control = collective.collective
}
require "collective-pitch" "main blade, from the lever" {
  of      = head.pitch-a
  low     = -1.5
  high    = 11.5
  within  = 1
  control = collective.collective
}
require "cyclic-pitch" "main blade, sticks to both ends at once" {
  of     = head.pitch-a
  low    = 0
  high   = 9.5
  within = 1
}

# Over which side the stick takes the pitch off, by the designer's data, with the lever and
# the other way of the stick anywhere: the mixing turns it by no more than this.
require "cyclic-sense" "stick forward" {
  of         = head.pitch-a
  when       = [cyclic.left-stick.grip, "forward"]
  least-over = "right"
  within     = 10
  control    = cyclic.pitch
}
require "cyclic-sense" "stick forward, blade b" {
  of         = head.pitch-b
  when       = [cyclic.left-stick.grip, "forward"]
  least-over = "right"
  within     = 10
  control    = cyclic.pitch
}
require "cyclic-sense" "stick right" {
  of         = head.pitch-a
  when       = [cyclic.left-stick.grip, "right"]
  least-over = "tail"
  within     = 10
  control    = cyclic.roll
}
require "cyclic-sense" "stick right, blade b" {
  of         = head.pitch-b
  when       = [cyclic.left-stick.grip, "right"]
  least-over = "tail"
  within     = 10
  control    = cyclic.roll
}

# The stops at the hand come first.
require "order" "left pedal, then the tail" {
  first = pedals.left-stop
  then  = tail.full-left
  least = 1
}
require "order" "right pedal, then the tail" {
  first = pedals.right-stop
  then  = tail.full-right
  least = 1
}
require "order" "stick forward, then the pitch crank" {
  first   = cyclic.forward
  then    = mixing.pitch-aft
  least   = 0.5
  control = cyclic.pitch
}
require "order" "stick aft, then the pitch crank" {
  first   = cyclic.aft
  then    = mixing.pitch-fore
  least   = 0.5
  control = cyclic.pitch
}
require "order" "stick left, then the roll crank" {
  first   = cyclic.left
  then    = mixing.roll-up
  least   = 0.5
  control = cyclic.roll
}
require "order" "stick right, then the roll crank" {
  first   = cyclic.right
  then    = mixing.roll-down
  least   = 0.5
  control = cyclic.roll
}
require "order" "lever up, then the arm" {
  first   = collective.lever-up
  then    = mixing.arm-up
  least   = 0.5
  control = collective.collective
}
require "order" "lever down, then the arm" {
  first   = collective.lever-down
  then    = mixing.arm-down
  least   = 0.5
  control = collective.collective
}

# What each control is to leave alone, all the way out.
require "steady" "nose, while the lever moves" {
  of      = mixing.nose-tilt
  within  = 1
  control = collective.collective
}
require "steady" "height, while the sticks go fore and aft" {
  of      = mixing.height
  within  = 0.1
  control = cyclic.pitch
}
require "steady" "side, while the sticks go fore and aft" {
  of      = mixing.side-tilt
  within  = 1
  control = cyclic.pitch
}
require "steady" "throttle, while the lever moves" {
  of      = collective.butterfly
  within  = 0.1
  control = collective.collective
}

require "over-center" "pedals to tail" {
  least   = 10
  control = pedals.pedals
}
require "over-center" "roll" {
  least   = 10
  control = cyclic.roll
}
require "over-center" "collective" {
  least   = 10
  control = collective.collective
}
require "rod-angle" { least = 45 }
require "stops" {}
