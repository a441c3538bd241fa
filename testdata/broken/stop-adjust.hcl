# Stops that can not be set like that.
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

control "hand" {
  of   = lever
  from = -40
  to   = 40
}

stop "beyond" {
  of     = lever
  at     = 24
  adjust = [25, 30]
}

stop "turned" {
  of     = lever
  at     = -24
  adjust = [-20, -30]
}

stop "still" {
  of     = lever
  at     = 24
  adjust = [24, 24]
}

stop "across" {
  of     = lever
  at     = 24
  adjust = [-5, 30]
}

stop "alone" {
  of   = lever
  at   = 24
  step = 1/2
}

stop "halted" {
  of     = lever
  at     = 24
  adjust = [20, 30]
  step   = 0
}

stop "one" {
  of     = lever
  at     = 24
  adjust = 30
}

stop "three" {
  of     = lever
  at     = 24
  adjust = [20, 24, 30]
}

stop "misspelled" {
  of     = lever
  at     = 24
  adjsut = [20, 30]
  step   = 1/2
}
