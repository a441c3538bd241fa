package page

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"unicode/utf8"

	"fullfree/linkage"
	"fullfree/linkage/hunt"
	"fullfree/render/internal/sample"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func listingOf(text string) string {
	html, _ := listing([]byte(text))
	return `<pre class="listing">` + string(html) + "</pre>"
}

func TestListingKeepsEveryByte(t *testing.T) {
	for _, text := range []string{"", "\n", "\n\nrun", "a\r\nb\rc\n", "\r", "a\r\r\nb", "&amp; </pre> <b> \t 'x' \"y\" é …", "x = 1 # + =", "# ä ö, שלום עולם 12"} {
		html, unseen := listing([]byte(text))
		assert.Equal(t, text, listed(t, listingOf(text)), "%q", text)
		assert.NotContains(t, string(html), `class="code"`)
		assert.Empty(t, unseen)
	}
}

// What can't be seen, or turns the order of what is, stands as its code.
func TestListingShowsWhatCantBeSeen(t *testing.T) {
	for r, code := range map[rune]string{
		'\u202e': "U+202E", '\u2066': "U+2066", '\u200b': "U+200B", '\u00a0': "U+00A0", '\ufeff': "U+FEFF", '\x1b': "U+001B", '\x7f': "U+007F",
		'\u2028': "U+2028", '\u0085': "U+0085", '\v': "U+000B", '\f': "U+000C", '\u3164': "U+3164", '\ufe0f': "U+FE0F", '\U000e0041': "U+E0041", '\u00ad': "U+00AD",
	} {
		html, unseen := listing([]byte("at = 1" + string(r) + "2\n"))
		assert.Equal(t, "\nat = 1<span class=\"code\">"+code+"</span>2\n", string(html))
		assert.Contains(t, unseen, "there is 1 such character in the file")
	}
	html, unseen := listing([]byte("# \u202eא ב\u202c 1\r  at = 2\r\n"))
	assert.Equal(t, "\n# <span class=\"code\">U+202E</span><bdi>א ב</bdi><span class=\"code\">U+202C</span> 1&#13;<br>  at = 2&#13;\n", string(html))
	assert.Contains(t, unseen, "there are 2 such characters in the file")

	run := bookOf(t, "a.hcl", strings.Replace(sample.DemoText(t, "pedals"), "run \"", "# \u202e\nrun \"", 1))
	page := bookPage(t, run)
	assert.Contains(t, page, "<p>Characters that can&#39;t be seen")
	assert.NotContains(t, page, "\u202e")
}

// Whatever a file holds, the listing holds nothing that can't be seen, nothing
// beyond ASCII outside what is kept apart, and read back, codes and all, the file.
func TestHuntListing(t *testing.T) {
	odd := []rune("a1 .\n\r\t<&\"'\u202e\u2066\u2069\u200f\u200b\u2028\u0085\u00a0אבע١é螺\u0301\ufeff\x1b\u3164")
	hunt.Each(t, 3000, func(t *testing.T, random *rand.Rand) {
		var text, want strings.Builder
		for range random.IntN(40) {
			r := odd[random.IntN(len(odd))]
			text.WriteRune(r)
			if linkage.Visible(r) || strings.ContainsRune("\n\r\t", r) {
				want.WriteRune(r)
			} else {
				fmt.Fprintf(&want, "%U", r)
			}
		}
		html, _ := listing([]byte(text.String()))
		require.Equal(t, want.String(), listed(t, listingOf(text.String())))
		apart := false
		for rest := string(html); rest != ""; {
			switch {
			case strings.HasPrefix(rest, "<bdi>"):
				apart = true
			case strings.HasPrefix(rest, "</bdi>"):
				apart = false
			}
			r, size := utf8.DecodeRuneInString(rest)
			rest = rest[size:]
			require.True(t, linkage.Visible(r) || r == '\n' || r == '\t', "%U", r)
			require.True(t, apart || r < utf8.RuneSelf, "%U stands free", r)
		}
	})
}
