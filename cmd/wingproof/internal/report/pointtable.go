package report

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"wingproof/flightlog/reduce"
)

// roomy is the width from which the table of test points has its optional columns.
const roomy = 100

// pointColumn is a column of the table of test points.
type pointColumn struct {
	head string
	most int
	cell func(p reduce.TestPoint) string
}

// PointTable writes the test points of each flight as text no wider than width columns (100 when width is
// 0), kept or dropped and why; the manoeuvres found, with the stalls, sideslips, turns and inputs among them; then for each flight what was counted, the air that it flew in and what the
// log showed. ratio is model over full size, so that the CG stands at both sizes; 0 leaves full size out.
func PointTable(to io.Writer, flights []reduce.Reduction, ratio float64, width int) error {
	if len(flights) == 0 {
		return paragraph(to, "no flight gave test points", width)
	}
	buffer := bufio.NewWriter(to)
	var w io.Writer = buffer
	if t, ok := to.(Terminal); ok {
		t.Writer = buffer
		w = t
	}
	width = columns(to, width)
	t := pointRows(flights, width)
	if err := t.write(w, width); err != nil {
		return err
	}
	if err := manoeuvreTable(w, flights, width); err != nil {
		return err
	}
	for _, d := range dynamicTables() {
		if err := d.write(w, flights, width); err != nil {
			return err
		}
	}
	for _, f := range flights {
		for _, line := range flightLines(f, ratio) {
			if err := paragraph(w, line, width); err != nil {
				return err
			}
		}
	}
	return buffer.Flush()
}

// pointRows has a row for each test point, the name of its flight in the first of them.
func pointRows(flights []reduce.Reduction, width int) *textTable {
	shown := pointColumns(flights, width)
	t := &textTable{heads: []string{"flight"}, most: []int{14}}
	for _, c := range shown {
		t.heads, t.most = append(t.heads, c.head), append(t.most, c.most)
	}
	for _, f := range flights {
		name := plain(f.Flight)
		if len(f.Points) == 0 {
			cells := make([]string, len(shown)+1)
			cells[0], cells[len(shown)] = name, "no steady stretch found"
			t.add(cells...)
		}
		for _, p := range f.Points {
			cells := []string{name}
			for _, c := range shown {
				cells = append(cells, c.cell(p))
			}
			t.add(cells...)
			name = ""
		}
	}
	return t
}

// pointColumns are the columns behind the flight's name: in a narrow table those that every reader wants, else also
// speed, drag and, where there is any, sideslip.
func pointColumns(flights []reduce.Reduction, width int) []pointColumn {
	const degree = 180 / math.Pi
	wide := width <= 0 || width >= roomy
	all := []struct {
		shown bool
		pointColumn
	}{
		{true, pointColumn{"time, s", 13, func(p reduce.TestPoint) string { return number(p.Start, 0) + "–" + number(p.End, 0) }}},
		{true, pointColumn{"kind", 9, func(p reduce.TestPoint) string { return plain(p.Kind) }}},
		{true, pointColumn{"power", 6, func(p reduce.TestPoint) string { return string(p.Power) }}},
		{wide, pointColumn{"speed, m/s", 6, func(p reduce.TestPoint) string { return number(p.Airspeed, 1) }}},
		{true, pointColumn{"CL", 6, func(p reduce.TestPoint) string { return number(p.Lift, 2) }}},
		{wide, pointColumn{"CD", 6, func(p reduce.TestPoint) string { return held(p.HasDrag, p.Drag, 3) }}},
		{true, pointColumn{"alpha, °", 6, func(p reduce.TestPoint) string { return number(p.Alpha*degree, 1) }}},
		{wide && anySideslip(flights), pointColumn{"beta, °", 5, func(p reduce.TestPoint) string { return held(p.HasSideslip, p.Sideslip*degree, 1) }}},
		{true, pointColumn{"elevator, °", 9, func(p reduce.TestPoint) string { return number(p.Elevator*degree, 1) }}},
		{true, pointColumn{"kept or dropped, why", 0, keptWords}},
	}
	var columns []pointColumn
	for _, c := range all {
		if c.shown {
			columns = append(columns, c.pointColumn)
		}
	}
	return columns
}

func anySideslip(flights []reduce.Reduction) bool {
	return slices.ContainsFunc(flights, func(f reduce.Reduction) bool {
		return slices.ContainsFunc(f.Points, func(p reduce.TestPoint) bool { return p.HasSideslip })
	})
}

// held is a number that not every point has.
func held(has bool, x float64, decimals int) string {
	if !has {
		return ""
	}
	return number(x, decimals)
}

// mostReasons is how many reasons a row tells; the documents hold all.
const mostReasons = 2

func keptWords(p reduce.TestPoint) string {
	verdict := "dropped"
	if p.Kept {
		verdict = "kept"
	}
	if p.Reason == "" {
		return verdict
	}
	reasons := strings.Split(plain(p.Reason), "; ")
	if more := len(reasons) - mostReasons; more > 1 {
		reasons = append(reasons[:mostReasons], fmt.Sprintf("and %d more", more))
	}
	return verdict + ": " + strings.Join(reasons, "; ")
}

// flightLines say of one flight how much counts, what it was flown with, and what the log showed.
func flightLines(f reduce.Reduction, ratio float64) []string {
	lines := []string{plain(f.Flight) + ": " + countWords(f.Points) + ballastWords(f.Points, ratio)}
	if f.Air.Enough {
		lines = append(lines, plain(f.Flight)+": "+AirWords(f.Air))
	}
	for _, line := range findingLines(f.Findings) {
		lines = append(lines, plain(f.Flight)+": "+line)
	}
	return lines
}

func countWords(points []reduce.TestPoint) string {
	kept := 0
	for _, p := range points {
		if p.Kept {
			kept++
		}
	}
	return fmt.Sprintf("%d of %d steady stretches kept", kept, len(points))
}

// ballastWords are the mass and the CG of a flight, which all its points share.
func ballastWords(points []reduce.TestPoint, ratio float64) string {
	if len(points) == 0 || points[0].Mass == 0 {
		return ""
	}
	p := points[0]
	words := "; " + number(p.Mass, 2) + " kg, CG "
	if ratio > 0 {
		return words + cgWords(p.CG/ratio, ratio)
	}
	return words + "model " + number(1000*p.CG, 0) + " mm"
}
