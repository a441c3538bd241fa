package picture

import (
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"fullfree/linkage"
	"fullfree/render/internal/paper"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The crank-rocker of S. Macharia and others, Planar Mechanics: ground 100, crank
// 40, coupler 120, rocker 80.
const (
	barsGround, barsCrank, barsCoupler, barsRocker = 100.0, 40.0, 120.0, 80.0
	barsDrawn                                      = 90.0
)

// barsRockerAt is the direction of the rocker at a crank angle, degrees: the open
// crossing of two circles.
func barsRockerAt(crank float64) float64 {
	sin, cos := math.Sincos(crank * math.Pi / 180)
	x, y := barsCrank*cos, barsCrank*sin
	far := math.Hypot(barsGround-x, y)
	along := (far*far + barsCoupler*barsCoupler - barsRocker*barsRocker) / (2 * far)
	off := math.Sqrt(barsCoupler*barsCoupler - along*along)
	ux, uy := (barsGround-x)/far, -y/far
	return math.Atan2(y+along*uy+off*ux, x+along*ux-off*uy-barsGround) * 180 / math.Pi
}

func barsText() string {
	rocker := barsRockerAt(barsDrawn) * math.Pi / 180
	return fmt.Sprintf(`run "Bars" {
  units = "mm"
}
part "crank" {
  pivot  = [0, 0]
  points = { pin = [0, %v] }
}
part "rocker" {
  pivot  = [%v, 0]
  points = { pin = [%v, %v] }
}
rod "coupler" {
  from = crank.pin
  to   = rocker.pin
}
control "hand" {
  of   = crank
  from = -50
  to   = 40
}
output "gauge" {
  of    = rocker
  reads = 12
}
`, barsCrank, barsGround, barsGround+barsRocker*math.Cos(rocker), barsRocker*math.Sin(rocker))
}

// drawnChart is a chart as anybody reads it off its picture.
type drawnChart struct {
	root   map[string]string
	ticks  map[float64]float64 // values on their axis, by where on the sheet
	curves []string            // the d of every curve
}

func readChart(t testing.TB, svg string) drawnChart {
	t.Helper()
	c := drawnChart{root: map[string]string{}, ticks: map[float64]float64{}}
	decoder := xml.NewDecoder(strings.NewReader(svg))
	var at *float64
	for {
		token, err := decoder.Token()
		if err == io.EOF {
			return c
		}
		require.NoError(t, err)
		switch token := token.(type) {
		case xml.StartElement:
			attrs := map[string]string{}
			for _, a := range token.Attr {
				attrs[a.Name.Local] = a.Value
			}
			at = nil
			switch {
			case token.Name.Local == "svg":
				c.root = attrs
			case attrs["class"] == "series":
				c.curves = append(c.curves, attrs["d"])
			case token.Name.Local == "text" && attrs["text-anchor"] == "end" && readNumber(t, attrs["x"]) < readNumber(t, c.root["data-left"]):
				y := readNumber(t, attrs["y"]) - smallSize*0.35
				at = &y
			}
		case xml.CharData:
			if at != nil {
				c.ticks[*at] = readNumber(t, string(token))
				at = nil
			}
		}
	}
}

func readNumber(t testing.TB, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

// What is drawn, read off with the axes of the picture itself, is the closed form.
func TestChartCurvesAreTheRun(t *testing.T) {
	result := checkedOnce(t, "bars.hcl", barsText())
	charts := chartsIn(result, result.Sweeps[0])
	require.Equal(t, "Output gauge", charts[0].title)
	svg := readChart(t, chartSVG(t, &charts[0]))
	require.Len(t, svg.curves, 1)

	low, high := readNumber(t, svg.root["data-low"]), readNumber(t, svg.root["data-high"])
	left, right := readNumber(t, svg.root["data-left"]), readNumber(t, svg.root["data-right"])
	require.GreaterOrEqual(t, len(svg.ticks), 3)
	// The least squares of the ticks would do no better: take the outermost two.
	yLow, yHigh := math.Inf(-1), math.Inf(1)
	for y := range svg.ticks {
		yLow, yHigh = math.Max(yLow, y), math.Min(yHigh, y)
	}
	perUnit := (svg.ticks[yHigh] - svg.ticks[yLow]) / (yHigh - yLow)

	places := regexp.MustCompile(`([-\d.]+) ([-\d.]+)`).FindAllStringSubmatch(svg.curves[0], -1)
	require.Greater(t, len(places), 40)
	neutral := barsRockerAt(barsDrawn)
	for _, p := range places {
		x, y := readNumber(t, p[1]), readNumber(t, p[2])
		at := low + (high-low)*(x-left)/(right-left)
		got := svg.ticks[yLow] + perUnit*(y-yLow)
		// A hundredth of a unit of the sheet is what is written.
		across := 0.01 * (high - low) / (right - left)
		assert.InDelta(t, 12+barsRockerAt(barsDrawn+at)-neutral, got, 0.02*math.Abs(perUnit)+2*across, "at %v", at)
	}
	first, last := readNumber(t, places[0][1]), readNumber(t, places[len(places)-1][1])
	assert.InDelta(t, -50, low+(high-low)*(first-left)/(right-left), 0.01, "from end")
	assert.InDelta(t, 40, low+(high-low)*(last-left)/(right-left), 0.01, "to end")
}

// madeUp is a chart of figures, at so many places from -10 to 10.
func madeUp(figures ...[]*float64) *chart {
	part := &linkage.Part{Name: "lever"}
	sweep := &solve.Sweep{Control: &linkage.Control{Name: "hand", Of: part}, Unit: "deg", Low: -10, High: 10}
	sweep.Ends = [2]solve.End{{At: -10, Cause: solve.ByLimit}, {At: 10, Cause: solve.ByLimit}}
	course := &solve.Course{}
	for k := range figures[0] {
		at := solve.PoseSample{At: -10 + 20*float64(k)/float64(max(1, len(figures[0])-1))}
		for i := range figures {
			at.Values = append(at.Values, figures[i][k])
		}
		course.Samples = append(course.Samples, at)
	}
	c := &chart{id: "chart-x", title: "Made up", sweep: sweep, course: course, unit: "deg"}
	for i := range figures {
		c.lines = append(c.lines, chartLine{name: fmt.Sprintf("line %d", i+1), series: i})
	}
	return c
}

func figures(list ...float64) (out []*float64) {
	for _, v := range list {
		if math.IsNaN(v) {
			out = append(out, nil)
		} else {
			out = append(out, &v)
		}
	}
	return out
}

func TestChartBreaksWhereThereIsNoValue(t *testing.T) {
	none := math.NaN()
	c := madeUp(figures(none, 1, 2, 3, none, 2, none))
	svg := readChart(t, chartSVG(t, c))
	require.Len(t, svg.curves, 1, "what stands alone is no line")
	assert.Equal(t, 2, strings.Count(svg.curves[0], "L"))
	p := c.plot(true)
	require.Len(t, p.scene.Shapes[paper.LayerHoles], 1, "but a symbol")
	assert.Equal(t, []paper.Place{p.on(c.course.Samples[5].At, 2)}, p.scene.Shapes[paper.LayerHoles][0].Through)

	c = madeUp(figures(1, 2, none, 2, 1))
	assert.Len(t, readChart(t, chartSVG(t, c)).curves, 2)
	c = madeUp(figures(none, none, none))
	assert.Empty(t, readChart(t, chartSVG(t, c)).curves, "nothing is drawn of nothing")
}

func TestChartOfWhatDoesNotChange(t *testing.T) {
	for _, v := range []float64{0, 90, -1e-300, 1e6} {
		c := madeUp(figures(v, v, v), figures(v, v, v))
		svg := readChart(t, chartSVG(t, c))
		require.Len(t, svg.curves, 2)
		assert.GreaterOrEqual(t, len(svg.ticks), 3, "%v", v)
		assertClear(t, &c.plot(true).scene)
	}
	// Rounding isn't drawn as a change.
	c := madeUp(figures(90, 90+1e-13, 90))
	least, most := c.valueRange()
	assert.Greater(t, most-least, 0.5)
}

// A run that doesn't move is still a chart.
func TestChartWithoutTravel(t *testing.T) {
	c := madeUp(figures(5))
	c.sweep.Low, c.sweep.High = 0, 0
	c.sweep.Ends[0].At, c.sweep.Ends[1].At = 0, 0
	c.course.Samples[0].At = 0
	assertSelfContained(t, chartSVG(t, c))
}

// A ratio beside a toggle runs away; the rest stays readable.
func TestChartOfARatioToAToggle(t *testing.T) {
	result := checkedOnce(t, "throttle.hcl", without(sample.DemoText(t, "throttle"), "tail-stop"))
	charts := chartsIn(result, result.Sweeps[0])
	c := &charts[len(charts)-1]
	require.Equal(t, "Ratio of butterfly to throttle", c.title)
	largest := 0.0
	for k := range c.course.Samples {
		if v := c.value(&c.lines[0], k); v != nil {
			largest = math.Max(largest, math.Abs(*v))
		}
	}
	require.Greater(t, largest, 10.0)
	least, most := c.valueRange()
	assert.Less(t, most, 6.0)
	assert.Less(t, least, 1.06)
	p := c.plot(true)
	for _, sh := range p.scene.Shapes[paper.LayerNeutral] {
		for _, at := range sh.Through {
			assert.True(t, paper.Window{Low: p.area.Low.Sub(paper.At(1e-9, 1e-9)), High: p.area.High.Add(paper.At(1e-9, 1e-9))}.Holds(at), "%v leaves the plot", at)
		}
	}
	assert.Contains(t, c.says, "high end none", "at the toggle there is none")
	assertClear(t, &p.scene)
}
