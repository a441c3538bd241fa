package calls

import (
	"bytes"
	"fmt"
	"maps"
	"path"
	"slices"

	"fullfree/linkage"
)

// Texts are files held in memory, by name: those of a page.
type Texts struct{ all map[string][]byte }

// NewTexts returns none yet.
func NewTexts() *Texts { return &Texts{map[string][]byte{}} }

// Put gives a name a text; nil takes it away.
func (t *Texts) Put(name string, text []byte) {
	if text == nil {
		delete(t.all, name)
		return
	}
	t.all[name] = slices.Clone(text)
}

// Read returns a text.
func (t *Texts) Read(name string) ([]byte, error) {
	if text, known := t.all[name]; known {
		return text, nil
	}
	return nil, fmt.Errorf("%s isn't here: open it too", linkage.Printable(name))
}

// Names lists what there is, in alphabetical order.
func (t *Texts) Names() []string { return slices.Sorted(maps.Keys(t.all)) }

// Beside opens what the file of an aircraft names: by that, or by the bare name, as files
// come out of their folders.
func (t *Texts) Beside(string) linkage.Opener {
	return func(name string) (*linkage.Source, error) {
		text, known := t.all[name]
		if !known {
			if text, known = t.all[path.Base(name)]; known {
				name = path.Base(name)
			}
		}
		if !known {
			return nil, fmt.Errorf("%s isn't here: open it too", linkage.Printable(name))
		}
		return &linkage.Source{Name: name, Text: text}, nil
	}
}

// Replace writes texts anew.
func (t *Texts) Replace(files []Rewritten) (lost []string, failed string, err error) {
	for _, f := range files {
		if !bytes.Equal(t.all[f.Path], f.Was) {
			return nil, f.Path, ErrChanged
		}
	}
	for _, f := range files {
		t.Put(f.Path, f.Text)
	}
	return nil, "", nil
}

var _ Files = (*Texts)(nil)
