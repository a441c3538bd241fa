// Layer: values.

package solve

import (
	"fmt"
	"strings"

	"fullfree/linkage"
)

func partNames(parts []*linkage.Part) []string {
	names := make([]string, len(parts))
	for i, p := range parts {
		names[i] = p.Name
	}
	return names
}

// mostNames is how many names are listed before the rest is counted.
const mostNames = 8

// list joins names for a sentence: "a", "b" and "c".
func list(names []string) string {
	quoted := make([]string, 0, len(names))
	for i, n := range names {
		if i == mostNames && len(names) > mostNames+1 {
			quoted = append(quoted, fmt.Sprintf("%d more", len(names)-i))
			break
		}
		quoted = append(quoted, fmt.Sprintf("%q", n))
	}
	if len(quoted) == 1 {
		return quoted[0]
	}
	last := len(quoted) - 1
	return strings.Join(quoted[:last], ", ") + " and " + quoted[last]
}

// isAre is list with the verb that goes with it.
func isAre(names []string) string {
	if len(names) == 1 {
		return list(names) + " is"
	}
	return list(names) + " are"
}
