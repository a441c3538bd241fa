package page

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"html/template"
	"reflect"
	"strings"
	"text/template/parse"

	"fullfree/render"
)

// webTemplates are templates of pages by name, as packages text/template and html/template
// write them, but of what they can do only what is used here: fields, range, if, with,
// template, variables, and the functions of fillFuncs. Those packages find methods by their
// names, for which the linker keeps every method of every type: with html/template the
// program of the page that is one file was 28.8 MB, 7.20 MB packed and 9.84 MB as a page, of
// which 9 MB are the most; so it is 22.0, 5.86 and 8.06 MB. TestFillIsAsHTMLTemplate holds
// what comes out against html/template, byte for byte.
//
// What is filled in is escaped for text and for attributes in double quotes; there is
// nothing else to fill in but what is of the types template.HTML, CSS and JS, which is ours
// and stands as it is. So no address, style or script attribute may be filled in.
type webTemplates map[string]*parse.Tree

// fillFuncs are the functions that a template may call, for parsing alone.
var fillFuncs = map[string]any{"and": 0, "not": 0, "len": 0, "gt": 0, "index": 0, "numbers": 0, "json": 0}

// webTemplate reads the frame of every page and the files that fill it; one of
// them defines "body".
func webTemplate(names ...string) webTemplates {
	all := webTemplates{}
	for _, name := range append([]string{"webpage.html"}, names...) {
		trees, err := parse.Parse(name, webText([]string{name}), "", "", fillFuncs)
		if err != nil {
			panic("render: " + err.Error()) // a fault of the program, never of a run
		}
		for of, tree := range trees {
			all[of] = tree
		}
	}
	return all
}

// fill writes a template with data in it.
func (t webTemplates) fill(b *bytes.Buffer, name string, data any) error {
	tree, known := t[name]
	if !known {
		return fmt.Errorf("there is no template %q", name)
	}
	f := &filler{templates: t, out: b}
	dot := reflect.ValueOf(data)
	f.set("$", dot)
	return f.walk(tree.Root, dot)
}

// filler fills one template in.
type filler struct {
	templates webTemplates
	out       *bytes.Buffer
	vars      []fillVar // those in sight, the latest last
}

type fillVar struct {
	name  string
	value reflect.Value
}

func (f *filler) set(name string, v reflect.Value) { f.vars = append(f.vars, fillVar{name, v}) }

// walk writes a node with dot as what is looked at.
func (f *filler) walk(node parse.Node, dot reflect.Value) error {
	switch n := node.(type) {
	case *parse.ListNode:
		if n == nil {
			return nil
		}
		seen := len(f.vars)
		for _, one := range n.Nodes {
			if err := f.walk(one, dot); err != nil {
				return err
			}
		}
		f.vars = f.vars[:seen]
		return nil
	case *parse.TextNode:
		f.out.Write(n.Text)
		return nil
	case *parse.CommentNode:
		return nil
	case *parse.ActionNode:
		v, err := f.pipe(n.Pipe, dot)
		if err != nil {
			return err
		}
		if len(n.Pipe.Decl) > 0 {
			f.set(n.Pipe.Decl[0].Ident[0], v)
			return nil
		}
		return f.print(v)
	case *parse.IfNode:
		v, err := f.pipe(n.Pipe, dot)
		if err != nil {
			return err
		}
		if holds(v) {
			return f.walk(n.List, dot)
		}
		return f.walk(n.ElseList, dot)
	case *parse.WithNode:
		v, err := f.pipe(n.Pipe, dot)
		if err != nil {
			return err
		}
		if holds(v) {
			return f.walk(n.List, v)
		}
		return f.walk(n.ElseList, dot)
	case *parse.RangeNode:
		return f.each(n, dot)
	case *parse.TemplateNode:
		v, err := f.pipe(n.Pipe, dot)
		if err != nil {
			return err
		}
		tree, known := f.templates[n.Name]
		if !known {
			return fmt.Errorf("there is no template %q", n.Name)
		}
		own := &filler{templates: f.templates, out: f.out}
		own.set("$", v)
		return own.walk(tree.Root, v)
	}
	return fmt.Errorf("a template has %s, which isn't filled in here", node)
}

// each writes the list of a range for every element.
func (f *filler) each(n *parse.RangeNode, dot reflect.Value) error {
	list, err := f.pipe(n.Pipe, dot)
	if err != nil {
		return err
	}
	if list = behind(list); !list.IsValid() || list.Len() == 0 {
		return f.walk(n.ElseList, dot)
	}
	seen := len(f.vars)
	for i := range list.Len() {
		switch decl := n.Pipe.Decl; len(decl) {
		case 1:
			f.set(decl[0].Ident[0], list.Index(i))
		case 2:
			f.set(decl[0].Ident[0], reflect.ValueOf(i))
			f.set(decl[1].Ident[0], list.Index(i))
		}
		if err := f.walk(n.List, list.Index(i)); err != nil {
			return err
		}
		f.vars = f.vars[:seen]
	}
	return nil
}

