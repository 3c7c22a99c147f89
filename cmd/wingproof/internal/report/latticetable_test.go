package report

import (
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/plots"
)

func TestNumbersShowTheDigitsThatTheirErrorLeaves(t *testing.T) {
	for _, c := range []struct {
		value, grid, factor float64
		want                string
	}{
		{4.38393, 0.0057, 1, "4.384 ± 0.006"},
		{4.38393, 0.0123, 1, "4.384 ± 0.012"},
		{-0.13566, 0.0013, 1, "−0.1357 ± 0.0013"},
		{27820.6, 27.4, 1, "27821 ± 27"},
		{27820.6, 1950, 1, "27821 ± 1950"},
		{0.0740203, 0.00012, 180 / math.Pi, "4.241 ± 0.007"},
		{0.5, 5e-16, 1, "0.5"},
		{0.5, math.NaN(), 1, "0.5"},
		{1.0 / 3, math.NaN(), 1, "0.33333"},
		{-3e-16, 2e-15, 1, "0"},
		{math.NaN(), 0.1, 1, "none"},
	} {
		require.Equal(t, c.want, gridNumber(c.value, c.grid, c.factor))
	}
	require.Equal(t, "+0.0082 ± 0.0003", signedGrid(0.0082, 0.0003, 1))
	require.Equal(t, "−0.0082 ± 0.0003", signedGrid(-0.0082, 0.0003, 1))
	require.Equal(t, "0", signedGrid(0, 0, 1))
	require.Equal(t, "3.947 to 4.090", theoryWords(3.9471, 4.0897, 1)) // a tenth of the width is rounded as an error is
	require.Empty(t, theoryWords(math.NaN(), math.NaN(), 1))
}

func sampleHead() LatticeHead {
	return LatticeHead{Program: "Sandreed (invented)", Reference: aero.Reference{Area: 11.96, Span: 8.4, MeanChord: 1.679, MeanChordLeadingEdge: 3.905},
		MomentX: 3.686, MomentZ: 0.15, MomentWhy: "as asked", LengthRatio: 0.25, Lift: 0.5, Trimmed: true, Density: 1, Panels: []int{560, 648}, GridErrors: true}
}

func sampleGroups() []PredictedGroup {
	nan := math.NaN()
	rows := []PredictedRow{
		{Quantity: evidence.NeutralPoint, Unit: "m", Value: 4.0185, Grid: 0.0026, Low: 3.947, High: 4.09},
		{Quantity: "dihedral_effect", Unit: "1/rad", Value: -0.1356, Grid: 0.0012, Low: nan, High: nan},
		{Quantity: "elevator_power", Unit: "1/rad", Value: nan, Grid: nan, Low: nan, High: nan},
	}
	return []PredictedGroup{
		{Name: "winglet=mid", Rows: rows, Warnings: []string{"edges do not meet", "trim is far"}},
		{Name: "winglet=tall\x1b[2J", Rows: rows, Warnings: []string{"edges do not meet"}},
	}
}

// The head of the table lets another program be set up alike: everything that a number depends on stands in it.
func TestLatticeTableStatesItsCondition(t *testing.T) {
	text := printed(t, func(w io.Writer) error { return LatticeTable(w, sampleHead(), sampleGroups(), 100) })
	whole := strings.Join(strings.Fields(text), " ")
	for _, want := range []string{
		"area 11.9600 m², span 8.4000 m, mean aerodynamic chord 1.6790 m", "3.686 m (model 922 mm) aft of datum, z 0.150 m (as asked)", "body axes (X forward, Y right, Z down)",
		"pb/2V, qc/2V, rb/2V", "lift coefficient 0.5, trimmed by the elevator", "Mach 0 (incompressible)", "free air, wakes along the body x axis", "no fuselage",
		"density 1, 560 to 648 panels on the right half", "neutral point, aft of datum 4.019 ± 0.003 m 3.947 to 4.090",
		"look at: edges do not meet", "look at: trim is far (winglet=mid)",
	} {
		require.Contains(t, whole, want)
	}
	require.Equal(t, 1, strings.Count(whole, "edges do not meet"))
	require.NotContains(t, text, "elevator power", "what there is none of has no row")
	require.NotContains(t, text, "\x1b")
	requireWidth(t, text, 100)
}

