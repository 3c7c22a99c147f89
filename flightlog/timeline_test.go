package flightlog

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// timed is a log whose rows have these times; wy counts the rows from 1.
func timed(times ...float64) string {
	var b strings.Builder
	b.WriteString("time,wy,speed\n")
	for i, t := range times {
		fmt.Fprintf(&b, "%g,%d,36\n", t, i+1)
	}
	return b.String()
}

// keptRows are the numbers of the rows that a reader kept, in chunks of one line and in one piece.
func keptRows(t *testing.T, times ...float64) []int {
	t.Helper()
	m := fieldBox()
	m.Columns[0] = Column{Column: "wy", Is: PitchRate, Unit: "rad/s"}
	want, err := referenceRead(timed(times...), "a.csv", m)
	require.NoError(t, err)
	for _, chunk := range []int{1, chunkSize} {
		got, err := readWith(strings.NewReader(timed(times...)), "a.csv", m, 2, chunk)
		require.NoError(t, err)
		requireSame(t, want, got)
	}
	var rows []int
	for _, v := range want.Channels[PitchRate].Value {
		rows = append(rows, int(v))
	}
	return rows
}

func TestTimelineKeeps(t *testing.T) {
	for _, c := range []struct {
		name  string
		times []float64
		want  []int
	}{
		{"rises", []float64{0, 1, 2, 3}, []int{1, 2, 3, 4}},
		{"three ahead", []float64{0, 1, 900, 901, 902, 2, 3, 4, 5}, []int{1, 2, 6, 7, 8, 9}},
		{"three ahead, too few behind", []float64{0, 1, 900, 901, 902, 2, 3, 4}, []int{1, 2, 3, 4, 5}},
		{"four ahead", []float64{0, 1, 900, 901, 902, 903, 2, 3, 4, 5, 6, 7}, []int{1, 2, 3, 4, 5, 6}},
		{"first rows ahead", []float64{900, 901, 0, 1, 2, 3}, []int{3, 4, 5, 6}},
		{"starts anew", []float64{10, 11, 12, 13, 14, 0, 1, 2, 13, 15}, []int{1, 2, 3, 4, 5, 10}},
		{"ahead again", []float64{0, 900, 1, 2, 901, 3, 4, 5}, []int{1, 3, 4, 6, 7, 8}},
		// 1, 2 and 3 were settled by the rows behind them before these proved to be in error
		{"settled", []float64{1, 2, 3, 900, 901, 902, 4, 5, 6, 7, 2.5, 2.6, 2.7, 2.8, 2.9, 8}, []int{1, 2, 3, 7, 8, 9, 10, 16}},
		{"backward at double speed", []float64{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 7, 5, 3, 1}, []int{1, 2, 3, 4, 5, 6, 7, 8}},
	} {
		require.Equal(t, c.want, keptRows(t, c.times...), c.name)
	}
}

// The first kept row is the zero of time, also where rows ahead of it prove to be in error.
func TestTimelineZero(t *testing.T) {
	rec := read(t, fieldBox(), timed(900, 901, 10, 11, 12, 13))
	require.Equal(t, []float64{0, 1, 2, 3}, rec.Channels[PitchRate].Time)
	require.Equal(t, 890.0, rec.Findings[0].Start)
	require.Equal(t, 891.0, rec.Findings[0].End)
}

// Steps back are told one by one up to a number, and summed up from there on.
func TestTimelineTellsManySteps(t *testing.T) {
	var times []float64
	for i := range 400 {
		times = append(times, float64(i))
		if i%10 == 9 {
			times = append(times, float64(i)-5)
		}
	}
	keptRows(t, times...) // the plain reader tells the same
	rec := read(t, fieldBox(), timed(times...))
	require.Len(t, rec.Findings, 20)
	require.Equal(t, "time runs backward: 1 rows from line 12 to 12", rec.Findings[0].What)
	require.Equal(t, Finding{Severity: Loss, Start: 194, End: 394, What: "time runs backward again and again from line 221 to 441", Consequence: "these rows are left out", Line: 221}, rec.Findings[19])
}

// A sample that repeats a time counts only where its row is kept.
func TestTimelineRepeatsOfRevokedRows(t *testing.T) {
	keptRows(t, 0, 1, 900, 900, 2, 3, 4, 5)
	rec := read(t, fieldBox(), timed(0, 1, 900, 900, 2, 3, 4, 5, 5))
	require.Len(t, rec.Findings, 2)
	require.Equal(t, "2 samples repeat a time at which their channel already has one", rec.Findings[1].What)
	require.Equal(t, 10, rec.Findings[1].Line)
}

// Times so far apart that their difference is no number any more are no times.
func TestTimelineExtremes(t *testing.T) {
	rec := read(t, fieldBox(), timed(0, math.MaxFloat64, -1e301, 1e300, 1))
	require.Equal(t, `2 rows hold no time that can be read, such as "1.7976931348623157e+308"`, rec.Findings[0].What)
	require.Equal(t, []float64{0, 1e300}, rec.Channels[PitchRate].Time)
}
