package linkage

import "slices"

// Words lists every word that a file may write as the kind of a block, the kind of a
// requirement or an attribute, in alphabetical order.
func Words() []string {
	words := slices.Concat(topKinds, aircraftKinds)
	for _, kind := range blockKinds {
		words = slices.Concat(words, kind.attributes, kind.blocks)
	}
	for _, kind := range requireKinds {
		words = append(append(words, string(kind)), requireAttributes[kind]...)
	}
	slices.Sort(words)
	return slices.Compact(words)
}
