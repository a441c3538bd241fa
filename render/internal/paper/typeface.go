package paper

import (
	"strings"
	"sync"
	"unicode/utf8"

	"codeberg.org/go-fonts/liberation/liberationmonoregular"
	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"fullfree/render/figure"
)

// Face is a typeface that lies in a PDF.
type Face string

// The typefaces: those of which the widths of text were guessed (textwidth.go), so
// that what fits on a picture for a browser fits here; and one for listings.
const (
	Sans     Face = "sans"
	SansBold Face = "sans bold"
	Mono     Face = "mono"
)

// faces are all of them, in the order in which they lie in the file.
func faces(yield func(Face) bool) {
	for _, face := range []Face{Sans, SansBold, Mono} {
		if !yield(face) {
			return
		}
	}
}

func (f Face) family() string {
	family, _, _ := strings.Cut(string(f), " ")
	return family
}

func (f Face) style() string {
	if f == SansBold {
		return "B"
	}
	return ""
}

// data is the font as a file.
func (f Face) data() []byte {
	switch f {
	case SansBold:
		return liberationsansbold.TTF
	case Mono:
		return liberationmonoregular.TTF
	}
	return liberationsansregular.TTF
}

// typefaces tells what the fonts have, and how wide it is.
type typefaces struct {
	fonts map[Face]*sfnt.Font
	// latin are the advances of the first characters, which nearly every text is of, in
	// units of the font; 0: it has none.
	latin map[Face]*[latinMost]int
}

// latinMost is how many characters are looked up beforehand: ASCII and Latin-1.
const latinMost = 0x100

// readTypefaces reads the fonts once.
var readTypefaces = sync.OnceValue(func() *typefaces {
	t := &typefaces{map[Face]*sfnt.Font{}, map[Face]*[latinMost]int{}}
	for face := range faces {
		read, err := sfnt.Parse(face.data())
		if err != nil {
			panic("paper: no font: " + err.Error()) // a fault of the program, never of a run
		}
		t.fonts[face], t.latin[face] = read, &[latinMost]int{}
		for r := ' '; r < latinMost; r++ {
			if t.glyph(face, r) != 0 {
				t.latin[face][r] = t.advance(face, r)
			}
		}
	}
	return t
})

// unknownSign stands for what a font doesn't have.
const unknownSign = '?'

// glyph returns which glyph of a font shows a character; 0 for none.
func (t *typefaces) glyph(face Face, r rune) sfnt.GlyphIndex {
	var buf sfnt.Buffer
	if r > 0xFFFF { // the PDF's text is of characters of two bytes
		return 0
	}
	i, err := t.fonts[face].GlyphIndex(&buf, r)
	if err != nil {
		return 0
	}
	return i
}

// shown returns a text as a font can show it.
func (t *typefaces) shown(face Face, says string) string {
	return strings.Map(func(r rune) rune {
		if known := r >= 0 && r < latinMost && t.latin[face][r] > 0; !known && t.glyph(face, r) == 0 {
			return unknownSign
		}
		return r
	}, figure.Clean(says))
}

// width returns how wide a text is, in the unit of its size.
func (t *typefaces) width(face Face, says string, size float64) float64 {
	sum := 0
	for _, r := range says {
		if r >= 0 && r < latinMost {
			sum += t.latin[face][r]
		} else {
			sum += t.advance(face, r)
		}
	}
	return float64(float64(sum) / float64(t.fonts[face].UnitsPerEm()) * size)
}

// advance is how wide a character is, in units of the font.
func (t *typefaces) advance(face Face, r rune) int {
	var buf sfnt.Buffer
	read := t.fonts[face]
	// At a size of so many 64ths as an em has units, advances are whole units.
	wide, err := read.GlyphAdvance(&buf, t.glyph(face, r), fixed.Int26_6(read.UnitsPerEm()), font.HintingNone)
	if err != nil {
		return 0
	}
	return int(wide)
}

// WidthIn returns how wide a text is in a typeface.
func WidthIn(face Face, says string, size float64) float64 {
	t := readTypefaces()
	return t.width(face, t.shown(face, says), size)
}

// WrapIn breaks a text at spaces into lines no wider than width in a typeface; a word that
// is too long by itself goes on in the next line.
func WrapIn(face Face, says string, width, size float64) []string {
	var lines []string
	line := ""
	end := func() {
		if line != "" {
			lines = append(lines, line)
		}
		line = ""
	}
	for _, word := range strings.Fields(figure.Clean(says)) {
		longer := word
		if line != "" {
			longer = line + " " + word
		}
		if WidthIn(face, longer, size) <= width {
			line = longer
			continue
		}
		end()
		for WidthIn(face, word, size) > width {
			n := fitting(face, word, width, size)
			lines, word = append(lines, word[:n]), word[n:]
		}
		line = word
	}
	end()
	return lines
}

// fitting returns how many bytes of a word fit a width: a character at least.
func fitting(face Face, word string, width, size float64) int {
	n := 0
	for n < len(word) {
		_, next := utf8.DecodeRuneInString(word[n:])
		if n > 0 && WidthIn(face, word[:n+next], size) > width {
			break
		}
		n += next
	}
	return n
}
