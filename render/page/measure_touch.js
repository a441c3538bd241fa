// touchSheet is a sheet on which places are put by touch, by mouse or by key: over a
// picture, or else on a grid in units of the run. It works in an element that holds the
// template "measure-touch" (which may stand in a page more than once):
//
//   box         that element
//   picture()   the ImageBitmap that lies under the sketch; null: a grid
//   units()     "mm" or "in", what the grid's numbers are in
//   places()    [{ name, letter, pivot, x, y }]: x and y are null until a place is put; else
//               numbers, over a picture in its pixels with y down, on a grid in the units
//               with y up. pivot: of the airframe. Left out, letters are A, B, C in order
//   lines()     [{ from, to, rod }], names of places joined by a line: a rod, or holes of
//               one part. May be left out
//   put(name, x, y)   takes up where a place was put: rounded to a pixel's tenth, or on the
//               grid to what a finger tells apart there; null, null: it was taken away
//   told(words) announces what was put where
//
// It returns
//
//   show()      draws anew: places, lines or the picture are others, or it came in sight
//   fit()       the same, with all of it in sight
//   choose(name), chosen()   the place that is put next
//   lens()      where in the window the magnifier is, { x, y, size }; null: nowhere
//   seen(x, y)  where in the window a place of the picture or the grid is, { x, y }
