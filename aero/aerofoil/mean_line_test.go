package aerofoil

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// linePoints samples a mean line at n + 1 places, crowded at the ends, rounded to five decimals as in printed tables.
func linePoints(f drawn, n int) []Point {
	var points []Point
	for i := range n + 1 {
		x := (1 - math.Cos(math.Pi*float64(i)/float64(n))) / 2
		points = append(points, Point{x, math.Round(f.Height(x)*1e5) / 1e5})
	}
	return points
}

func TestMeanLineFromItsPoints(t *testing.T) {
	for _, name := range []string{"2412", "4412", "2312", "23012", "24012", "23112", "25112"} {
		f := drawnOf(t, name)
		want := ThinAerofoil(f)
		for _, n := range []int{16, 24, 60} {
			points := linePoints(f, n)
			section, err := MeanLineFromPoints(name, points)
			require.NoError(t, err)
			require.Empty(t, section.Doubt)
			require.Zero(t, section.Thickness)
			got := ThinAerofoil(section.Line)
			require.InDelta(t, want.ZeroLiftAlpha/degree, got.ZeroLiftAlpha/degree, 0.03, name)
			require.InDelta(t, want.QuarterChordMoment, got.QuarterChordMoment, 0.001, name)
			require.InDelta(t, want.IdealAlpha/degree, got.IdealAlpha/degree, 0.07, name)
		}
	}
}

func TestMeanLineOfAParabolaIsExact(t *testing.T) {
	var points []Point
	for i := range 6 {
		x := float64(i) / 5
		points = append(points, Point{x, 0.16 * x * (1 - x)})
	}
	section, err := MeanLineFromPoints("arc", points)
	require.NoError(t, err)
	require.Len(t, section.Line, 1) // no more terms than it needs
	thin := ThinAerofoil(section.Line)
	require.InDelta(t, -0.08, thin.ZeroLiftAlpha, 1e-12) // −2h, Glauert
	require.InDelta(t, -0.04*math.Pi, thin.QuarterChordMoment, 1e-12)
}

func TestMeanLineScaleTurnAndOrderDoNotMatter(t *testing.T) {
	points := linePoints(drawnOf(t, "23012"), 24)
	plain, err := MeanLineFromPoints("plain", points)
	require.NoError(t, err)
	turned := make([]Point, len(points))
	for i, p := range points {
		sin, cos := math.Sincos(-5 * degree)
		turned[len(points)-1-i] = Point{40 + 300*(p.X*cos-p.Y*sin), 7 + 300*(p.X*sin+p.Y*cos)}
	}
	other, err := MeanLineFromPoints("turned", turned)
	require.NoError(t, err)
	for _, x := range []float64{0, 0.1, 0.5, 1} {
		require.InDelta(t, plain.Line.Slope(x), other.Line.Slope(x), 1e-9)
	}
}

func TestMeanLineBearsScatter(t *testing.T) {
	f := drawnOf(t, "4412")
	rapid.Check(t, func(t *rapid.T) {
		points := linePoints(f, 40)
		for i := range points[1:40] { // up to 0.03 % of the chord
			points[i+1].Y += rapid.Float64Range(-0.0003, 0.0003).Draw(t, "slip")
		}
		section, err := MeanLineFromPoints("digitised", points)
		require.NoError(t, err)
		require.InDelta(t, -4.154, ThinAerofoil(section.Line).ZeroLiftAlpha/degree, 0.25)
	})
}

func TestMeanLineNamesASlip(t *testing.T) {
	points := linePoints(drawnOf(t, "2412"), 24)
	points[10].Y += 0.01
	section, err := MeanLineFromPoints("slip", points)
	require.NoError(t, err)
	require.Contains(t, section.Doubt, "37.1 % of the chord")
}

func TestMeanLineMistakes(t *testing.T) {
	line := linePoints(drawnOf(t, "2412"), 24)
	outline := outlineOf(drawnOf(t, "2412"), 24)
	change := func(do func(p []Point)) []Point {
		p := slices.Clone(line)
		do(p)
		return p
	}
	upper := slices.Clone(outline[:25])
	slices.Reverse(upper)
	for want, points := range map[string][]Point{
		"has 0 points":               nil,
		"has 3 points":               line[:3],
		"point 5 is not a number":    change(func(p []Point) { p[4].Y = math.Inf(1) }),
		"as a closed outline does":   outline,
		"as two sides of an outline": append(slices.Clone(upper), outline[24:]...),
		"x does not grow":            change(func(p []Point) { p[10], p[11] = p[11], p[10] }),
		"as one side of an outline":  upper,
		"begins at x = 0.05":         {{0.05, 0.01}, {0.2, 0.02}, {0.4, 0.03}, {0.8, 0.02}, {1, 0}},
		"stands upright":             {{0, 0}, {0.01, 0.2}, {0.02, 0.4}, {0.03, 0.8}, {0.04, 1}},
		"only 2 points differ":       {{0, 0}, {0, 0}, {0, 0}, {1, 0}, {1, 0}},
	} {
		_, err := MeanLineFromPoints("mine", points)
		require.ErrorContains(t, err, want)
		require.ErrorContains(t, err, `aerofoil "mine"`)
	}
}

func FuzzPoints(f *testing.F) {
	f.Add([]byte{1, 0, 0, 1, 2, 2, 3, 1, 4, 0, 3, 255, 2, 254, 1, 255, 1, 0, 1, 0})
	f.Add([]byte{0, 0, 1, 1, 2, 2, 3, 2, 4, 1, 5, 0})
	f.Fuzz(func(t *testing.T, raw []byte) {
		var points []Point
		for i := 0; i+1 < min(len(raw), 200); i += 2 {
			points = append(points, Point{float64(raw[i]), float64(int8(raw[i+1]))})
		}
		for _, read := range []func(string, []Point) (Section, error){FromOutline, MeanLineFromPoints} {
			section, err := read("raw", points)
			if err != nil {
				require.ErrorContains(t, err, `aerofoil "raw"`)
				continue
			}
			require.False(t, math.IsNaN(ThinAerofoil(section.Line).ZeroLiftAlpha))
		}
	})
}
