// Package elementary has the elementary functions that results are made of,
// each the same to its last bit on every processor.
//
// Those of the same name in the package math are not: the compiler fuses their
// products with the sums that follow where a processor can (arm64, amd64 from
// its third level), and math.Hypot, math.Exp and math.Log are written in
// assembly for some processors and in Go for others. Here every product is
// rounded by a conversion. On a processor that fuses nothing, Sincos, Atan2 and
// Hypot give bit for bit what math gives.
//
// Of the package math only what is exact, or rounded correctly by IEEE 754, may
// make a result: Abs, Sqrt, Floor, Round, Mod, Ldexp and the like. A test in
// cmd/fullfree reads the source for the rest.
package elementary
