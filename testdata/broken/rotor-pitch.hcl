run "Pitch" {
  units   = "mm"
  forward = [-1, 0]
  up      = [0, 1]
}
fixed "airframe" {
  points = { a = [-50, -100] }
}
part "lever" {
  pivot = [100, 0]
  arms  = { eye = [0, 50] }
}
part "slider" {
  slide  = [0, 1]
  points = { eye = [0, 20], edge = [20, 20] }
}
part "blade" {
  pivot = [0, 100]
  axis  = [1, 0, 0]
  arms  = { horn = [0, 0, -40], axis = [50, 0], above = [0, 20], le = [100, 0, -30] }
}
rod "link" {
  from = lever.eye
  to   = slider.eye
}
rod "pitch-link" {
  from = slider.edge
  to   = blade.horn
}
control "hand" {
  of   = lever
  from = -10
  to   = 10
}
output "pitch" {
  of           = blade
  leading-edge = blade.axis
}
output "above" {
  of           = blade
  leading-edge = blade.above
}
output "other" {
  of           = blade
  leading-edge = slider.edge
}
output "height" {
  of           = slider
  leading-edge = slider.edge
}
output "point" {
  of           = slider.eye
  along        = [0, 1]
  leading-edge = slider.edge
}
output "whole" {
  of           = blade
  leading-edge = blade
}
require "collective-pitch" "of what" {
}
require "collective-pitch" "part" {
  of     = blade
  low    = 0
  high   = 10
  within = 1
}
require "cyclic-pitch" "travel" {
  of   = height
  most = 8
}
require "cyclic-pitch" "both" {
  of     = pitch
  low    = 7
  high   = 9
  within = 1
  most   = -8
}
require "collective-pitch" "turned" {
  of     = pitch
  low    = 10
  high   = 0
  within = -1
}
