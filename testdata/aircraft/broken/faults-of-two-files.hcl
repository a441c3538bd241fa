# What is wrong in several runs is told at once, each with its file.
aircraft "Chain" {}
run "one" { file = "faulty/one.hcl" }
run "two" { file = "faulty/two.hcl" }
