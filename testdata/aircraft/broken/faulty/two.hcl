run "Two" { units = "mm" }
rod "link" {
  from = lever.horn
  to   = crank.in
}
