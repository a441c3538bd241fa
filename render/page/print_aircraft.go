package page

import (
	"slices"

	"fullfree/render"
	"fullfree/render/figure"
)

// aircraft writes the aircraft's page, which comes before its runs.
func (p *printer) aircraft(title string, b *bookAircraft) {
	p.turn()
	p.head(title, printTitle)
	p.verdict(&b.bookRun)
	p.head("From the hand to the blade", printPart)
	t := render.Passage{Head: []string{"run", "driven", "verdict", ""}}
	for _, m := range b.Members {
		t.Rows = append(t.Rows, []string{m.Member + ": " + m.Name, figure.Joined(" ", m.Driven...), m.Verdict, m.Headline})
	}
	p.table(t)
	for _, hand := range b.Hands {
		p.head(hand.Title, printPart)
		p.told(hand.Told)
	}
	p.head("Files", printPart)
	t = render.Passage{Head: []string{"run", "file", "SHA-256 begins"}}
	for _, f := range b.Files {
		run := f.Run
		if run == "" {
			run = "the aircraft"
		}
		t.Rows = append(t.Rows, []string{run, f.Name, f.Hash})
	}
	p.table(t)
	if b.Together != "" {
		p.say("All of them one after another, in this order: SHA-256 " + b.Together + ".")
	}
	for _, change := range b.Set {
		p.say("Changed for this: " + change + " (the files have their own figures).")
	}
	p.words(b.Caution, printSmall, false, 0)
}

// across writes what comes after the runs: what is required across them, the aircraft file,
// and the one rigging sheet.
func (p *printer) across(b *bookAircraft) {
	p.turn()
	p.head(b.Name+": across the runs", printHead)
	p.head("Required", printPart)
	if len(b.Across) == 0 {
		p.say("Nothing was required across the runs.")
	} else {
		p.required(b.Across)
	}
	p.inColumns(func(p *printer) {
		p.head("What this answer is", printPart)
		for _, says := range slices.Concat(b.Scope, []string{b.Caution}) {
			p.words(says, printTable, false, 0)
		}
	})
	p.source(&b.bookRun)
	p.sheet(&b.Sheet, aircraftFoot(b.Together))
}
