package picture

import (
	"math"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/render/internal/paper"
)

// rests tells what the sheet assumes and what it isn't.
func (d *diagram) rests() string {
	return "Assumed: " + render.Assumed(d.result) + ". " + render.Caution
}

// titleBlock frames what identifies the sheet, with blanks to sign.
func (d *diagram) titleBlock(y float64) float64 {
	return d.titleBlockOf(y, d.scaleWords(), func(at paper.Place) { d.scaleBar(at.X, at.Y+smallSize+14) })
}

// titleBlockOf is titleBlock with something else than the scale in the scale's
// field, under its name.
func (d *diagram) titleBlockOf(y float64, name string, fill func(at paper.Place)) float64 {
	const inset = 8.0
	half := d.inner() / 2
	top := y + sectionGap
	left, right := sheetMargin+inset, sheetMargin+half+inset
	frame := func(y float64) {
		d.scene.Line(paper.LayerMarks, paper.PenRule, paper.At(sheetMargin, y), paper.At(d.scene.Width-sheetMargin, y))
	}
	field := func(x, y, width float64, name, says string, bold bool) {
		d.scene.Text(paper.Text{Says: paper.Shorten(name, width, smallSize, false), At: paper.At(x, y+smallSize), Size: smallSize})
		if says != "" {
			d.scene.Text(paper.Text{Says: paper.Shorten(says, width, headSize, bold), At: paper.At(x, y+smallSize+headSize*lineHeight), Size: headSize, Bold: bold})
		}
	}
	const tall = 42.0 // of a row of fields

	y = top + 4
	field(left, y, half+100-2*inset, "Run", d.run.Name, true)
	field(right+100, y, half-100-2*inset, "Units", unitWords(d.run.Units), false)
	y += tall
	frame(y)
	for _, line := range paper.Wrap(d.verdict, d.inner()-2*inset, headSize, true) {
		y += headSize * lineHeight
		d.scene.Text(paper.Text{Says: line, At: paper.At(left, y), Size: headSize, Bold: true})
	}
	for _, words := range []string{render.Unsure(d.result), d.settings(), d.opts.Aircraft, render.SurveyNote(d.result.Survey)} {
		for _, line := range paper.Wrap(words, d.inner()-2*inset, tableSize, false) {
			y += tableSize * lineHeight
			d.scene.Text(paper.Text{Says: line, At: paper.At(left, y), Size: tableSize})
		}
	}
	y += inset
	frame(y)
	across := y
	y += 4
	field(left, y, half-2*inset, name, "", false)
	fill(paper.At(left, y))
	field(right, y, half-2*inset, d.fileWords(), d.hashWords(), false)
	y += tall
	frame(y)
	y += 4
	field(left, y, half-2*inset, "Checked by, signature", "", false)
	field(right, y, half-2*inset, "Date", "", false)
	y += tall
	frame(y)
	d.scene.Line(paper.LayerMarks, paper.PenRule, paper.At(sheetMargin+half, across), paper.At(sheetMargin+half, y))
	for _, line := range paper.Wrap(d.rests(), d.inner()-2*inset, smallSize, false) {
		y += smallSize * lineHeight
		d.scene.Text(paper.Text{Says: line, At: paper.At(left, y), Size: smallSize})
	}
	y += inset
	d.scene.Polygon(paper.LayerMarks, paper.PenFrame, paper.Window{Low: paper.At(sheetMargin, top), High: paper.At(d.scene.Width-sheetMargin, y)}.Corners()...)
	return y
}

// unitWords names a unit of length.
func unitWords(u linkage.Unit) string {
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
	width := float64(long * d.views[0].scale)
	if width < 1 {
		return
	}
	d.scene.Polygon(paper.LayerMarks, paper.PenSolid, paper.At(x, y), paper.At(x+width/2, y), paper.At(x+width/2, y+tall), paper.At(x, y+tall))
	d.scene.Polygon(paper.LayerMarks, paper.PenThin, paper.At(x, y), paper.At(x+width, y), paper.At(x+width, y+tall), paper.At(x, y+tall))
	d.scene.Text(paper.Text{Says: lengthWords(long, d.run.Units), At: paper.At(x+width+8, y+tall+3), Size: tableSize})
}

// roundLength returns the longest round length up to most: 1, 2 or 5 times a
// power of ten; of inches below one, a half, a quarter and so on.
func roundLength(most float64, u linkage.Unit) float64 {
	if u == linkage.Inches && most < 1 {
		return math.Ldexp(1, math.Ilogb(most))
	}
	ten := math.Pow10(elementary.Decade(most))
	for _, k := range []float64{5, 2} {
		if k*ten <= most {
			return float64(k * ten)
		}
	}
	return ten
}

// lengthWords is a round length: not rounded further.
func lengthWords(v float64, u linkage.Unit) string {
	if u == linkage.Inches && v < 1 && v >= 1.0/figure.InchParts {
		return figure.Length(v, u)
	}
	return figure.Given(v, u)
}
