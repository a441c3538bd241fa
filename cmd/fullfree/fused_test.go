package main

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/constant"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestNoProductMayBeFused reads the source of everything that makes results,
// and refuses a product of floating-point numbers that stands where the
// compiler may carry it unrounded into a sum.
//
// The Go specification ("Floating-point operators") lets x*y + z be computed
// without rounding x*y, across statements too: `t := x*y; r := t + z` counts,
// and so does a function that returns x*y. Only an explicit conversion rounds.
// Where a processor has an instruction for it (arm64, amd64 from its third
// level), the last bit then differs from one that has none.
func TestNoProductMayBeFused(t *testing.T) {
	for _, p := range typedPackages(t) {
		for _, bare := range p.bareProducts() {
			t.Error(bare)
		}
	}
}

// exactOfMath are the functions of the package math that may make results: exact,
// or rounded correctly as IEEE 754 asks, or (Pow10) read from a table. The others
// differ in their last bit from processor to processor.
var exactOfMath = strings.Fields("Abs Ceil Copysign Float64bits Float64frombits Floor Frexp Ilogb Inf IsInf IsNaN Ldexp " +
	"Max Min Mod Modf NaN Nextafter Pow10 Remainder Round RoundToEven Signbit Sqrt Trunc")

// TestMathIsExact refuses the other functions of the package math.
func TestMathIsExact(t *testing.T) {
	for _, p := range typedPackages(t) {
		for _, file := range p.files {
			ast.Inspect(file, func(n ast.Node) bool {
				of, ok := n.(*ast.SelectorExpr)
				if ok && p.isOfMath(of) && p.info.Types[of].Value == nil && !slices.Contains(exactOfMath, of.Sel.Name) {
					at := p.fset.Position(of.Pos())
					t.Errorf("%s:%d: math.%s differs from processor to processor: see package elementary", at.Filename, at.Line, of.Sel.Name)
				}
				return true
			})
		}
	}
}

// TestBareProductsAreFound holds the check itself against a few lines of each
// kind, the specification's own examples among them.
func TestBareProductsAreFound(t *testing.T) {
	const source = `package p
import "math"
type vec struct{ x float64 }
func product(x, y float64) float64 { return x * y } // bare
func called(x float64) {}
func f(x, y, z float64, p *float64, i, j int) (r float64, v vec, b bool) {
	r = x*y + z                  // bare
	r = z; r += x * y            // bare
	r = z - (x * y)              // bare
	r = z + -(x * y)             // bare
	t := x * y                   // bare
	*p = x * y                   // bare
	x *= y                       // bare
	v = vec{x * y}               // bare
	called(x * y)                // bare
	r = 3 * x                    // bare
	r = 2 * (x * y)              // bare
	r = float64(x*y) + z
	r = z; r += float64(x * y)
	t = float64(x*y); r = t + z
	r = float64(x*y*z) + 1
	r = x*y/z + t
	r = math.Sqrt(x*y) + max(x*y, z)
	b = x*y < z || math.Abs(x*y) >= z
	r = 2*x + x/2 + 0.25*y
	r = math.Pi*180 + z
	i *= j
	r += float64(i*j + j)
	return
}`
	fset := token.NewFileSet()
	file, err := parser.ParseFile(fset, "p.go", source, parser.SkipObjectResolution)
	require.NoError(t, err)
	p := typedPackage{fset: fset, files: []*ast.File{file}}
	p.check(t, compiledImports(t, fset, "math"), "p")
	var found, meant []string
	for _, bare := range p.bareProducts() {
		found = append(found, strings.Split(bare, ":")[1])
	}
	for i, line := range strings.Split(source, "\n") {
		if strings.HasSuffix(line, "// bare") {
			meant = append(meant, fmt.Sprint(i+1))
		}
	}
	require.Equal(t, meant, found)
}

// typedPackage is the source of a package without its tests, with the type of
// every expression.
type typedPackage struct {
	fset  *token.FileSet
	files []*ast.File
	info  types.Info
}

// madeOf are the packages that results come out of.
var madeOf = []string{"./linkage/...", "./solve/...", "./render/...", "./cmd/fullfree"}

// typedPackages reads the source of what results come out of, once.
func typedPackages(t *testing.T) []typedPackage {
	t.Helper()
	readOnce.Do(func() { readPackages = readTyped(t) })
	return readPackages
}

var (
	readOnce     sync.Once
	readPackages []typedPackage
)

func readTyped(t *testing.T) []typedPackage {
	t.Helper()
	fset := token.NewFileSet()
	imports := compiledImports(t, fset, madeOf...)
	var all []typedPackage
	for _, line := range goList(t, append([]string{"-f", "{{.ImportPath}}\t{{.Dir}}\t{{range .GoFiles}}{{.}} {{end}}"}, madeOf...)...) {
		of := strings.Split(line, "\t")
		p := typedPackage{fset: fset}
		for _, name := range strings.Fields(of[2]) {
			file, err := parser.ParseFile(fset, filepath.Join(of[1], name), nil, parser.SkipObjectResolution)
			require.NoError(t, err)
			p.files = append(p.files, file)
		}
		p.check(t, imports, of[0])
		all = append(all, p)
	}
	return all
}

