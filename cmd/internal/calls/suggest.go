package calls

import (
	"fmt"
	"strings"

	"fullfree/linkage"
)

// MostListed is how many names are listed where none comes near.
const MostListed = 20

// DidYouMean returns what to say after a word that isn't known: the known
// word that comes nearest, or else all if they are few.
func DidYouMean(word string, known []string) string {
	if best := linkage.Nearest(word, known); best != "" {
		return fmt.Sprintf("; did you mean %q?", best)
	}
	if len(known) == 0 || len(known) > MostListed {
		return ""
	}
	return "; there is " + strings.Join(known, ", ")
}
