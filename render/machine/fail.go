package machine

import (
	"io"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/solve"
)

// failSchema is the name and version of what is written about what is left.
const failSchema = "fullfree.fail/1"

type failJSON struct {
	Schema   string          `json:"schema"`
	Cases    []failCaseJSON  `json:"cases"`  // worst first
	Shared   []sharedJSON    `json:"shared"` // what both paths go through
	OnCenter []failPointJSON `json:"on_center_as_filed"`
	LeftOut  int             `json:"left_out,omitempty"` // how many cases were not looked at
	// AtNeutral says that all was looked at with the other controls at neutral alone.
	AtNeutral bool `json:"at_neutral,omitempty"`
}

type failCaseJSON struct {
	Element    string   `json:"element"`
	How        string   `json:"how"`
	Loose      []string `json:"loose"`
	Follows    []string `json:"follows"`     // parts and outputs that still follow a control
	Lost       []string `json:"lost"`        // controls, parts under a hand, outputs
	OverCenter *bool    `json:"over_center"` // null where it can't be told
	Severity   *int     `json:"severity"`    // null where it can't be told
	Says       string   `json:"says"`

	OnCenter  []failPointJSON   `json:"on_center"`
	Ranges    []looseJSON       `json:"ranges"`
	Controls  []controlLeftJSON `json:"controls"`
	Reaches   []reachJSON       `json:"reaches"`
	CarriedBy []carriedJSON     `json:"carried_by"`
	OneWay    []oneWayJSON      `json:"one_way"` // cables left of pairs
	Undoubled []string          `json:"undoubled"`
	Takes     []string          `json:"takes"`     // parts under hands that a seizure locks
	TakesAll  *bool             `json:"takes_all"` // null where there is one part under hands or none is locked
	Shares    []string          `json:"shares"`
}

type sharedJSON struct {
	To    string   `json:"to"`
	Parts []string `json:"parts"`
}

type failPointJSON struct {
	Control string             `json:"control"`
	Kind    string             `json:"kind"`
	At      float64            `json:"at"`
	Part    string             `json:"part"`
	Held    map[string]float64 `json:"held"`   // controls off neutral
	Beyond  bool               `json:"beyond"` // what the file explores, with nothing in the way; it counts all the same
}

type looseJSON struct {
	Part string       `json:"part"`
	Unit linkage.Unit `json:"unit"`
	Low  *float64     `json:"low"` // null: nothing ends it there, or there is no telling
	High *float64     `json:"high"`
	Told bool         `json:"told"` // that there is a range
	// Spring is the side to which a spring draws it; null where none is told.
	Spring *string `json:"spring"`
	Says   string  `json:"says"`
}

type oneWayJSON struct {
	Cable     string       `json:"cable"`
	Part      string       `json:"part"`
	Control   string       `json:"control"`
	Side      string       `json:"side"`      // of the control, to which it still pulls: "plus" or "minus"
	Filed     float64      `json:"filed"`     // stiffness at neutral with both
	Stiffness float64      `json:"stiffness"` // with it alone, against being moved off it; 0 the other way
	Unit      linkage.Unit `json:"unit"`
}

type controlLeftJSON struct {
	Name   string       `json:"name"`
	Unit   linkage.Unit `json:"unit"`
	Gone   bool         `json:"gone"`
	Locked *bool        `json:"locked"` // null where it can't be told
	Would  *float64     `json:"would"`  // what seized would have had to go; null where nothing did
	Of     string       `json:"would_unit"`
	Filed  [2]float64   `json:"filed"`
	Left   *[2]float64  `json:"left"` // null where it is gone or locked
}

type reachJSON struct {
	Control  string       `json:"control"`
	Name     string       `json:"name"`
	Unit     linkage.Unit `json:"unit"`
	Follows  bool         `json:"follows"`
	Filed    [2]float64   `json:"filed"`
	Left     [2]float64   `json:"left"`
	Share    float64      `json:"share"`
	Reversed bool         `json:"reversed"`
}

type carriedJSON struct {
	Rod   string      `json:"rod"`
	Play  float64     `json:"play"`
	Slack []slackJSON `json:"slack"`
}

type slackJSON struct {
	Name string       `json:"name"`
	Unit linkage.Unit `json:"unit"`
	Most float64      `json:"most"`
}