func TestLatticeHeadSaysEveryOtherCondition(t *testing.T) {
	h := sampleHead()
	alpha := 3 * math.Pi / 180
	h.Alpha, h.Trimmed, h.Mach, h.Ground, h.Fuselage, h.GridErrors = &alpha, false, 0.3, 1.2, true, false
	words := strings.Join(h.lines(), "\n")
	for _, want := range []string{"angle of attack 3°, controls neutral, not trimmed", "Mach 0.3 by Prandtl and Glauert's rule", "datum 1.2 m over level ground", "fuselage by slender-body theory", "was not estimated"} {
		require.Contains(t, words, want)
	}
	h.Alpha, h.Ground, h.AlongStream, h.Where, h.GridErrors = nil, 0, true, "at the ends only", true
	words = strings.Join(h.lines(), "\n")
	require.Contains(t, words, "lift coefficient 0.5, controls neutral, not trimmed")
	require.Contains(t, words, "free air, wakes along the stream")
	require.Contains(t, words, "at the ends only")
}

func sampleSweep() SweepTable {
	nan := math.NaN()
	return SweepTable{Configuration: "winglet=mid", Sizes: []string{"winglet.height_m"}, Quantities: []string{evidence.NeutralPoint, "induced_drag", "elevator_power"},
		Units: []string{"m", "1", "1/rad"}, Rows: []SweepRow{
			{Sizes: []float64{0.6}, Values: []float64{4.008, 0.01414, nan}, Grid: []float64{0.0027, 0.000019, nan}},
			{Sizes: []float64{0.95}, Baseline: true, Values: []float64{4.0185, 0.01364, nan}},
			{Sizes: []float64{nan}, Values: []float64{4.0256, 0.01322, nan}},
		}}
}

func TestSweepTable(t *testing.T) {
	text := printed(t, func(w io.Writer) error { return sampleSweep().Write(w, sampleHead(), 120) })
	whole := strings.Join(strings.Fields(text), " ")
	require.Contains(t, whole, "0.6 4.008 141.40 ± 0.003 ± 0.19")
	require.Regexp(t, `0\.95 +4\.019 +136\.40 +baseline`, text)
	require.Contains(t, whole, "as drawn 4.026")
	require.NotContains(t, whole, "elevator power")
	requireWidth(t, text, 120)
}

func sampleComparison() Comparison {
	nan := math.NaN()
	row := func(value float64, d Difference) ComparedRow {
		return ComparedRow{PredictedRow{Quantity: evidence.NeutralPoint, Unit: "m", Value: value, Grid: 0.0026, Low: 3.9, High: 4.1}, d}
	}
	measured := evidence.Estimate{Quantity: evidence.NeutralPoint, Unit: "m", Origin: evidence.Measured, Scale: evidence.ModelScale, State: evidence.Determined,
		Value: evidence.Pointer(4.055), Low: evidence.Pointer(4.044), High: evidence.Pointer(4.066)}
	return Comparison{Choice: "winglet", Baseline: "mid", Others: "with foreplane=long", Levels: []ComparedLevel{
		{Level: "mid", Configuration: "winglet=mid", Estimates: []evidence.Estimate{measured}, Predicted: []ComparedRow{row(4.0185, Difference{nan, nan, nan, nan})}},
		{Level: "tall", Configuration: "winglet=tall", Predicted: []ComparedRow{row(4.0267, Difference{0.0082, 0.0003, -0.009, 0.025})}},
	}, Drags: []DragComparison{{Condition: "cruise", Lift: 0.342, Speed: 64.3, Rows: []DragRow{
		{Level: "mid", Baseline: true, Induced: 0.0787, Profile: 0.091, ProfileHalf: 0.008},
		{Level: "tall", Induced: 0.0761, Profile: 0.0946, ProfileHalf: 0.008, MoreInduced: -0.00254, MoreProfile: 0.00359, Net: 0.00105, NetHalf: 0.0005, Force: 2.4},
	}}}, Warnings: []string{"no cruise"}}
}

