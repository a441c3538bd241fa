package linkage

import (
	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// moveTo gives all of what was parsed from a text of its own one place in the file,
// where what is wrong with it is told.
func moveTo(body *hclsyntax.Body, at hcl.Range) {
	body.SrcRange, body.EndRange = at, at
	for _, a := range body.Attributes {
		a.SrcRange, a.NameRange, a.EqualsRange = at, at, at
		moveExpression(a.Expr, at)
	}
	for _, b := range body.Blocks {
		b.TypeRange, b.OpenBraceRange, b.CloseBraceRange = at, at, at
		for i := range b.LabelRanges {
			b.LabelRanges[i] = at
		}
		moveTo(b.Body, at)
	}
}

// moveExpression is moveTo of an expression, of the kinds that the guard lets in.
func moveExpression(e hclsyntax.Expression, at hcl.Range) {
	switch e := e.(type) {
	case *hclsyntax.LiteralValueExpr:
		e.SrcRange = at
	case *hclsyntax.TemplateExpr:
		e.SrcRange = at
		for _, part := range e.Parts {
			moveExpression(part, at)
		}
	case *hclsyntax.ParenthesesExpr:
		e.SrcRange = at
		moveExpression(e.Expression, at)
	case *hclsyntax.UnaryOpExpr:
		e.SrcRange, e.SymbolRange = at, at
		moveExpression(e.Val, at)
	case *hclsyntax.BinaryOpExpr:
		e.SrcRange = at
		moveExpression(e.LHS, at)
		moveExpression(e.RHS, at)
	case *hclsyntax.TupleConsExpr:
		e.SrcRange, e.OpenRange = at, at
		for _, entry := range e.Exprs {
			moveExpression(entry, at)
		}
	case *hclsyntax.ObjectConsExpr:
		e.SrcRange, e.OpenRange = at, at
		for _, item := range e.Items {
			moveExpression(item.KeyExpr, at)
			moveExpression(item.ValueExpr, at)
		}
	case *hclsyntax.ObjectConsKeyExpr:
		moveExpression(e.Wrapped, at)
	case *hclsyntax.FunctionCallExpr:
		e.NameRange, e.OpenParenRange, e.CloseParenRange = at, at, at
		for _, arg := range e.Args {
			moveExpression(arg, at)
		}
	case *hclsyntax.ScopeTraversalExpr:
		e.SrcRange = at
		for i, step := range e.Traversal {
			switch step := step.(type) {
			case hcl.TraverseRoot:
				step.SrcRange = at
				e.Traversal[i] = step
			case hcl.TraverseAttr:
				step.SrcRange = hcl.Range{} // its name stands nowhere
				e.Traversal[i] = step
			}
		}
	}
}
