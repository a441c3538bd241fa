package linkage

import (
	"bytes"
	"fmt"
)

// otherKinds are files that are easily taken for a run, by how they begin.
var otherKinds = []struct {
	begins string
	at     int // how many bytes on
	what   string
}{
	{"\x89PNG\r\n\x1a\n", 0, "a picture (PNG)"},
	{"\xff\xd8\xff", 0, "a picture (JPEG)"},
	{"GIF8", 0, "a picture (GIF)"},
	{"II*\x00", 0, "a picture (TIFF)"},
	{"MM\x00*", 0, "a picture (TIFF)"},
	{"WEBP", 8, "a picture (WebP)"},
	{"ftyphe", 4, "a picture (HEIC)"},
	{"ftypmif", 4, "a picture (HEIC)"},
	{"ftypavif", 4, "a picture (AVIF)"},
	{"BM", 0, "a picture (BMP)"},
	{"%PDF-", 0, "a document (PDF)"},
	{"%!PS", 0, "a document (PostScript)"},
	{"PK\x03\x04", 0, "an archive or an office document (ZIP)"},
	{"\xd0\xcf\x11\xe0", 0, "an office document"},
	{"\x1f\x8b", 0, "an archive (gzip)"},
	{"{\\rtf", 0, "a document (RTF)"},
	{"AC10", 0, "a drawing (DWG)"},
}

// otherFile says what a file is that is plainly no run, by how it begins; "" where that
// doesn't show. Pictures of this program's own are among those that are given in place of
// the run that they were drawn of.
func otherFile(text []byte) string {
	for _, k := range otherKinds {
		if len(text) < k.at || !bytes.HasPrefix(text[k.at:], []byte(k.begins)) {
			continue
		}
		// Two letters may begin a word: of a picture nothing follows that is text.
		if len(k.begins) > 2 || bytes.IndexByte(text[:min(len(text), 64)], 0) >= 0 {
			return k.what
		}
	}
	text = bytes.TrimLeft(bytes.TrimPrefix(text, []byte(byteOrderMark)), " \t\r\n")
	begins := bytes.ToLower(text[:min(len(text), 1024)])
	switch {
	case !bytes.HasPrefix(begins, []byte("<")):
	case bytes.Contains(begins, []byte("<svg")):
		return "a picture (SVG)"
	case bytes.Contains(begins, []byte("<html")), bytes.Contains(begins, []byte("<!doctype html")):
		return "a page (HTML)"
	case bytes.HasPrefix(begins, []byte("<?xml")), bytes.HasPrefix(begins, []byte("<!")):
		return "a document (XML)"
	}
	switch {
	case bytes.HasPrefix(begins, []byte(`{"`)), bytes.HasPrefix(begins, []byte("{\n")), bytes.HasPrefix(begins, []byte("{\r\n")),
		bytes.HasPrefix(begins, []byte("[{")):
		return "data for machines (JSON)"
	case bytes.HasPrefix(begins, []byte("0\nsection")), bytes.HasPrefix(begins, []byte("0\r\nsection")):
		return "a drawing (DXF)"
	}
	return ""
}

// tellOtherFile tells of a file that is no run but something else.
func (r *reader) tellOtherFile() bool {
	what := otherFile(r.src.Text)
	if what != "" {
		r.faults.Add(Span{}, "%s", fmt.Sprintf(`this is %s, not a run: a run is a text file that begins run "title" {, as fullfree new pedals writes one`, what))
	}
	return what != ""
}
