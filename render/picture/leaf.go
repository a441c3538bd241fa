package picture

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/render/internal/paper"
)

// leaf is a page of a paper that a sheet is laid out for, in sheet units: what a
// printer prints on, the margins left off.
type leaf struct {
	paper paper.Place // whole, mm
	room  paper.Place // sheet units
}

const (
	// leastType is the smallest type on paper, points: what is still read at the bench.
	leastType = 7.0
	// leafPoints is how many points a sheet unit is on paper: so many that the smallest
	// type of the sheet comes out as that.
	leafPoints = leastType / smallSize
	// unitsPerMillimeter is how many sheet units a millimeter of paper is.
	unitsPerMillimeter = paper.PointsPerMillimeter / leafPoints

	columnLeast = 420.0 // a column of tables or charts is at least so wide
	columnGap   = 22.0
	pieceGap    = 6.0
)

// leafOf is a page of a paper, upright.
func leafOf(name string) leaf {
	size := paperSizes[name]
	return leaf{size, size.Sub(paper.At(2*pageMargin, 2*pageMargin)).Scale(unitsPerMillimeter)}
}

// columns is how many columns of tables stand side by side, and how wide each is.
func (l leaf) columns() (count int, wide float64) {
	inner := l.room.X - 2*sheetMargin
	count = max(1, int((inner+columnGap)/(columnLeast+columnGap)))
	return count, (inner - float64(float64(count-1)*columnGap)) / float64(count)
}

// LargerPaper is the paper to take where a sheet doesn't fit another one; empty where
// there is none.
func LargerPaper(name string) string {
	return map[string]string{PaperA4: PaperA3, PaperLetter: PaperTabloid}[name]
}

// laid is a picture laid out: its pages, all in one measure.
type laid struct {
	leaf
	pages []*paper.Scene
}

// flow puts pieces on pages, from top to bottom.
type flow struct {
	leaf
	head  func(page int) *paper.Scene // of the pages after the first
	pages []*paper.Scene
	down  float64
	top   float64 // where the page's own begins, under its head
}

// turn begins a page.
func (f *flow) turn() {
	page := &paper.Scene{Width: f.room.X, Height: f.room.Y}
	f.pages = append(f.pages, page)
	f.down = 0
	if head := f.head; head != nil && len(f.pages) > 1 {
		s := head(len(f.pages))
		page.Take(s, paper.Place{})
		f.down = s.Height
	}
	f.top = f.down
}

// left is how much of the page is left.
func (f *flow) left() float64 { return f.room.Y - f.down }

// put puts a piece on the page, or on the next where it doesn't fit.
func (f *flow) put(s *paper.Scene) {
	if len(f.pages) == 0 || s.Height > f.left() && f.down > f.top {
		f.turn()
	}
	f.pages[len(f.pages)-1].Take(s, paper.At(0, f.down))
	f.down += s.Height + pieceGap
}

// putAtFoot is put, at the foot of a page.
func (f *flow) putAtFoot(s *paper.Scene) {
	if s.Height > f.left() {
		f.turn()
	}
	at := math.Max(f.down, f.room.Y-s.Height)
	f.pages[len(f.pages)-1].Take(s, paper.At(0, at))
	f.down = f.room.Y
}

// putColumns puts a long piece, of tables one below the other, in columns on as many
// pages as it takes; blocks tell where what belongs together begins. So much is kept
// free for what comes below on the last page, if that can be.
func (f *flow) putColumns(galley *paper.Scene, blocks []float64, below float64) {
	count, wide := f.columns()
	const least = 120.0 // less of a page isn't worth a column
	if len(f.pages) == 0 || f.left() < least {
		f.turn()
	}
	if f.down > f.top && balanced(galley, blocks, count, f.left()-below) == nil && balanced(galley, blocks, count, f.room.Y-keepWith-below) != nil {
		f.turn() // whole on the next page
	}
	for rest := galley; rest != nil; {
		room := f.left()
		if pieces := balanced(rest, blocks, count, room-below); pieces != nil {
			f.down = f.putSideBySide(pieces, wide)
			return
		}
		var pieces []*paper.Scene
		for range count {
			if rest == nil {
				break
			}
			piece, after, at := cut(rest, blocks, room)
			blocks = shifted(blocks, at)
			pieces, rest = append(pieces, piece), after
		}
		f.down = f.putSideBySide(pieces, wide)
		if rest != nil {
			f.turn()
		}
	}
}