// FailJSON writes what is left when each element goes for machines, at full
// precision. The error is the writer's.
func FailJSON(w io.Writer, f *solve.Failures) error {
	out := failJSON{Schema: failSchema, Cases: []failCaseJSON{}, Shared: []sharedJSON{}, OnCenter: pointsOf(f.OnCenter), LeftOut: f.LeftOut, AtNeutral: f.AtNeutral}
	for _, path := range f.Shared {
		told := sharedJSON{To: path.To, Parts: []string{}}
		for _, p := range path.Parts {
			told.Parts = append(told.Parts, p.Name)
		}
		out.Shared = append(out.Shared, told)
	}
	for i := range f.Cases {
		out.Cases = append(out.Cases, failCaseOf(f, &f.Cases[i]))
	}
	return writeJSON(w, out)
}

func failCaseOf(f *solve.Failures, c *solve.Failure) failCaseJSON {
	told := failCaseJSON{
		Element: render.ElementName(c.Element), How: string(c.How), OverCenter: c.OverCenter, Says: render.FailSays(f, c),
		Loose: []string{}, Follows: []string{}, Lost: append([]string{}, c.Lost...), OnCenter: pointsOf(c.OnCenter),
		Ranges: []looseJSON{}, Controls: []controlLeftJSON{}, Reaches: []reachJSON{}, CarriedBy: []carriedJSON{}, OneWay: []oneWayJSON{},
		Undoubled: []string{}, Takes: []string{}, TakesAll: c.TakesAll, Shares: append([]string{}, c.Shares...),
	}
	if c.Severity != solve.NotKnown {
		figure := int(c.Severity)
		told.Severity = &figure
	}
	for i := range c.Loose {
		l := &c.Loose[i]
		told.Loose = append(told.Loose, l.Part.Name)
		out := looseJSON{l.Part.Name, l.Unit, l.Low, l.High, l.Why == solve.Ranged, nil, render.LooseRangeSays(f, c, l)}
		if l.Spring != "" {
			out.Spring = &l.Spring
		}
		told.Ranges = append(told.Ranges, out)
	}
	seen := map[string]bool{}
	for i := range c.Reaches {
		r := &c.Reaches[i]
		told.Reaches = append(told.Reaches, reachJSON{r.Control.Name, r.Name, r.Unit, r.Follows, r.Filed, r.Left, r.Share, r.Reversed})
		name := r.Name
		if r.Part != nil {
			name = r.Part.Name
		}
		if r.Follows && !seen[name] {
			seen[name] = true
			told.Follows = append(told.Follows, name)
		}
	}
	for i := range c.Controls {
		k := &c.Controls[i]
		left := controlLeftJSON{Name: k.Control.Name, Unit: k.Unit, Gone: k.Gone, Locked: k.Locked, Filed: k.Filed}
		if c.How == solve.Seized {
			left.Would, left.Of = &k.Would, string(k.WouldUnit)
		}
		if !k.Gone && k.Locked != nil && !*k.Locked {
			left.Left = &k.Left
		}
		told.Controls = append(told.Controls, left)
	}
	for _, k := range c.Carried {
		by := carriedJSON{Rod: k.Rod.Name, Play: k.Rod.Play, Slack: []slackJSON{}}
		for _, s := range k.Slack {
			by.Slack = append(by.Slack, slackJSON(s))
		}
		told.CarriedBy = append(told.CarriedBy, by)
	}
	for _, k := range c.OneWay {
		told.OneWay = append(told.OneWay, oneWayJSON{k.Cable.Name, k.Part.Name, k.Control.Name, k.Side, k.Filed, k.Left, k.Unit})
	}
	for _, r := range c.Undoubled {
		told.Undoubled = append(told.Undoubled, r.Name)
	}
	for _, p := range c.Takes {
		told.Takes = append(told.Takes, p.Name)
	}
	return told
}

func pointsOf(points []solve.OnCenter) []failPointJSON {
	out := []failPointJSON{}
	for _, k := range points {
		told := failPointJSON{Control: k.Control.Name, Kind: string(k.Kind), At: k.At, Part: k.Name(), Held: map[string]float64{}, Beyond: k.Beyond}
		for _, h := range k.Held {
			told.Held[h.Control.Name] = h.At
		}
		out = append(out, told)
	}
	return out
}