// pipe is the value of a pipe, which is one command; none where there is no pipe.
func (f *filler) pipe(p *parse.PipeNode, dot reflect.Value) (reflect.Value, error) {
	if p == nil {
		return reflect.Value{}, nil
	}
	if len(p.Cmds) != 1 {
		return reflect.Value{}, fmt.Errorf("a template has %s, which isn't filled in here", p)
	}
	args := p.Cmds[0].Args
	if called, ok := args[0].(*parse.IdentifierNode); ok {
		values := make([]reflect.Value, len(args)-1)
		for i, arg := range args[1:] {
			v, err := f.value(arg, dot)
			if err != nil {
				return v, err
			}
			values[i] = v
		}
		return call(called.Ident, values)
	}
	return f.value(args[0], dot)
}

// value is that of an argument.
func (f *filler) value(node parse.Node, dot reflect.Value) (reflect.Value, error) {
	switch n := node.(type) {
	case *parse.DotNode:
		return dot, nil
	case *parse.FieldNode:
		return fields(dot, n.Ident)
	case *parse.VariableNode:
		for i := len(f.vars) - 1; i >= 0; i-- {
			if f.vars[i].name == n.Ident[0] {
				return fields(f.vars[i].value, n.Ident[1:])
			}
		}
	case *parse.PipeNode:
		return f.pipe(n, dot)
	case *parse.NumberNode:
		return reflect.ValueOf(int(n.Int64)), nil
	case *parse.StringNode:
		return reflect.ValueOf(n.Text), nil
	}
	return reflect.Value{}, fmt.Errorf("a template has %s, which isn't filled in here", node)
}

// fields goes from field to field.
func fields(v reflect.Value, names []string) (reflect.Value, error) {
	for _, name := range names {
		v = behind(v)
		if v.Kind() != reflect.Struct || !v.FieldByName(name).IsValid() {
			return v, fmt.Errorf("a template asks for the field %s, which isn't there", name)
		}
		v = v.FieldByName(name)
	}
	return v, nil
}

// behind is what pointers and interfaces lead to; not valid where they lead nowhere.
func behind(v reflect.Value) reflect.Value {
	for v.Kind() == reflect.Pointer || v.Kind() == reflect.Interface {
		v = v.Elem()
	}
	return v
}

// holds says whether a value counts as true: it isn't zero, nor empty.
func holds(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Invalid:
		return false
	case reflect.String, reflect.Slice, reflect.Array, reflect.Map:
		return v.Len() > 0
	case reflect.Struct:
		return true
	}
	return !v.IsZero()
}

var errFill = errors.New("a function of a template is called with what it doesn't take")

// call is what a function makes of its arguments.
func call(name string, args []reflect.Value) (reflect.Value, error) {
	switch {
	case name == "and" && len(args) > 0:
		for _, v := range args {
			if !holds(v) {
				return v, nil
			}
		}
		return args[len(args)-1], nil
	case name == "not" && len(args) == 1:
		return reflect.ValueOf(!holds(args[0])), nil
	case name == "len" && len(args) == 1:
		return reflect.ValueOf(behind(args[0]).Len()), nil
	case name == "gt" && len(args) == 2:
		return reflect.ValueOf(args[0].Int() > args[1].Int()), nil
	case name == "index" && len(args) == 2:
		return behind(args[0]).Index(int(args[1].Int())), nil
	case name == "numbers" && len(args) == 2:
		if table, ok := args[0].Interface().(render.Passage); ok {
			return reflect.ValueOf(table.Numbers(int(args[1].Int()))), nil
		}
	case name == "json" && len(args) == 1:
		text, err := json.Marshal(args[0].Interface()) // which leaves no < in it
		return reflect.ValueOf(template.JS(text)), err
	}
	return reflect.Value{}, errFill
}

// escaped replaces what would end a text, or an attribute in double quotes.
var escaped = strings.NewReplacer("\x00", "\uFFFD", `"`, "&#34;", "&", "&amp;", "'", "&#39;", "+", "&#43;", "<", "&lt;", ">", "&gt;")

// print writes a value.
func (f *filler) print(v reflect.Value) error {
	if v = behind(v); !v.IsValid() {
		return errFill
	}
	switch v := v.Interface().(type) {
	case template.HTML:
		f.out.WriteString(string(v))
	case template.CSS:
		f.out.WriteString(string(v))
	case template.JS:
		f.out.WriteString(string(v))
	default:
		f.out.WriteString(escaped.Replace(fmt.Sprint(v)))
	}
	return nil
}
