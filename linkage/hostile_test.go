package linkage

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"time"
	"runtime"
)

func TestHostileTimes(t *testing.T) {
	if os.Getenv("HOSTILE")=="" { t.Skip() }
	const n = 1<<20-100
	rep := func(s string) string { return strings.Repeat(s, n/len(s)) }
	var many strings.Builder
	for i:=0; many.Len()<n-200; i++ { fmt.Fprintf(&many,"part \"p%d\" {\n pivot=[%d,0]\n}\nrod \"r%d\" {\n from=p%d.a\n to=q%d.b\n}\n",i,i,i,i,i) }
	var names strings.Builder
	names.WriteString("run \"x\" {\n units=\"mm\"\n}\npart \"p\" {\npoints={")
	for i:=0; names.Len()<n-200; i++ { fmt.Fprintf(&names,"a%d=[%d,0],",i,i) }
	names.WriteString("}\n}\n")
	var chain strings.Builder
	chain.WriteString("run \"x\" {\n units=\"mm\"\n}\n")
	for i:=0; i<9999; i++ { fmt.Fprintf(&chain,"part \"p%d\" {\n pivot=p%d.a\n points={a=[%d,0]}\n}\n",i,(i+1)%9999,i) }
	var rods strings.Builder
	rods.WriteString("run \"x\" {\n units=\"mm\"\n}\n")
	for i:=0; rods.Len()<n-200; i++ { fmt.Fprintf(&rods,"rod \"p%d\" {\n from=p%d.a\n to=p%d.a\n points={a=[%d,0]}\n}\n",i,(i+1)%9000,(i*7+3)%9000,i) }
	for name, s := range map[string]string{
		"parens": rep("("), "brackets": rep("a=["), "minus": "a="+rep("-"), "nl": rep("\n"), "a": rep("a\n"), "attr": rep("a=1\n"),
		"blocks": rep("part a{}\n"), "nested": rep("a{\n"), "digits": "a="+rep("1"), "sum": "a="+rep("1+")+"1", "longname":"a="+rep("b")+"\n",
		"colons": "a="+rep("b::"), "dots":"a="+rep("b."), "quotes": rep("\""), "interp": "a=\""+rep("${"), "cond":"a="+rep("a?"), "many":many.String(), "names":names.String(), "circle":chain.String(), "rods": rods.String(),
		"calls":"a="+rep("f("), "list": "a=["+rep("1,")+"1]", "listbad": "a=["+rep("x,")+"1]", "splat":"a="+rep("a[*]"), "comment": "/*"+rep("x"), "closers": rep("}"), "mixed": rep("]})"), "ctl": rep("\x00"),
		"exp": "a=["+rep("1e99,")+"1]", "muls":"run \"x\" {\n units=\"mm\"\n view=[" + rep("1e-99*1e-99*1e-99,")+"1]\n}\n", "labels": "part"+rep(" a")+" {\n}\n", "labelsq": rep("part \"a\" \"b\" \"c\" {}\n"), "strs":"a=\""+rep("$${")+"\"", "heredoc": rep("<<A\n"), "dup": "part \"a\" {\npoints={"+rep("a=[0,0],")+"}\n}\n", "longline": "run \"x\" {\n"+rep("b=1;"),
	} {
		var m0, m1 runtime.MemStats
		runtime.ReadMemStats(&m0)
		start := time.Now()
		_, err := Read(&Source{"f", []byte(s)})
		el := time.Since(start)
		start = time.Now()
		msg := err.Error()
		runtime.ReadMemStats(&m1)
		fmt.Printf("%-10s %8.3fs err %6.3fs alloc %5dMB msg %d %.150q\n", name, el.Seconds(), time.Since(start).Seconds(), (m1.TotalAlloc-m0.TotalAlloc)>>20, len(msg), msg)
	}
}
