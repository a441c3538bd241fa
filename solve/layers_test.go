package solve

import (
	"bytes"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// layers are those of the package's files, the lowest first.
var layers = []string{"values", "mechanism", "pose", "path", "compile", "events", "sweep", "gradient", "verdict", "questions"}

// firstComment is how each file says its layer.
var firstComment = regexp.MustCompile(`^// Layer: (\w+)\.\n\n`)

// TestLayers reads the source: no file may use a function, method, constant or variable
// that a file of a higher layer declares. Types may be named: what a mechanism is made of
// is declared beside what closes it.
func TestLayers(t *testing.T) {
	fset := token.NewFileSet()
	var files []*ast.File
	layer := map[string]int{}
	names, err := filepath.Glob("*.go")
	require.NoError(t, err)
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		file, err := parser.ParseFile(fset, name, text, parser.SkipObjectResolution)
		require.NoError(t, err)
		files = append(files, file)
		if name == "doc.go" {
			continue
		}
		says := firstComment.FindSubmatch(text)
		if !assert.NotNil(t, says, "%s doesn't begin with its layer, as in // Layer: pose.", name) {
			continue
		}
		layer[name] = -1
		for i, l := range layers {
			if l == string(says[1]) {
				layer[name] = i
			}
		}
		assert.GreaterOrEqual(t, layer[name], 0, "%s: there is no layer %s", name, says[1])
	}
	info := types.Info{Uses: map[*ast.Ident]types.Object{}}
	own, err := (&types.Config{Importer: exported(t, fset)}).Check("fullfree/solve", fset, files, &info)
	require.NoError(t, err)
	for use, of := range info.Uses {
		if of.Pkg() != own {
			continue
		}
		switch of := of.(type) {
		case *types.Func, *types.Const:
		case *types.Var:
			if of.IsField() {
				continue
			}
		default:
			continue
		}
		by, from := fset.Position(use.Pos()), fset.Position(of.Pos())
		assert.LessOrEqual(t, layer[from.Filename], layer[by.Filename],
			"%s:%d: a file of the layer %q uses %s, of the layer %q (%s)", by.Filename, by.Line, layers[layer[by.Filename]],
			of.Name(), layers[layer[from.Filename]], from.Filename)
	}
}

// exported imports what the package imports, from the build cache.
func exported(t *testing.T, fset *token.FileSet) types.Importer {
	t.Helper()
	list := exec.Command("go", "list", "-export", "-deps", "-f", "{{.ImportPath}}\t{{.Export}}", ".")
	var complaint bytes.Buffer
	list.Stderr = &complaint
	out, err := list.Output()
	require.NoError(t, err, complaint.String())
	exports := map[string]string{}
	for line := range strings.Lines(string(out)) {
		path, export, _ := strings.Cut(strings.TrimSpace(line), "\t")
		exports[path] = export
	}
	return importer.ForCompiler(fset, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) })
}
