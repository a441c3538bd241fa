# An aircraft without runs.

aircraft "Chain" {
  craft = "airplane"
}

require "rod-angle" { least = 40 }
