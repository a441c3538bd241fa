package page

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"errors"
	"html/template"
	"io"
	"io/fs"
	"slices"
	"strings"

	"fullfree/render"
)

// OnePage is what the page is made of that is one file and works by itself: what a worker of
// the browser runs.
type OnePage struct {
	Program []byte    // compiled for js/wasm, compressed by gzip
	Support string    // the script of Go that runs it (wasm_exec.js)
	Files   []OneText // what it holds; the first is shown
}

// OneText is a file in it.
type OneText struct {
	Name string `json:"name"`
	Text string `json:"text"`
}

// onePageScripts are the scripts of the page in their order, before those of "No drawing"
// and the one that begins it.
var onePageScripts = []string{"browser.js", "motion.js", "workbench.js", "onepage_carrier.js", "onepage_store.js", "onepage_text.js", "onepage_save.js", "onepage_ask.js", "onepage_aircraft.js", "onepage_measure.js"}

// measureFiles are the files of the part "No drawing", which both pages have, that end in
// so. Its scripts are functions alone, so that their order is free.
func measureFiles(ends string) []string {
	names, err := fs.Glob(webFiles, "measure*"+ends)
	if err != nil {
		panic("render: " + err.Error()) // a fault of the program, never of a run
	}
	return names
}

// packedLine is how long a line of the packed program is: what shows a text line by line
// isn't stopped by it.
const packedLine = 1000

var onePageTemplate = webTemplate(append([]string{"onepage.html", "workbench.html"}, measureFiles(".html")...)...)

// WriteOnePage writes the page. Its policy lets it ask for nothing from any address, and
// run nothing but its own script, the program in it, and a worker made of the page.
func WriteOnePage(w io.Writer, of OnePage) error {
	files, err := json.Marshal(of.Files) // which leaves no < in it
	if err != nil {
		return err
	}
	worker := of.Support + "\n" + webText([]string{"onepage_worker.js"})
	if strings.Contains(strings.ToLower(worker), "</script") || strings.Contains(worker, "<!--") {
		return errors.New("the worker's script would end the page's")
	}
	p := newWebPage("fullfree", append([]string{"sheet.css", "workbench.css", "onepage.css"}, measureFiles(".css")...), slices.Concat(onePageScripts, measureFiles(".js"), []string{"onepage.js"}),
		[]string{"script-src 'wasm-unsafe-eval'", "connect-src 'none'", "worker-src blob:"})
	p.Content = struct {
		Worker, Files, Program template.JS
		Caution                string
	}{template.JS(worker), template.JS(files), template.JS(packed(of.Program)), render.Caution}
	return p.write(w, onePageTemplate)
}

// packed is bytes as text, in lines.
func packed(program []byte) string {
	text := base64.StdEncoding.EncodeToString(program)
	var b bytes.Buffer
	for len(text) > packedLine {
		b.WriteString(text[:packedLine])
		b.WriteByte('\n')
		text = text[packedLine:]
	}
	b.WriteString(text)
	return b.String()
}
