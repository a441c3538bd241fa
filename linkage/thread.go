package linkage

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// millimetersInch is an inch in millimeters, exactly.
const millimetersInch = 25.4

// coarsest is the largest pitch that a thread has, of its diameter: that of
// M1x0.25. Of one still coarser the diameter and the pitch don't belong together.
const coarsest = 0.25

// largestNumber is the largest of the numbered sizes of the unified series.
const largestNumber = 12

// unifiedCounts are the threads to an inch of the unified series, coarse, fine,
// extra fine and of constant pitch (ASME B1.1, from memory).
var unifiedCounts = []int{80, 72, 64, 56, 48, 44, 40, 36, 32, 28, 27, 24, 20, 18, 16, 14, 13, 12, 11, 10, 9, 8, 7, 6, 5, 4}

// metricPitches are the pitches of the metric series, mm (ISO 261, from memory).
var metricPitches = []float64{0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.6, 0.7, 0.75, 0.8, 1, 1.25, 1.5, 1.75, 2, 2.5, 3, 3.5, 4, 4.5, 5, 5.5, 6, 8}

// coarsePitches are the pitches meant by a metric thread without one, by its
// diameter, mm: those of the coarse series (ISO 261, from memory).
var coarsePitches = map[float64]float64{3: 0.5, 4: 0.7, 5: 0.8, 6: 1, 8: 1.25, 10: 1.5, 12: 1.75, 16: 2, 20: 2.5}

// rodEndThreads are those that rod ends are commonly made with, for "did you
// mean" (common practice, no source).
var rodEndThreads = []string{
	"6-32", "8-32", "8-36", "10-24", "10-32", "1/4-28", "5/16-24", "3/8-24", "7/16-20", "1/2-20", "5/8-18", "3/4-16",
	"M3x0.5", "M4x0.7", "M5x0.8", "M6x1", "M8x1.25", "M10x1.25", "M10x1.5", "M12x1.25", "M12x1.75", "M14x2", "M16x1.5", "M16x2", "M20x1.5",
}

var (
	unifiedName = regexp.MustCompile(`^(?:([1-9]\d?)/([1-9]\d?)|(0|[1-9]\d?))-([1-9]\d?)$`)
	metricName  = regexp.MustCompile(`^M([1-9]\d?(?:\.\d{1,2})?)(?:x(\d(?:\.\d{1,2})?))?$`)
	// looseName finds a thread in what is written with more than it needs.
	looseName = regexp.MustCompile(`\d{1,2}/\d{1,2}-\d{1,2}|M\d{1,2}(?:\.\d{1,2})?(?:x\d(?:\.\d{1,2})?)?|\d{1,2}-\d{1,2}`)
	leftHand  = regexp.MustCompile(`(?i)\b(LH|left)\b`)
)

// ParseThread returns the thread of a name, with its pitch and major diameter
// in the given units: unified, by its size in inches or its number and the
// threads to an inch ("1/4-28", "10-32"; number N is 0.060 + 0.013 N in
// across), or metric, by diameter and pitch in millimeters ("M6x1"). A metric
// pitch may be left out where it is the coarse one of a common size.
//
// The error says what is wrong with the name, and what was probably meant.
func ParseThread(name string, units Unit) (Thread, error) {
	t, says := parseThread(name)
	if says != "" {
		return Thread{}, errors.New(says + meantThread(name))
	}
	if units == Inches && t.metric {
		t.Pitch, t.Diameter = t.Pitch/millimetersInch, t.Diameter/millimetersInch
	}
	if units == Millimeters && !t.metric {
		t.Pitch, t.Diameter = float64(millimetersInch*t.Pitch), float64(millimetersInch*t.Diameter)
	}
	return t.Thread, nil
}

// namedThread is a thread in the unit of its series: millimeters where it is
// metric, else inches.
type namedThread struct {
	Thread
	metric bool
}

// parseThread returns the thread of a name, or says what is wrong with that.
func parseThread(name string) (t namedThread, says string) {
	t.Name = name
	if m := unifiedName.FindStringSubmatch(name); m != nil {
		says = t.unified(m[1], m[2], m[3], m[4])
	} else if m := metricName.FindStringSubmatch(name); m != nil {
		t.metric = true
		says = t.byMillimeters(m[1], m[2])
	} else {
		says = fmt.Sprintf(`%s is no thread: one is written "1/4-28" or "10-32", size and threads to an inch, or "M6x1", diameter and pitch`, shortName(name))
	}
	if says == "" && t.Pitch > coarsest*t.Diameter {
		says = fmt.Sprintf("%s is no thread: no pitch is more than a quarter of the diameter", shortName(name))
	}
	return t, says
}

// unified sets the figures of a unified thread: of a size over/under inches, or
// of a number, and its threads to an inch.
func (t *namedThread) unified(over, under, number, count string) (says string) {
	threads, _ := strconv.Atoi(count) // two digits at most, like all of these
	if over == "" {
		n, _ := strconv.Atoi(number)
		if n > largestNumber {
			return fmt.Sprintf("there is no numbered size %d: they go from 0 to %d", n, largestNumber)
		}
		t.Diameter = float64(60+13*n) / 1000
	} else {
		a, _ := strconv.Atoi(over)
		b, _ := strconv.Atoi(under)
		if !slices.Contains([]int{2, 4, 8, 16, 32, 64}, b) || a < 1 || a >= b {
			return fmt.Sprintf("%d/%d in is no size of thread: sizes are halves, quarters and so on, to 64ths, less than 1", a, b)
		}
		t.Diameter = float64(a) / float64(b)
	}
	if !slices.Contains(unifiedCounts, threads) {
		return fmt.Sprintf("no thread of the unified series has %d threads to an inch", threads)
	}
	t.Pitch = 1 / float64(threads)
	return ""
}

// byMillimeters sets the figures of a metric thread.
func (t *namedThread) byMillimeters(diameter, pitch string) (says string) {
	t.Diameter, _ = strconv.ParseFloat(diameter, 64)
	if pitch == "" {
		coarse, known := coarsePitches[t.Diameter]
		if !known {
			return fmt.Sprintf("M%s needs its pitch after it, as in M6x1", diameter)
		}
		t.Pitch = coarse
		return ""
	}
	t.Pitch, _ = strconv.ParseFloat(pitch, 64)
	if !slices.Contains(metricPitches, t.Pitch) {
		return fmt.Sprintf("no metric thread has a pitch of %g", t.Pitch)
	}
	return ""
}

// meantThread says which thread was probably meant by a name that is none: one
// that stands in it, else the nearest of those common for rod ends.
func meantThread(name string) string {
	plain := strings.NewReplacer(" ", "", "×", "x", "X", "x", "*", "x", "m", "M", ",", ".", "–", "-").Replace(shortened(name))
	best := looseName.FindString(plain)
	if _, says := parseThread(best); says != "" {
		best = Nearest(plain, rodEndThreads)
	}
	if best == "" {
		return ""
	}
	if leftHand.MatchString(name) {
		return fmt.Sprintf("; did you mean %q, with hand = \"left\"?", best)
	}
	return fmt.Sprintf("; did you mean %q?", best)
}
