package render

import (
	"math"

	"fullfree/linkage"
	"fullfree/render/figure"
)

// rests tells what the sheet assumes and what it isn't.
func (d *diagram) rests() string { return "Assumed: " + assumed(d.result) + ". " + caution }

// titleBlock frames what identifies the sheet, with blanks to sign.
func (d *diagram) titleBlock(y float64) float64 {
	return d.titleBlockOf(y, d.scaleWords(), func(at place) { d.scaleBar(at.x, at.y+smallSize+14) })
}

// titleBlockOf is titleBlock with something else than the scale in the scale's
// field, under its name.
func (d *diagram) titleBlockOf(y float64, name string, fill func(at place)) float64 {
	const inset, half = 8.0, sheetInner / 2
	top := y + sectionGap
	left, right := sheetMargin+inset, sheetMargin+half+inset
	frame := func(y float64) {
		d.scene.line(layerMarks, penRule, place{sheetMargin, y}, place{sheetWidth - sheetMargin, y})
	}
	field := func(x, y, width float64, name, says string, bold bool) {
		d.scene.write(text{says: shorten(name, width, smallSize, false), at: place{x, y + smallSize}, size: smallSize})
		if says != "" {
			d.scene.write(text{says: shorten(says, width, headSize, bold), at: place{x, y + smallSize + headSize*lineHeight}, size: headSize, bold: bold})
		}
	}
	const tall = 42.0 // of a row of fields

	y = top + 4
	field(left, y, half+100-2*inset, "Run", d.run.Name, true)
	field(right+100, y, half-100-2*inset, "Units", unitWords(d.run.Units), false)
	y += tall
	frame(y)
	for _, line := range wrap(d.verdict, sheetInner-2*inset, headSize, true) {
		y += headSize * lineHeight
		d.scene.write(text{says: line, at: place{left, y}, size: headSize, bold: true})
	}
	for _, words := range []string{unsure(d.result), d.settings(), SurveyNote(d.result.Survey)} {
		for _, line := range wrap(words, sheetInner-2*inset, tableSize, false) {
			y += tableSize * lineHeight
			d.scene.write(text{says: line, at: place{left, y}, size: tableSize})
		}
	}
	y += inset
	frame(y)
	across := y
	y += 4
	field(left, y, half-2*inset, name, "", false)
	fill(place{left, y})
	field(right, y, half-2*inset, d.fileWords(), d.hashWords(), false)
	y += tall
	frame(y)
	y += 4
	field(left, y, half-2*inset, "Checked by, signature", "", false)
	field(right, y, half-2*inset, "Date", "", false)
	y += tall
	frame(y)
	d.scene.line(layerMarks, penRule, place{sheetMargin + half, across}, place{sheetMargin + half, y})
	for _, line := range wrap(d.rests(), sheetInner-2*inset, smallSize, false) {
		y += smallSize * lineHeight
		d.scene.write(text{says: line, at: place{left, y}, size: smallSize})
	}
	y += inset
	d.scene.polygon(layerMarks, penFrame, window{place{sheetMargin, top}, place{sheetWidth - sheetMargin, y}}.corners()...)
	return y
}

// unitWords names a unit of length.
func unitWords(u linkage.Units) string {
	if u == linkage.Inches {
		return "inches, degrees"
	}
	return "millimeters, degrees"
}

// fileWords heads the hash of the file.
func (d *diagram) fileWords() string {
	const name = "File, SHA-256 begins"
	if d.opts.Version == "" {
		return name
	}
	return name + " (fullfree " + figure.Clean(d.opts.Version) + ")"
}

func (d *diagram) hashWords() string {
	if hash := d.hash(); hash != "" {
		return hash
	}
	return "not told"
}

// scaleWords heads the scale bar.
func (d *diagram) scaleWords() string {
	for _, v := range d.views {
		if len(v.details) > 0 || v.scale != d.views[0].scale {
			return "Scale, first view"
		}
	}
	return "Scale"
}

// scaleBar draws a bar of a round length, so that the sheet can be measured
// at whatever size it was printed.
func (d *diagram) scaleBar(x, y float64) {
	const most, tall = 130.0, 6.0
	long := roundLength(most/d.views[0].scale, d.run.Units)
	width := long * d.views[0].scale
	if width < 1 {
		return
	}
	d.scene.polygon(layerMarks, penSolid, place{x, y}, place{x + width/2, y}, place{x + width/2, y + tall}, place{x, y + tall})
	d.scene.polygon(layerMarks, penThin, place{x, y}, place{x + width, y}, place{x + width, y + tall}, place{x, y + tall})
	d.scene.write(text{says: lengthWords(long, d.run.Units), at: place{x + width + 8, y + tall + 3}, size: tableSize})
}

// roundLength returns the longest round length up to most: 1, 2 or 5 times a
// power of ten; of inches below one, a half, a quarter and so on.
func roundLength(most float64, u linkage.Units) float64 {
	if u == linkage.Inches && most < 1 {
		return math.Pow(2, math.Floor(math.Log2(most)))
	}
	ten := math.Pow(10, math.Floor(math.Log10(most)))
	for _, k := range []float64{5, 2} {
		if k*ten <= most {
			return k * ten
		}
	}
	return ten
}

// lengthWords is a round length: not rounded further.
func lengthWords(v float64, u linkage.Units) string {
	if u == linkage.Inches && v < 1 && v >= 1.0/figure.InchParts {
		return figure.Length(v, u)
	}
	return figure.Given(v, string(u))
}
