// photoPart is the photograph under the sketch, in the template "measure-photo", which a
// page holds once. The photo stays in the page.
//
//   ask(call, body)   as in a carrier: a promise of { ok, said }
//   state       what is to be kept of it, in an object of its own that this part fills:
//               { picks: [{ place, x, y, depth }], tapes: [{ from, to, is, within }],
//               levels: [{ from, to, is }], distance, photo: { name, bytes, width, height } or
//               null, keep }. Empty at first; where it is replaced, call restore(state)
//   places(), lines(), units()   as touchSheet asks for them, without x and y
//   datum()     the place that is [0, 0] in the run, "airframe.shaft"
//   view()      "left" and so on, for the level; may be left out
//   take(places, sketch, uncertain)   takes [{ place, x, y, within }] of the answer, as text
//   changed()   what is in state was changed by its user
//   announce(words)
//   level       what levelPart returns; may be left out
//
// It returns
//
//   restore(state)   a promise: takes up what was kept; the photo too, where that was asked
//   show()      places, lines or units are others, or it came in sight
//   close()     lets go of the photo, out of memory
//
// photoStore() keeps the photo in this browser, where that is asked: keep(file), load(),
// erase(), all promises that never fail; "Erase what is kept here" calls erase().