// galleyRoom is how high the columns of a galley come out: cut between blocks where that
// is asked for and takes hardly more.
func (l leaf) galleyRoom(galley *paper.Scene, blocks []float64, whole bool) float64 {
	const (
		step = 8.0 // sheet units
		more = 1.35
	)
	count, _ := l.columns()
	even := galley.Height / float64(count)
	for high := even; whole && high <= more*even; high += step {
		if blockwise(galley, blocks, count, high) != nil {
			return high
		}
	}
	return even + keepWith/2
}

// putSideBySide puts columns on the page and returns where the longest ends.
func (f *flow) putSideBySide(pieces []*paper.Scene, wide float64) float64 {
	end := f.down
	for i, piece := range pieces {
		f.pages[len(f.pages)-1].Take(piece, paper.At(float64(float64(i)*(wide+columnGap)), f.down))
		end = math.Max(end, f.down+piece.Height)
	}
	return end + pieceGap
}

// balanced cuts a galley in columns as short as can be; nil where they are longer than
// the room.
func balanced(galley *paper.Scene, blocks []float64, count int, room float64) []*paper.Scene {
	const step = 8.0 // sheet units
	for high := galley.Height / float64(count); high <= room; high += step {
		if pieces := blockwise(galley, blocks, count, high); pieces != nil {
			return pieces
		}
	}
	for high := galley.Height / float64(count); high <= room; high += step {
		rest, marks := galley, blocks
		var pieces []*paper.Scene
		for range count {
			if rest == nil {
				break
			}
			piece, after, at := cut(rest, marks, high)
			if piece.Height > high {
				break
			}
			marks = shifted(marks, at)
			pieces, rest = append(pieces, piece), after
		}
		if rest == nil {
			return pieces
		}
	}
	return nil
}

// blockwise cuts a galley in columns no longer than high, between blocks alone; nil where
// that can't be.
func blockwise(galley *paper.Scene, blocks []float64, count int, high float64) []*paper.Scene {
	rest := galley
	var pieces []*paper.Scene
	for range count - 1 {
		best := 0.0
		for _, b := range blocks {
			if b > 1 && b <= high {
				best = math.Max(best, b)
			}
		}
		if rest.Height <= high || best == 0 {
			break
		}
		piece, after := rest.CutAt(best)
		pieces, rest, blocks = append(pieces, piece), after, shifted(blocks, best)
	}
	if rest.Height > high {
		return nil
	}
	return append(pieces, rest)
}

// keepWith is how much stays together at the beginning of a block: its head with the
// first rows.
const keepWith = 64.0

// cut cuts a galley where nothing is cut in two, no lower than high if that can be; rest
// is nil where nothing is left.
func cut(galley *paper.Scene, blocks []float64, high float64) (piece, rest *paper.Scene, at float64) {
	if galley.Height <= high {
		return galley, nil, galley.Height
	}
	best, first := 0.0, 0.0
	for _, gap := range galley.Gaps() {
		kept := slices.ContainsFunc(blocks, func(b float64) bool { return gap > b+1 && gap < b+keepWith })
		begins := slices.ContainsFunc(blocks, func(b float64) bool { return math.Abs(b-gap) < sectionGap })
		if kept || !begins && !rowBelow(galley, gap) {
			continue
		}
		if gap <= high {
			best = math.Max(best, gap)
		} else if first == 0 {
			first = gap
		}
	}
	if best == 0 {
		if best = first; best == 0 { // nowhere
			return galley, nil, galley.Height
		}
	}
	piece, rest = galley.CutAt(best)
	return piece, rest, best
}

