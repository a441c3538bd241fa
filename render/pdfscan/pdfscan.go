// Package pdfscan reads back, for tests, what the program wrote as PDF: the pages,
// their sizes, and the text and lines on them. It knows as much of the format
// (ISO 32000-1) as those files use, and finds objects by their cross-reference
// table, as a viewer does.
package pdfscan

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf16"
)

// Page is a page of a file.
type Page struct {
	Wide, High float64 // points
	Content    string  // its operators
}

// File is a file that was read.
type File struct {
	Pages []Page
	Fonts []string // the programs of its fonts, whole
	Info  string   // what it tells of itself
}

var (
	number    = regexp.MustCompile(`^\d+`)
	reference = regexp.MustCompile(`(\d+) 0 R`)
	box       = regexp.MustCompile(`/MediaBox ?\[([\d.]+) ([\d.]+) ([\d.]+) ([\d.]+)\]`)
)

// Read reads a file.
func Read(data []byte) (*File, error) {
	if !bytes.HasPrefix(data, []byte("%PDF-1.")) || !bytes.HasSuffix(bytes.TrimSpace(data), []byte("%%EOF")) {
		return nil, fmt.Errorf("no PDF: it begins %.20q", data)
	}
	at := bytes.LastIndex(data, []byte("startxref"))
	fields := strings.Fields(string(data[at:]))
	start, err := strconv.Atoi(fields[1])
	if err != nil || start >= len(data) || !bytes.HasPrefix(data[start:], []byte("xref\n0 ")) {
		return nil, fmt.Errorf("no cross-reference table at %s", fields[1])
	}
	lines := strings.Split(string(data[start:at]), "\n")
	count, err := strconv.Atoi(strings.TrimPrefix(lines[1], "0 "))
	if err != nil {
		return nil, err
	}
	objects := make([]string, count)
	for i := 1; i < count; i++ {
		offset, err := strconv.Atoi(strings.Fields(lines[2+i])[0])
		if err != nil || offset >= len(data) {
			return nil, fmt.Errorf("object %d lies nowhere", i)
		}
		body, ok := strings.CutPrefix(string(data[offset:]), fmt.Sprintf("%d 0 obj\n", i))
		if !ok {
			return nil, fmt.Errorf("object %d isn't where the table says", i)
		}
		objects[i] = body
	}
	f := &File{}
	trailer := string(data[start:])
	if info := value(trailer, "/Info"); info > 0 {
		f.Info, _, _ = strings.Cut(objects[info], "endobj")
	}
	root, _, _ := strings.Cut(objects[value(trailer, "/Root")], "endobj")
	tree, _, _ := strings.Cut(objects[value(root, "/Pages")], "endobj")
	kids, _, _ := strings.Cut(tree[strings.Index(tree, "/Kids"):], "]")
	for _, kid := range reference.FindAllStringSubmatch(kids, -1) {
		n, _ := strconv.Atoi(kid[1])
		dict, _, _ := strings.Cut(objects[n], "endobj")
		size := box.FindStringSubmatch(dict)
		if size == nil {
			size = box.FindStringSubmatch(tree)
		}
		var p Page
		p.Wide, _ = strconv.ParseFloat(size[3], 64)
		p.High, _ = strconv.ParseFloat(size[4], 64)
		content, err := stream(objects[value(dict, "/Contents")], objects)
		if err != nil {
			return nil, err
		}
		p.Content = string(content)
		f.Pages = append(f.Pages, p)
	}
	for _, object := range objects {
		dict, _, _ := strings.Cut(object, "endobj")
		if n := value(dict, "/FontFile2"); n > 0 {
			font, err := stream(objects[n], objects)
			if err != nil {
				return nil, err
			}
			f.Fonts = append(f.Fonts, string(font))
		}
	}
	return f, nil
}

// value is the number of the object that a key of a dictionary refers to.
func value(dict, key string) int {
	_, rest, ok := strings.Cut(dict, key+" ")
	if !ok {
		return 0
	}
	n, _ := strconv.Atoi(number.FindString(rest))
	return n
}

// stream is what an object holds, unpacked.
func stream(object string, objects []string) ([]byte, error) {
	dict, rest, ok := strings.Cut(object, "stream\n")
	if !ok {
		return nil, fmt.Errorf("no stream")
	}
	data := rest[:value(dict, "/Length")]
	if !strings.HasPrefix(rest[len(data):], "\nendstream") {
		return nil, fmt.Errorf("a stream is longer or shorter than it says")
	}
	if !strings.Contains(dict, "/FlateDecode") {
		return []byte(data), nil
	}
	r, err := zlib.NewReader(strings.NewReader(data))
	if err != nil {
		return nil, err
	}
	return io.ReadAll(r)
}

// Texts are the lines of text on a page, in the order in which they were written, as
// whoever copies them gets them.
func (p Page) Texts() []string {
	var list []string
	content := dropped(p.Content)
	for {
		at := strings.Index(content, " Td (")
		if at < 0 {
			return list
		}
		content = content[at+len(" Td ("):]
		var units []byte
		i := 0
		for ; i < len(content) && content[i] != ')'; i++ {
			c := content[i]
			if c == '\\' && i+1 < len(content) {
				i++
				switch c = content[i]; c {
				case 'r':
					c = '\r'
				case 'n':
					c = '\n'
				}
			}
			units = append(units, c)
		}
		var text []uint16
		for k := 0; k+1 < len(units); k += 2 {
			text = append(text, uint16(units[k])<<8|uint16(units[k+1]))
		}
		list = append(list, string(utf16.Decode(text)))
		content = content[i:]
	}
}

// dropped is content without what is marked to be no text.
func dropped(content string) string {
	var b strings.Builder
	for {
		before, rest, ok := strings.Cut(content, "/Span <</ActualText ()>> BDC")
		b.WriteString(before)
		if !ok {
			return b.String()
		}
		_, content, _ = strings.Cut(rest, "EMC")
	}
}

// Text is all text of a page, a line each.
func (p Page) Text() string { return strings.Join(p.Texts(), "\n") }

var (
	fontSize = regexp.MustCompile(`/F\w+ ([\d.]+) Tf`)
	moveTo   = regexp.MustCompile(`([-\d.]+) ([-\d.]+) m ([-\d.]+) ([-\d.]+) l (?:h )?(?:S|B)`)
)

// Smallest is the smallest type on a page, in points.
func (p Page) Smallest() float64 {
	least := 0.0
	for _, m := range fontSize.FindAllStringSubmatch(p.Content, -1) {
		if v, err := strconv.ParseFloat(m[1], 64); err == nil && (least == 0 || v < least) {
			least = v
		}
	}
	return least
}

// Lines are the straight lines from one place to another: x, y, x, y in points.
func (p Page) Lines() [][4]float64 {
	var list [][4]float64
	for _, m := range moveTo.FindAllStringSubmatch(p.Content, -1) {
		var l [4]float64
		for i := range l {
			l[i], _ = strconv.ParseFloat(m[i+1], 64)
		}
		list = append(list, l)
	}
	return list
}
