package aerofoil

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

const degree = math.Pi / 180

func TestMeanLinesOfThinAerofoilTheory(t *testing.T) {
	// Closed integrals of Glauert's theory over the four-digit mean lines of NACA Report 460,
	// by quadrature to thirteen figures.
	for _, c := range []struct {
		name                                   string
		zeroLift, moment, lift, ideal, idealCl float64
	}{
		{"1412", -1.038620, -0.0265598, 0.113897, 0.128712, 0.128012},
		{"2412", -2.077240, -0.0531195, 0.227795, 0.257423, 0.256025},
		{"naca 2415", -2.077240, -0.0531195, 0.227795, 0.257423, 0.256025},
		{"NACA4412", -4.154481, -0.1062390, 0.455590, 0.514847, 0.512049},
		{"4415", -4.154481, -0.1062390, 0.455590, 0.514847, 0.512049},
		{"6412", -6.231721, -0.1593585, 0.683385, 0.772270, 0.768074},
		{"2312", -1.917926, -0.0447294, 0.210324, 0.562634, 0.272024},
		{"4312", -3.835852, -0.0894588, 0.420648, 1.125269, 0.544048},
		{"2512", -2.291831, -0.0628319, 0.251327, 0, 0.251327},
		{"0012", 0, 0, 0, 0, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			section, err := Named(c.name)
			require.NoError(t, err)
			thin := ThinAerofoil(section.Line)
			require.InDelta(t, c.zeroLift, thin.ZeroLiftAlpha/degree, 2e-6)
			require.InDelta(t, c.moment, thin.QuarterChordMoment, 1e-7)
			require.InDelta(t, c.lift, thin.LiftAtZero, 1e-6)
			require.InDelta(t, c.ideal, thin.IdealAlpha/degree, 2e-6)
			require.InDelta(t, c.idealCl, thin.IdealLift, 1e-6)
		})
	}
}

func TestMeanLine64AgainstWindTunnelTables(t *testing.T) {
	// Abbott & von Doenhoff, Theory of Wing Sections, mean line 64 (from memory): cl_i 0.76,
	// α_i 0.74°, cm −0.157. Their α_i comes from another way of integrating: loose.
	thin := ThinAerofoil(FourDigit{Camber: 0.06, Place: 0.4})
	require.InDelta(t, 0.76, thin.IdealLift, 0.01)
	require.InDelta(t, 0.74, thin.IdealAlpha/degree, 0.05)
	require.InDelta(t, -0.157, thin.QuarterChordMoment, 0.003)
}

// parabola is z = 4h x (1 − x).
type parabola float64

func (h parabola) Slope(x float64) float64 { return 4 * float64(h) * (1 - 2*x) }

func TestParabolicArcIsExact(t *testing.T) {
	thin := ThinAerofoil(parabola(0.04)) // α_L0 = −2h, cm = −πh, Glauert
	require.InDelta(t, -0.08, thin.ZeroLiftAlpha, 1e-12)
	require.InDelta(t, -math.Pi*0.04, thin.QuarterChordMoment, 1e-12)
	require.Zero(t, ThinAerofoil(nil))
}

func TestPlainFlap(t *testing.T) {
	// Houghton & Carpenter, Aerodynamics for Engineering Students, eqs (4.49) to (4.57), evaluated.
	for _, c := range []struct{ chord, tau, lift, moment float64 }{
		{0.10, 0.395819, 2.487002, -0.540000},
		{0.15, 0.480502, 3.019083, -0.607021},
		{0.20, 0.549815, 3.454590, -0.640000},
		{0.25, 0.608998, 3.826446, -0.649519},
		{0.30, 0.660746, 4.151589, -0.641561},
		{0.35, 0.706662, 4.440086, -0.620060},
		{0.40, 0.747785, 4.698469, -0.587878},
		{0.50, 0.818310, 5.141593, -0.500000},
	} {
		flap := PlainFlap(1 - c.chord)
		require.InDelta(t, c.tau, flap.Effectiveness, 5e-7)
		require.InDelta(t, c.lift, flap.Lift, 5e-7)
		require.InDelta(t, c.moment, flap.Moment, 5e-7)
	}
	require.InDelta(t, 2*math.Pi, PlainFlap(0).Lift, 1e-12) // the whole chord turns
}

// drawn is a mean line with heights.
type drawn interface {
	Height(x float64) float64
	Slope(x float64) float64
	Thickness() float64
}

// outlineOf draws a section with the thickness law of NACA Report 460, sharp trailing edge.
func outlineOf(f drawn, n int) []Point {
	half := func(x, side float64) Point {
		y := 5 * f.Thickness() * (0.2969*math.Sqrt(x) - 0.1260*x - 0.3516*x*x + 0.2843*x*x*x - 0.1036*x*x*x*x)
		tilt := math.Atan(f.Slope(x))
		return Point{x - side*y*math.Sin(tilt), f.Height(x) + side*y*math.Cos(tilt)}
	}
	var points []Point
	for i := range n + 1 {
		points = append(points, half((1+math.Cos(math.Pi*float64(i)/float64(n)))/2, 1))
	}
	for i := 1; i <= n; i++ {
		points = append(points, half((1-math.Cos(math.Pi*float64(i)/float64(n)))/2, -1))
	}
	return points
}

