package render

import (
	"fmt"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// FileOf is a file that something was made from.
type FileOf struct {
	Run  string // its run's name in the aircraft; empty of the aircraft file
	Name string // as its user named it
	Hash string // SHA-256, hexadecimal
}

// words tell a file by its name and how its hash begins.
func (f FileOf) words() string {
	if hash := figure.HashBegins(f.Hash); hash != "" {
		return figure.Clean(f.Name) + " " + hash
	}
	return figure.Clean(f.Name)
}

// OfAircraft tells on the sheet of one run what aircraft it is moved with, from which files
// that was made, and how the aircraft comes out as a whole: a run may hold in one that
// doesn't.
func OfAircraft(whole *solve.Result, member *linkage.Member, files []FileOf) string {
	var named []string
	for _, f := range files {
		named = append(named, f.words())
	}
	return fmt.Sprintf("Run %s of %s, moved as on the aircraft. Files, and how the SHA-256 of each begins: %s; void once any of them changes. The aircraft: %s",
		member.Name, figure.Clean(whole.Run.Name), figure.List(named), Headline(whole))
}
