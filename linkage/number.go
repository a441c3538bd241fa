package linkage

import (
	"math"
	"math/big"
	"regexp"
	"strconv"

	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"
)

// MaxSize is the largest size of any number of a run, in its unit or in
// degrees. Sums of squares of such numbers are far from overflowing.
const MaxSize = 1e6

// sizeLimit is MaxSize in words.
const sizeLimit = "1 000 000"

// numberBits is the precision that arithmetic in a file is done with, rounded
// once to a float64 at its end: 0.1 + 0.2 is 0.3, and 7 + 1/4 is exact.
const numberBits = 512

// number returns what an expression comes to: arithmetic on numbers
// and named dimensions.
func (r *reader) number(e hclsyntax.Expression) (float64, bool) {
	sum, ok := r.evaluate(e, 0)
	if !ok {
		return 0, false
	}
	value, _ := sum.Float64()
	if math.Abs(value) > MaxSize || math.IsNaN(value) {
		r.faults.Add(spanOf(e.Range()), "%s is too large: sizes go to %s", besideLimit(sum), sizeLimit)
		return 0, false
	}
	return value + 0, true // -0 becomes 0
}

// besideLimit writes a number larger than MaxSize, with as many digits as tell
// it from that: 2e+06, but 1000000.001.
func besideLimit(x *big.Float) string {
	const fewest = 4
	size, limit := new(big.Float).Abs(x), big.NewFloat(MaxSize)
	digits := fewest
	for size.Text('g', digits) == limit.Text('g', digits) {
		digits++
	}
	return x.Text('g', digits)
}

// evaluate does an expression's arithmetic. It descends about maxTerms deep at
// most, which is how deep a sum of so many terms is nested; brackets and signs
// are limited by the guard.
func (r *reader) evaluate(e hclsyntax.Expression, depth int) (*big.Float, bool) {
	switch e := e.(type) {
	case *hclsyntax.ParenthesesExpr:
		return r.evaluate(e.Expression, depth+1)
	case *hclsyntax.LiteralValueExpr:
		if isNumber(e) {
			return new(big.Float).SetPrec(numberBits).Set(e.Val.AsBigFloat()), true
		}
	case *hclsyntax.ScopeTraversalExpr:
		return r.named(e)
	case *hclsyntax.UnaryOpExpr:
		x, ok := r.evaluate(e.Val, depth+1)
		if !ok || e.Op != hclsyntax.OpNegate {
			return nil, false
		}
		return x.Neg(x), true
	case *hclsyntax.BinaryOpExpr:
		if depth > maxTerms {
			r.faults.Add(spanOf(e.Range()), "more than %d terms in one number", maxTerms)
			return nil, false
		}
		// Both sides, so that what is wrong with either is told.
		x, okX := r.evaluate(e.LHS, depth+1)
		y, okY := r.evaluate(e.RHS, depth+1)
		if !okX || !okY {
			return nil, false
		}
		value, ok := r.operate(e, x, y)
		if ok && e.Op == hclsyntax.OpSubtract && r.run.Units == Inches {
			ok = r.refuseDashedFraction(e, value)
		}
		return value, ok
	}
	r.notANumber(e)
	return nil, false
}

// operate returns x and y put together as e says.
func (r *reader) operate(e *hclsyntax.BinaryOpExpr, x, y *big.Float) (*big.Float, bool) {
	switch e.Op {
	case hclsyntax.OpAdd:
		x.Add(x, y)
	case hclsyntax.OpSubtract:
		x.Sub(x, y)
	case hclsyntax.OpMultiply:
		x.Mul(x, y)
	case hclsyntax.OpDivide:
		if y.Sign() == 0 {
			r.faults.Add(spanOf(e.RHS.Range()), "this divides by zero")
			return nil, false
		}
		x.Quo(x, y)
	default:
		r.notANumber(e)
		return nil, false
	}
	return x, true
}

// dashedFraction is how three and a half is often written in inches, 3-1/2.
var dashedFraction = regexp.MustCompile(`^([1-9]\d*)-([1-9]\d?)/(2|4|8|16|32|64)$`)

// refuseDashedFraction tells of a difference that looks like a whole number with
// a fraction, and reports whether it doesn't.
func (r *reader) refuseDashedFraction(e *hclsyntax.BinaryOpExpr, value *big.Float) bool {
	at := spanOf(e.Range())
	if _, plain := e.LHS.(*hclsyntax.LiteralValueExpr); !plain {
		return true
	}
	m := dashedFraction.FindStringSubmatch(r.textAt(at))
	if m == nil {
		return true
	}
	whole, over, under := m[1], m[2], m[3]
	n, _ := strconv.Atoi(over)
	d, _ := strconv.Atoi(under)
	if n >= d {
		return true
	}
	r.faults.Add(at, "%s-%s/%s is %s here: for %s and %s/%s write %s + %s/%s; if %s is meant, %s - %s/%s with spaces",
		whole, over, under, value.Text('f', -1), whole, over, under, whole, over, under, value.Text('f', -1), whole, over, under)
	return false
}

// isNumber reports whether a literal is a number, not true, false or null.
func isNumber(e *hclsyntax.LiteralValueExpr) bool {
	return e.Val.Type() == cty.Number && e.Val.IsKnown() && !e.Val.IsNull()
}

// notANumber tells that a number was wanted where e stands.
func (r *reader) notANumber(e hclsyntax.Expression) {
	at := spanOf(e.Range())
	switch e := e.(type) {
	case *hclsyntax.TemplateExpr:
		r.faults.Add(at, "a number is wanted here, without quotes")
	case *hclsyntax.ScopeTraversalExpr:
		r.tellName(e)
	case *hclsyntax.FunctionCallExpr:
		if e.Name == polarName {
			r.faults.Add(at, "a number is wanted here, and polar(length, degrees) is a point")
		} else {
			r.faults.Add(at, "there is no %s(...) here: only + - * / and, for points, polar(length, degrees)", shortened(e.Name))
		}
	default:
		r.faults.Add(at, "a number is wanted here, not %s", kindOf(e))
	}
}