func TestOutlineGivesTheMeanLineItWasDrawnWith(t *testing.T) {
	for _, c := range []struct {
		name                    string
		turned                  bool    // by 3°, at another scale
		zeroLift, moment, ideal float64 // largest departures
	}{
		{"0012", true, 1e-6, 1e-7, 1e-6},
		{"2412", true, 0.06, 0.001, 0.1},
		{"4409", true, 0.06, 0.001, 0.1},
		{"2312", true, 0.06, 0.001, 0.1},
		{"2412", false, 0.02, 0.0006, 0.03},
		{"6412", false, 0.04, 0.001, 0.05},
		{"4421", false, 0.02, 0.0006, 0.08},
		{"22012", false, 0.13, 0.004, 0.06},
		{"23012", false, 0.05, 0.002, 0.06},
		{"24012", false, 0.10, 0.003, 0.13},
		{"25012", false, 0.05, 0.002, 0.10},
		{"23112", false, 0.05, 0.002, 0.06},
	} {
		f := drawnOf(t, c.name)
		points := outlineOf(f, 40)
		for i, p := range points {
			if c.turned {
				sin, cos := math.Sincos(3 * degree)
				points[i] = Point{100 + 250*(p.X*cos-p.Y*sin), 20 + 250*(p.X*sin+p.Y*cos)}
			}
		}
		section, err := FromOutline(c.name, points)
		require.NoError(t, err)
		want, got := ThinAerofoil(f), ThinAerofoil(section.Line)
		require.InDelta(t, want.ZeroLiftAlpha/degree, got.ZeroLiftAlpha/degree, c.zeroLift, c.name)
		require.InDelta(t, want.QuarterChordMoment, got.QuarterChordMoment, c.moment, c.name)
		require.InDelta(t, want.IdealAlpha/degree, got.IdealAlpha/degree, c.ideal, c.name)
		require.InDelta(t, f.Thickness(), section.Thickness, 0.002, c.name)
	}
}

func drawnOf(t *testing.T, name string) drawn {
	t.Helper()
	if f, err := ParseFourDigit(name); err == nil {
		return f
	}
	f, err := ParseFiveDigit(name)
	require.NoError(t, err)
	return f
}

func TestOutlineFromHalvesAndInReverse(t *testing.T) {
	f, err := ParseFourDigit("2412")
	require.NoError(t, err)
	points := outlineOf(f, 40)
	whole, err := FromOutline("a", points)
	require.NoError(t, err)
	upper := make([]Point, 41)
	for i := range upper {
		upper[i] = points[40-i]
	}
	halves, err := FromHalves("b", upper, points[40:])
	require.NoError(t, err)
	two, err := FromOutline("two sides in one list", append(slices.Clone(upper), points[40:]...))
	require.NoError(t, err)
	require.InDelta(t, halves.Thickness, two.Thickness, 1e-12)
	reversed := make([]Point, len(points))
	for i := range points {
		reversed[i] = points[len(points)-1-i]
	}
	other, err := FromOutline("c", reversed)
	require.NoError(t, err)
	for _, x := range []float64{0, 0.1, 0.5, 0.9, 1} {
		require.InDelta(t, whole.Line.Slope(x), halves.Line.Slope(x), 1e-9)
		require.InDelta(t, whole.Line.Slope(x), two.Line.Slope(x), 1e-9)
		require.InDelta(t, whole.Line.Slope(x), other.Line.Slope(x), 1e-9)
	}
}

func TestScatterOfPointsHardlyMovesTheZeroLiftAngle(t *testing.T) {
	f, err := ParseFourDigit("2412")
	require.NoError(t, err)
	points := outlineOf(f, 40)
	for i := range points { // 0.05 % of the chord up and down, as of a digitised plot
		points[i].Y += 0.0005 * math.Cos(float64(7*i))
	}
	section, err := FromOutline("digitised", points)
	require.NoError(t, err)
	require.InDelta(t, -2.077, ThinAerofoil(section.Line).ZeroLiftAlpha/degree, 0.1)
}

func TestSlopeIsTheDerivativeOfTheHeight(t *testing.T) {
	line := smoothLine{0.1, -0.05, 0.02, 0.01, -0.03, 0.002, 0.01, -0.004}
	const h = 1e-6
	for _, x := range []float64{h, 0.2, 0.5, 0.77, 1 - h} {
		require.InDelta(t, (line.Height(x+h)-line.Height(x-h))/(2*h), line.Slope(x), 1e-5)
	}
}

func TestMistakesSayWhatIsWrong(t *testing.T) {
	for name, want := range map[string]string{
		"24x2":  "not a four-digit section",
		"23012": "not a four-digit section",
		"2012":  "cannot have its top at the leading edge",
	} {
		_, err := Named(name)
		require.ErrorContains(t, err, want)
		require.ErrorContains(t, err, name)
	}
	_, err := FromOutline("stub", []Point{{1, 0}, {0, 0}, {1, 0}})
	require.ErrorContains(t, err, "has 3 points")
	upperOnly := make([]Point, 20)
	for i := range upperOnly {
		upperOnly[i] = Point{float64(i) / 19, 0.1}
	}
	_, err = FromOutline("upper only", upperOnly)
	require.ErrorContains(t, err, "around the nose")
	require.ErrorContains(t, err, "like a mean line")
	upperOnly[3].Y = math.NaN()
	_, err = FromOutline("gap", upperOnly)
	require.ErrorContains(t, err, "point 4")
}

func TestOutlineThatBeginsAtTheNoseIsRefused(t *testing.T) {
	points := outlineOf(drawnOf(t, "2412"), 40)
	fromNose := append(slices.Clone(points[40:]), points[1:41]...)
	_, err := FromOutline("from the nose", fromNose)
	require.ErrorContains(t, err, "begin at the trailing edge")
	for i := range points { // the nose points right: turned round, its camber would change sign
		points[i].X = -points[i].X
	}
	_, err = FromOutline("flying right", points)
	require.ErrorContains(t, err, "x growing aft")
}