// compiledImports imports the packages and what they import, from what the
// build cache has of them.
func compiledImports(t *testing.T, fset *token.FileSet, packages ...string) types.Importer {
	t.Helper()
	exports := map[string]string{}
	for _, line := range goList(t, append([]string{"-export", "-deps", "-f", "{{.ImportPath}}\t{{.Export}}"}, packages...)...) {
		path, export, _ := strings.Cut(line, "\t")
		exports[path] = export
	}
	return importer.ForCompiler(fset, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) })
}

// goList returns the lines that "go list" writes in the module's folder.
func goList(t *testing.T, args ...string) []string {
	t.Helper()
	command := exec.Command("go", append([]string{"list"}, args...)...)
	command.Dir = filepath.Join("..", "..")
	var complaint bytes.Buffer
	command.Stderr = &complaint
	out, err := command.Output()
	require.NoError(t, err, complaint.String())
	return strings.Split(strings.TrimSpace(string(out)), "\n")
}

func (p *typedPackage) check(t *testing.T, imports types.Importer, path string) {
	t.Helper()
	p.info = types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Uses: map[*ast.Ident]types.Object{}}
	_, err := (&types.Config{Importer: imports}).Check(path, p.fset, p.files, &p.info)
	require.NoError(t, err)
}

// bareProducts says for each product that may be fused where it is and what to
// write.
func (p *typedPackage) bareProducts() []string {
	var bare []string
	for _, file := range p.files {
		var above []ast.Node // from the file down to what is looked at
		ast.Inspect(file, func(n ast.Node) bool {
			if n == nil {
				above = above[:len(above)-1]
				return true
			}
			if p.isProduct(n) && !p.isRounded(n, above) {
				at := p.fset.Position(n.Pos())
				bare = append(bare, fmt.Sprintf("%s:%d: a product that may be carried unrounded into a sum: write float64(x*y)", at.Filename, at.Line))
			}
			above = append(above, n)
			return true
		})
	}
	return bare
}

// isProduct reports whether n is a product of floating-point numbers that has
// to be rounded. By a constant power of two it is exact, rounded or not.
func (p *typedPackage) isProduct(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.BinaryExpr:
		return n.Op == token.MUL && p.isFloat(n) && p.info.Types[n].Value == nil &&
			!p.isPowerOfTwo(n.X) && !p.isPowerOfTwo(n.Y)
	case *ast.AssignStmt:
		return n.Tok == token.MUL_ASSIGN && p.isFloat(n.Lhs[0]) && !p.isPowerOfTwo(n.Rhs[0])
	}
	return false
}

// isRounded reports whether a product is rounded by what takes it.
func (p *typedPackage) isRounded(n ast.Node, above []ast.Node) bool {
	for i := len(above) - 1; i >= 0; i-- {
		switch by := above[i].(type) {
		case *ast.ParenExpr:
			continue
		case *ast.UnaryExpr:
			if by.Op == token.SUB || by.Op == token.ADD {
				continue // the sign of an unrounded product is fused as well
			}
			return false
		case *ast.BinaryExpr:
			switch by.Op {
			case token.MUL:
				// Twice a product is compiled as the product added to itself.
				return !p.isConstant(by.X, 2) && !p.isConstant(by.Y, 2)
			case token.QUO:
				return !p.isConstant(by.Y, 0.5)
			case token.EQL, token.NEQ, token.LSS, token.LEQ, token.GTR, token.GEQ:
				return true
			}
			return false
		case *ast.CallExpr:
			return p.rounds(by)
		}
		return false
	}
	return false
}

// rounds reports whether a call is a conversion, or to a function that takes
// its arguments rounded: those of the package math and min and max, which
// compare and take apart but add nothing to what they are given.
func (p *typedPackage) rounds(call *ast.CallExpr) bool {
	if p.info.Types[call.Fun].IsType() {
		return true
	}
	switch fun := call.Fun.(type) {
	case *ast.Ident:
		_, builtin := p.info.Uses[fun].(*types.Builtin)
		return builtin && (fun.Name == "min" || fun.Name == "max")
	case *ast.SelectorExpr:
		return p.isOfMath(fun)
	}
	return false
}

func (p *typedPackage) isOfMath(e *ast.SelectorExpr) bool {
	from, ok := e.X.(*ast.Ident)
	if !ok {
		return false
	}
	name, ok := p.info.Uses[from].(*types.PkgName)
	return ok && name.Imported().Path() == "math"
}

func (p *typedPackage) isFloat(e ast.Expr) bool {
	basic, ok := p.info.TypeOf(e).Underlying().(*types.Basic)
	return ok && basic.Info()&(types.IsFloat|types.IsComplex) != 0
}

func (p *typedPackage) isConstant(e ast.Expr, want float64) bool {
	value, ok := p.constant(e)
	return ok && math.Abs(value) == want
}

func (p *typedPackage) isPowerOfTwo(e ast.Expr) bool {
	value, ok := p.constant(e)
	fraction, _ := math.Frexp(math.Abs(value))
	return ok && fraction == 0.5
}

func (p *typedPackage) constant(e ast.Expr) (float64, bool) {
	value := p.info.Types[e].Value
	if value == nil {
		return 0, false
	}
	number, _ := constant.Float64Val(constant.ToFloat(value))
	return number, true
}
