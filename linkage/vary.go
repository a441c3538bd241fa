package linkage

// Vary is what a search may change: a number of the run, or a place of a part by all of
// its coordinates at once, among some values or within a range.
type Vary struct {
	Name string // free text; empty where it was asked for without
	Span Span
	// Of is what changes: a number's name, or "part.point".
	Of string
	// Numbers is the one number, or the two or three coordinates of the place.
	Numbers []Number
	// Place says that it is a place.
	Place bool
	// Among are the values to choose from, each with an entry for each of Numbers; nil: a
	// range.
	Among [][]float64
	// Low and High are the ends of the range, and Step what its values are apart from
	// Low on; 0: any value.
	Low, High, Step float64
}

// Filed are the values that the run has.
func (v *Vary) Filed() (list []float64) {
	for _, n := range v.Numbers {
		list = append(list, n.Value())
	}
	return list
}

// Title is what people call it: its name, or what it is of.
func (v *Vary) Title() string {
	if v.Name != "" {
		return v.Name
	}
	return v.Of
}
