package page

import (
	"bytes"
	"fmt"
	"html/template"
	"testing"

	"fullfree/demo"
	"fullfree/render"
	"fullfree/render/internal/sample"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The pages come out as the library's own templates write them, whatever is in a file.
func TestFillIsAsHTMLTemplate(t *testing.T) {
	library := template.New("").Funcs(template.FuncMap{
		"numbers": render.Passage.Numbers,
		"json":    func(v any) any { return v }, // it knows that it stands in JSON
	})
	library = template.Must(library.ParseFS(webFiles, "webpage.html", "book.html", "book_aircraft.html", "sheet.html"))
	texts := map[string]string{"hostile": fmt.Sprintf(sample.InchRun, `</section><script>alert(1)</script>+&\" onload=x`)}
	for _, kind := range append(demo.Kinds(), demo.More()...) {
		texts[kind] = sample.DemoText(t, kind)
	}
	for kind, text := range texts {
		b := toldOnce(t, bookOf(t, kind+".hcl", text))
		p := newWebPage(b.Title, []string{"sheet.css", "book.css"}, []string{"motion.js", "book.js"}, nil)
		p.Content = *b
		var ours, theirs bytes.Buffer
		require.NoError(t, p.write(&ours, bookTemplate))
		require.NoError(t, library.ExecuteTemplate(&theirs, "page", p))
		assert.True(t, bytes.Equal(theirs.Bytes(), ours.Bytes()), kind)
	}
}
