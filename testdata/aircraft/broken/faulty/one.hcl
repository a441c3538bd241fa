run "One" { units = "cm" }
part "lever" { pivot = [0, 0] }