func TestCompareTable(t *testing.T) {
	text := printed(t, func(w io.Writer) error { return CompareTable(w, sampleHead(), sampleComparison(), 100) })
	whole := strings.Join(strings.Fields(text), " ")
	for _, want := range []string{"winglet, against mid; with foreplane=long", "measured, model", "4.055 (4.044 to 4.066) m", "mid 4.019 ± 0.003 baseline",
		"tall 4.027 ± 0.003 +0.0082 ± 0.0003 −0.009 to 0.025", "tall 76.1 95 ± 8 −2.54 +3.59 +1.1 ± 0.5 +2.4 ± 1.1", "look at: no cruise"} {
		require.Contains(t, whole, want)
	}
	require.NotContains(t, text, "anchored", "a road that nobody went has no column")
	requireWidth(t, text, 100)

	bare := sampleComparison()
	bare.Levels[0].Estimates = nil
	require.Contains(t, printed(t, func(w io.Writer) error { return CompareTable(w, sampleHead(), bare, 100) }), "the lattice alone speaks")
}

func TestStripTable(t *testing.T) {
	groups := []StripGroup{{Name: "winglet=mid", Strips: []aero.StripLoad{
		{Surface: "wing", Width: 0.1, Chord: 1.679, SectionLift: 0.5}, {Surface: "wing", Width: 0.1, Chord: 0.8395, SectionLift: 0.5}, {Surface: "winglet", Width: 0.1, Chord: 0.5, SectionLift: 0.2},
	}}}
	text := printed(t, func(w io.Writer) error { return StripTable(w, sampleHead(), groups, 100) })
	require.Regexp(t, `wing +0\.0000 .* 0\.5000 +0\.5000\n +0\.0000 .* 0\.5000 +0\.2500\nwinglet`, text)
	requireWidth(t, text, 100)
}

func TestLatticeTablesPassWriteErrorsOn(t *testing.T) {
	for name, write := range map[string]func(io.Writer) error{
		"lattice": func(w io.Writer) error { return LatticeTable(w, sampleHead(), sampleGroups(), 100) },
		"sweep":   func(w io.Writer) error { return sampleSweep().Write(w, sampleHead(), 100) },
		"compare": func(w io.Writer) error { return CompareTable(w, sampleHead(), sampleComparison(), 100) },
		"strips":  func(w io.Writer) error { return StripTable(w, sampleHead(), nil, 100) },
	} {
		require.ErrorIs(t, write(full{}), io.ErrShortWrite, name)
	}
}

// Every figure becomes two drawings with a name that any system takes, and one page shows them all.
func TestFigureFiles(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "made", "here")
	svg := []byte(`<svg xmlns="http://www.w3.org/2000/svg"><title>x</title></svg>`)
	f := plots.Figure{SVG: svg, Narrow: svg, Title: "x", Alt: "nothing. At all."}
	page, err := WriteFigureFiles(dir, "sweep", "Sandreed <b>", []NamedFigure{{"Cn_β: of it", f}, {"Cn_β: of it", f}, {"../../etc", f}, {"β", f}})
	require.NoError(t, err)
	require.Equal(t, filepath.Join(dir, "sweep.html"), page)
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	require.Equal(t, []string{"sweep-cn-of-it-2-narrow.svg", "sweep-cn-of-it-2.svg", "sweep-cn-of-it-narrow.svg", "sweep-cn-of-it.svg", "sweep-etc-narrow.svg",
		"sweep-etc.svg", "sweep-figure-narrow.svg", "sweep-figure.svg", "sweep.html"}, names)
	content, err := os.ReadFile(page)
	require.NoError(t, err)
	require.Contains(t, string(content), "Sandreed &lt;b&gt;")

	f.SVG = []byte("<script>")
	_, err = WriteFigureFiles(dir, "bad", "x", []NamedFigure{{"a", f}})
	require.Error(t, err)
	require.NoFileExists(t, filepath.Join(dir, "bad-a.svg"))
}
