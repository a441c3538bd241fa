# Saved in an old encoding.
run "Gestaenge für Pedale" {
  units = "mm"
}
