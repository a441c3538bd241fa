// levelPart reads the phone's own level, in the template "measure-level", a dialog that a
// page holds once. It reads nothing before its user has pressed "Begin" there.
//
//   announce(words)   may be left out: the dialog has a live region of its own
//
// It returns
//
//   available()   this browser has the event; whether it tells anything shows on "Begin"
//   read(what)    a promise: of { is, within, says }, is and within as text in degrees
//                 anticlockwise from level ("90.5", "0.5"), says in a sentence; null: left.
//                 what: { from, to, view }, as { from: "A shaft", to: "C horn", view: "left" }
