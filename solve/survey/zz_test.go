package survey_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"fullfree/solve/survey"
)

func TestZZ(t *testing.T) {
	for _, n := range []int{5, 10, 15, 20, 30} {
		var b strings.Builder
		b.WriteString("run \"x\" {\n units = \"mm\"\n sketch = 30\n}\nfixed \"f\" {\n exact = true\n points = { a = [0,0] }\n}\n")
		for i := range n {
			fmt.Fprintf(&b, "part \"p%d\" {\n pivot = [%d, %d]\n points = { h = [%d, %d], k = [%d, %d] }\n}\n", i, 200*i+100, i*i%97, 200*i+150, 70+i%13, 200*i+150, -70-i%11)
		}
		b.WriteString("control \"c\" {\n of = p0\n}\n")
		run := read(t, b.String())
		at := time.Now()
		plan := survey.Plan(run)
		t.Log(n, len(survey.Places(run)), len(plan), time.Since(at))
	}
}
