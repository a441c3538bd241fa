// Package num is the arithmetic under package solve that knows no linkage: systems of
// linear equations, least squares, eigenvalues, roots of functions, limits of rows of
// numbers, and the matching of equations with unknowns.
//
// Figures have no unit here: what comes out has the units of what went in. Shapes are
// the caller's to keep; where they don't fit, a slice's own bounds panic. NaN comes out
// where it went in.
//
// What check tells comes out of this arithmetic, so it is plain loops with every product
// rounded, which give the same bits on every processor; a general library's are not,
// being assembly on some processors and fused on others. Each is checked against
// gonum's. NullSpace alone is gonum's own: it decides with a tolerance, or feeds figures
// that needn't agree to the last bit.
//
// What it never does: anything about parts, rods or runs.
package num
