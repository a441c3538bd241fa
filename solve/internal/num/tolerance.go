package num

const (
	// Tie is the share by which two figures must differ to be told apart: so far they
	// may differ by rounding alone, and then the order in which they come decides.
	Tie = 1e-6
	// ChiSquare is the 95 % point of chi-square with one degree of freedom: the sum of
	// squares by which one explanation must be better to be called likelier than another
	// (the square of 1.96, the 97.5 % point of the normal distribution).
	ChiSquare = 3.84
)
