package page

import (
	"bytes"
	"io"

	"fullfree/render"
	"fullfree/render/figure"
)

// Setting is what a page can try: turns of ends by their names, where stops are set, and
// what varies.
type Setting struct {
	Turns  map[string]float64 `json:"turns"`
	Stops  map[string]float64 `json:"stops"`
	Varies map[string]float64 `json:"varies"`
}

// passageJSON is a passage of a report.
type passageJSON struct {
	Deep    int        `json:"deep"`
	Words   string     `json:"words"`
	Head    []string   `json:"head"`    // of a table; null: a paragraph
	Numbers []bool     `json:"numbers"` // by column: it holds figures
	Rows    [][]string `json:"rows"`
}

// ToldJSON writes the answer to a question: a report, passage by passage, and the setting
// that it found; nil where it found none.
func ToldJSON(w io.Writer, hash string, report []render.Passage, found *Setting) error {
	list := []passageJSON{}
	for _, p := range report {
		told := passageJSON{Deep: p.Deep, Words: figure.Clean(p.Words)}
		if p.Head != nil {
			told.Head, told.Rows = cleanCells(p.Head), [][]string{}
			for i := range p.Head {
				told.Numbers = append(told.Numbers, p.Numbers(i))
			}
			for _, row := range p.Rows {
				told.Rows = append(told.Rows, cleanCells(row))
			}
		}
		list = append(list, told)
	}
	return writeCompact(w, struct {
		Hash  string        `json:"hash"`
		Told  []passageJSON `json:"told"`
		Found *Setting      `json:"found"`
	}{hash, list, found})
}

func cleanCells(cells []string) []string {
	list := make([]string, len(cells))
	for i, cell := range cells {
		list[i] = figure.Clean(cell)
	}
	return list
}

// ChartsJSON writes the charts of a travel.
func ChartsJSON(w io.Writer, hash, title string, charts [][]byte) error {
	list := []string{}
	for _, drawn := range charts {
		list = append(list, string(bytes.TrimSpace(drawn)))
	}
	return writeCompact(w, struct {
		Hash   string   `json:"hash"`
		Title  string   `json:"title"`
		Charts []string `json:"charts"`
	}{hash, figure.Clean(title), list})
}