// rowBelow reports whether a row of a table begins below a height: the further lines of a
// cell stand alone.
func rowBelow(galley *paper.Scene, y float64) bool {
	next, count := math.Inf(1), 0
	for _, t := range galley.Texts {
		switch {
		case t.At.Y <= y:
		case t.At.Y < next:
			next, count = t.At.Y, 1
		case t.At.Y == next:
			count++
		}
	}
	return count > 1
}

func shifted(marks []float64, by float64) []float64 {
	var list []float64
	for _, m := range marks {
		if m >= by-1 {
			list = append(list, m-by)
		}
	}
	return list
}

// writeSVG writes the one page of a sheet, as large as its paper.
func (l *laid) writeSVG(out io.Writer, id, title, story string) error {
	if len(l.pages) != 1 {
		return fmt.Errorf("it takes %s: name it .pdf, which has pages, or take --paper %s: one long sheet", figure.Count(len(l.pages), "page"), PaperNone)
	}
	margin := float64(pageMargin * unitsPerMillimeter)
	size := l.paper.Scale(unitsPerMillimeter)
	w := paper.BeginSVG(paper.Decimals, paper.At(-margin, -margin), size, id, title, story,
		paper.Attr("width", millimeters(l.paper.X)), paper.Attr("height", millimeters(l.paper.Y)))
	w.Rect(-margin, -margin, size.X, size.Y, paper.Attr("fill", "#fff"))
	l.pages[0].PutOn(w, id)
	return w.Finish(out)
}

// putOn puts all pages into a PDF.
func (l *laid) putOn(p *paper.PDF) {
	margin := paper.At(pageMargin, pageMargin).Scale(paper.PointsPerMillimeter)
	for _, page := range l.pages {
		p.Page(l.paper.Scale(paper.PointsPerMillimeter))
		p.Draw(page, margin, leafPoints)
	}
}

// putLong puts a sheet that is as long as it takes on one page of a PDF, as wide as A4.
func putLong(p *paper.PDF, s *paper.Scene) {
	scale := float64((paperSizes[PaperA4].X - 2*pageMargin) * paper.PointsPerMillimeter / s.Width)
	margin := float64(pageMargin * paper.PointsPerMillimeter)
	p.Page(paper.At(float64(s.Width*scale)+2*margin, float64(s.Height*scale)+2*margin))
	p.Draw(s, paper.At(margin, margin), scale)
}

// PaperSize is how large a paper is, upright, mm.
func PaperSize(name string) (paper.Place, error) {
	size, ok := paperSizes[name]
	if !ok {
		return size, fmt.Errorf("there is no paper %q: %s", figure.Clean(name), strings.Join(Papers()[:len(Papers())-1], ", "))
	}
	return size, nil
}

// paperFault tells what is wrong with the name of a paper for a sheet.
func paperFault(name string) error {
	if _, ok := paperSizes[name]; ok || name == "" || name == PaperUsual {
		return nil
	}
	return fmt.Errorf("there is no paper %q: %s", figure.Clean(name), strings.Join(Papers(), ", "))
}

// onPapers lays a sheet out for the paper named, or for that of the run's unit. A sheet
// that has to be one page then goes to the larger paper where it takes that.
func onPapers(named string, units linkage.Unit, onePage bool, lay func(leaf) (*laid, error)) (*laid, error) {
	first := named
	if named == PaperUsual {
		first = PaperOf(units)
	}
	l, err := lay(leafOf(first))
	if err != nil || len(l.pages) == 1 || named != PaperUsual || !onePage {
		return l, err
	}
	larger, err := lay(leafOf(LargerPaper(first)))
	if err != nil || len(larger.pages) == 1 {
		return larger, err
	}
	return l, nil
}
