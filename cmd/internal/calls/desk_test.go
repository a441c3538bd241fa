package calls

import (
	"encoding/json"
	"testing"

	"fullfree/demo"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// asks asks a desk, and reads what comes back.
func asks(t *testing.T, d *Desk, call, body string, into any) Status {
	t.Helper()
	a := d.Answer(call, []byte(body))
	require.True(t, json.Valid(a.Body), "%s: %s", call, a.Body)
	if into != nil {
		require.NoError(t, json.Unmarshal(a.Body, into))
	}
	return a.Status
}

// Every demo is listed, taken, shown and judged.
func TestDeskOfDemos(t *testing.T) {
	var list []struct{ Kind string }
	d := NewDesk()
	require.Equal(t, Done, asks(t, d, "demos", "", &list))
	require.Len(t, list, len(demo.Kinds())+len(demo.More())+1)
	for _, one := range list {
		body, err := json.Marshal(map[string]string{"name": one.Kind})
		require.NoError(t, err)
		var texts []text
		require.Equal(t, Done, asks(t, d, "demo", string(body), &texts))
		put, err := json.Marshal(map[string]any{"texts": texts})
		require.NoError(t, err)
		require.Equal(t, Done, asks(t, d, "put", string(put), nil))
		var read struct{ Faults []faultJSON }
		require.Equal(t, Done, asks(t, d, "read", `{"name":"`+one.Kind+`.hcl"}`, &read))
		assert.Empty(t, read.Faults, one.Kind)
		require.Equal(t, Done, asks(t, d, "show", `{"name":"`+one.Kind+`.hcl"}`, nil), one.Kind)
		if one.Kind == demo.Aircraft {
			continue // which takes its time
		}
		var tried struct{ Verdict struct{ Headline string } }
		require.Equal(t, Done, asks(t, d, "try", `{"lean":true}`, &tried))
		assert.NotEmpty(t, tried.Verdict.Headline, one.Kind)
	}
}

// Faults are told at their places, what was shown stays until the text reads well again, and
// what is no call is refused.
func TestDeskOfTexts(t *testing.T) {
	d := NewDesk()
	assert.Equal(t, Unfit, asks(t, d, "try", `{}`, nil), "nothing is shown")
	assert.Equal(t, Unfit, asks(t, d, "show", `{"name":"gone.hcl"}`, nil))
	words, _ := demo.File("pedals")
	put := func(text string) {
		body, err := json.Marshal(map[string]any{"texts": []any{map[string]string{"name": "run.hcl", "text": text}}})
		require.NoError(t, err)
		require.Equal(t, Done, asks(t, d, "put", string(body), nil))
	}
	put(string(words))
	require.Equal(t, Done, asks(t, d, "show", `{"name":"run.hcl"}`, nil))
	put("part {\n" + string(words))
	var read struct {
		Faults []faultJSON
		Words  []string
	}
	require.Equal(t, Done, asks(t, d, "read", `{"name":"run.hcl"}`, &read))
	require.NotEmpty(t, read.Faults)
	assert.Positive(t, read.Faults[0].Line)
	assert.Contains(t, read.Words, "misalignment")
	var state struct{ Hash, Faults string }
	require.Equal(t, Done, asks(t, d, "file", "", &state))
	assert.NotEmpty(t, state.Faults)
	assert.Equal(t, HashOf(words), state.Hash)
	put(string(words))
	require.Equal(t, Done, asks(t, d, "file", "", &state))
	assert.Empty(t, state.Faults)
	for _, body := range []string{`{`, `[]`, `{"other":1}`, `{}{}`, "\xff"} {
		assert.Equal(t, Wrong, asks(t, d, "put", body, nil), body)
		assert.Equal(t, Wrong, asks(t, d, "try", body, nil), body)
	}
	assert.Equal(t, Wrong, asks(t, d, "no such call", `{}`, nil))
}

// Every question has an answer, or says why not.
func TestBenchOfQuestions(t *testing.T) {
	b := benchOf(t, demo.Toleranced)
	for call, body := range map[string]string{
		"compare": `{"turns":{"left-link.from":0.5}}`, "effect": `{}`, "rig": `{}`, "tolerance": `{"builds":50}`, "charts": `{}`, "check": `{}`, "sheet": `{}`,
	} {
		a := b.Answer(call, []byte(body), nil)
		assert.Equal(t, Done, a.Status, "%s: %s", call, a.Body)
		assert.True(t, json.Valid(a.Body), call)
	}
	for call, body := range map[string]string{"compare": `{}`, "find": `{}`} {
		assert.Equal(t, Unfit, b.Answer(call, []byte(body), nil).Status, call)
	}
	for call, body := range map[string]string{"tolerance": `{"builds":-1}`, "full-size": `{"only":"nothing"}`} {
		assert.Equal(t, Wrong, b.Answer(call, []byte(body), nil).Status, call)
	}
	assert.Equal(t, "%PDF", string(b.Answer("full-size", []byte(`{"only":"left-link"}`), nil).Body[:4]))
}
