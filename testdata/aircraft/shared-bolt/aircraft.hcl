# Two runs on one crank: its bolt gives, and what that does on the first sheet and on the
# second is one thing. Only the first sheet says how much.
aircraft "Shared bolt" {
}
run "a" {
  file = "a.hcl"
}
run "b" {
  file = "b.hcl"
}
same-part "crank" {
  of    = [a.crank, b.bell]
  turns = "same"
}
require "free-play" "blade" {
  of   = b.blade
  most = 0.7
}
