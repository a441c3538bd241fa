package linkage

import (
	"math"
	"regexp"
	"strings"
)

// Direction words that change places in a mirror image, by the direction of the
// aircraft that the plane is square to.
var (
	sideWords = map[string]string{"left": "right", "right": "left"}
	foreWords = map[string]string{
		"forward": "aft", "forwards": "aft", "fwd": "aft",
		"aft": "forward", "back": "forward", "backward": "forward", "backwards": "forward", "rearward": "forward",
	}
	heightWords = map[string]string{"up": "down", "upward": "downward", "down": "up", "downward": "upward"}
)

// alongShare is the cosine from which a direction of the aircraft counts as square to
// the plane of symmetry: half of what lies between two coordinates.
const alongShare = 0.9

// lateralWords returns the direction words that change places. Where the run doesn't
// say how the aircraft lies, the plane is taken for the one that halves it.
func (r *reader) lateralWords() map[string]string {
	along := func(v *Vec) bool {
		return v != nil && r.symmetry >= 0 && math.Abs(*v.axis(r.symmetry)) >= alongShare
	}
	switch {
	case along(r.run.Forward):
		return foreWords
	case along(r.run.Up):
		return heightWords
	}
	return sideWords
}

var word = regexp.MustCompile(`\p{L}+`)

// changed returns a text with the direction words in it changed for their opposites,
// in the letters that they are written in.
func changed(text string, words map[string]string) string {
	return word.ReplaceAllStringFunc(text, func(w string) string {
		other := words[strings.ToLower(w)]
		switch {
		case other == "":
			return w
		case w == strings.ToUpper(w):
			return strings.ToUpper(other)
		case w[:1] == strings.ToUpper(w[:1]):
			return strings.ToUpper(other[:1]) + other[1:]
		}
		return other
	})
}

// quoted writes a text as it stands in a file.
func quoted(text string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`, "\r", `\r`, "\t", `\t`, "${", "$${", "%{", "%%{").Replace(text) + `"`
}
