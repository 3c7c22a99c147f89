package estimate

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// exact flies without any error.
func exact(a aircraft, flights int, cgs []float64) []Point {
	return a.programme(rand.New(rand.NewPCG(1, 2)), flights, cgs, instruments{})
}

func TestExactFlightsGiveTheAircraftBack(t *testing.T) {
	a := canard()
	points := exact(a, 6, []float64{2.30, 2.36, 2.42})
	const source = "the aircraft that was flown"
	np, slopes := NeutralPoint(points, Systematics{}, nil)
	near(t, *np.Value, a.neutralPoint(), 1e-9, source)
	require.Equal(t, Determined, np.State)
	require.Positive(t, slopes.Slope[0], "a stable foreplane aircraft needs more elevator down for more lift")
	slope, zero := TrimmedLiftCurve(points, 2.33, Systematics{}, nil)
	near(t, *slope.Value, a.trimmedSlope(2.33), 1e-8, source)
	alpha, _ := a.trim(0, 2.33)
	near(t, *zero.Value, alpha, 1e-9, source)
	untrimmed := LiftCurveSlope(points, Systematics{}, nil)
	near(t, *untrimmed.Value, a.liftAlpha, 1e-6, source)
	require.Greater(t, *slope.Value, *untrimmed.Value, "stable: the trimmed slope exceeds the untrimmed one")
	cd0, k, least := DragPolar(points, Systematics{}, nil)
	near(t, *cd0.Value, a.drag(0), 1e-10, source)
	near(t, *k.Value, a.k, 1e-9, source)
	near(t, *least.Value, a.liftMin, 1e-8, source)
	require.Contains(t, strings.Join(cd0.Warnings, "\n"), "windmilling")
}

func TestLiftCurveSystematics(t *testing.T) {
	a := canard()
	points := exact(a, 6, []float64{2.30, 2.36, 2.42})
	s := Systematics{AirspeedScale: 0.01, Mass: 0.004, Alpha: 0.01, CG: 0.005}
	slope, zero := TrimmedLiftCurve(points, 2.36, s, nil)
	near(t, slope.Common[SourceAirspeedScale], -2*0.01**slope.Value, 1e-9, "CL goes with the inverse square of airspeed")
	near(t, slope.Common[SourceMass], 0.004**slope.Value, 1e-9, "CL goes with mass")
	near(t, slope.Common[SourceCG], -(a.trimmedSlope(2.361)-a.trimmedSlope(2.359))/0.002*0.005, 1e-6, "slope's course with CG")
	near(t, zero.Common[SourceAlpha], 0.01, 1e-15, "one for one")
	require.Zero(t, zero.Common[SourceAirspeedScale])
	near(t, square(*slope.SD), square(*slope.SDOwn)+square(commonSD(slope.Common)), 1e-12, "contract")
}

func TestLiftCurveSlopeNeedsTwoCGs(t *testing.T) {
	r := LiftCurveSlope(exact(canard(), 4, []float64{2.3}), Systematics{}, nil)
	require.Equal(t, NotDetermined, r.State)
	require.Contains(t, strings.Join(r.Warnings, "\n"), "fly a second CG")
	random := rand.New(rand.NewPCG(3, 3))
	r = LiftCurveSlope(canard().programme(random, 6, []float64{2.300, 2.302}, errors1()), Systematics{}, nil)
	require.Equal(t, NotDetermined, r.State)
	require.Contains(t, strings.Join(r.Warnings, "\n"), "CG travel of 2 mm")
}

// The stall bends the curve: above CL 0.8 α grows with the square of the excess.
func TestLinearRangeLeavesTheStallOut(t *testing.T) {
	a, random := canard(), rand.New(rand.NewPCG(11, 1))
	e := errors1()
	e.alphaPoint, e.vertical = 0.1*math.Pi/180, 0.02
	points := a.programme(random, 8, []float64{2.30, 2.40}, e)
	bent := append([]Point(nil), points...)
	for i := range bent {
		bent[i].Alpha += 4 * square(math.Max(0, bent[i].Lift-0.7))
	}
	straight, _ := TrimmedLiftCurve(points, 2.35, Systematics{}, nil)
	slope, _ := TrimmedLiftCurve(bent, 2.35, Systematics{}, nil)
	require.Contains(t, strings.Join(slope.Warnings, "\n"), "bends at high lift")
	require.Less(t, slope.Points, straight.Points)
	truth := a.trimmedSlope(2.35)
	require.LessOrEqual(t, *slope.Low, truth)
	require.GreaterOrEqual(t, *slope.High, truth)
	require.NotContains(t, strings.Join(straight.Warnings, "\n"), "bends")
}

// The stall bends the curve in every flight: the straight part is found well enough for the interval to keep its promise.
func TestSlopeBelowABendCovers(t *testing.T) {
	const programmes = 150
	inside, miss := 0, 0.0
	for seed := range uint64(programmes) {
		a, random := canard(), rand.New(rand.NewPCG(seed, 1))
		points := a.programme(random, 8, []float64{2.30, 2.40}, errors1())
		for i := range points {
			points[i].Alpha += 4 * square(math.Max(0, points[i].Lift-0.7))
		}
		slope, _ := TrimmedLiftCurve(points, 2.35, Systematics{}, nil)
		truth := a.trimmedSlope(2.35)
		if *slope.Low <= truth && truth <= *slope.High {
			inside++
		}
		miss += (*slope.Value - truth) / truth / programmes
	}
	t.Logf("%d of %d, mean miss %.2f %%", inside, programmes, 100*miss)
	require.GreaterOrEqual(t, inside, 136, "95 % would leave fewer inside once in a hundred times")
	require.Less(t, math.Abs(miss), 0.02)
}

// One flight's error of CL flattens a plain slope by the share of its spread; the corrected slope is right on average.
func TestErrorOfLiftDoesNotFlattenTheSlope(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 9))
	const truth, sd, flights = 0.2, 0.04, 8000
	corrected, plain := 0.0, 0.0
	for range flights {
		f := flight{}
		for j := range 8 {
			lift := 0.3 + 0.08*float64(j)
			f.points = append(f.points, Point{Lift: lift + sd*random.NormFloat64(), LiftSD: sd, Alpha: truth * lift})
			f.weight = append(f.weight, 1)
		}
		l := flightLine(f, alphaRelation())
		corrected += l.slope / flights
		plain += l.sxy / l.sxx / flights
	}
	require.Less(t, plain, 0.98*truth, "flattened by some 3 %")
	near(t, corrected, truth, 0.003*truth, "Fuller's corrected slope")
}

func TestOutlierIsPlayedDownAndNamed(t *testing.T) {
	random := rand.New(rand.NewPCG(21, 4))
	points := canard().programme(random, 6, []float64{2.30, 2.40}, errors1())
	before, _ := NeutralPoint(points, Systematics{}, nil)
	points[3].Elevator += 0.2 // 11 degrees: a gust, or a stick that was moved
	after, _ := NeutralPoint(points, Systematics{}, nil)
	words := strings.Join(after.Warnings, "\n")
	require.Contains(t, words, fmt.Sprintf("flight %s: the point at CL %.3f", points[3].Flight, points[3].Lift))
	require.Equal(t, before.Points, after.Points, "nothing is dropped")
	require.InDelta(t, *before.Value, *after.Value, *before.SD/2)
}

func TestLiftBand(t *testing.T) {
	random := rand.New(rand.NewPCG(2, 8))
	a := canard()
	points := a.programme(random, 6, []float64{2.30, 2.40}, errors1())
	alphas := []float64{-0.02, 0.0, 0.02, 0.05, 0.10, 0.2}
	b := LiftBand(points, 2.35, Systematics{}, nil, alphas)
	require.Equal(t, alphas, b.Alpha)
	slope, _ := TrimmedLiftCurve(points, 2.35, Systematics{}, nil)
	for i := range b.Alpha {
		require.Less(t, b.Low[i], b.Lift[i])
		require.Greater(t, b.High[i], b.Lift[i])
		if i > 0 {
			near(t, (b.Lift[i]-b.Lift[i-1])/(b.Alpha[i]-b.Alpha[i-1]), *slope.Value, 1e-9, "one straight line")
		}
	}
	wider := LiftBand(points, 2.35, Systematics{Alpha: 0.02}, nil, alphas)
	require.Greater(t, wider.High[2]-wider.Low[2], b.High[2]-b.Low[2])
	require.NotEmpty(t, LiftBand(nil, 2.35, Systematics{}, nil, alphas).Warnings)
}

func TestPoolScatterNarrowsAndRefusesTheOddOneOut(t *testing.T) {
	random := rand.New(rand.NewPCG(31, 1))
	var configurations [][]Point
	for range 6 {
		configurations = append(configurations, canard().programme(random, 4, []float64{2.30, 2.40}, errors1()))
	}
	pool := PoolScatter(configurations)
	own, _ := NeutralPoint(configurations[0], Systematics{}, nil)
	pooled, slopes := NeutralPoint(configurations[0], Systematics{}, pool)
	near(t, own.Degrees, 2, 0, "4 flights, 2 parameters")
	near(t, pooled.Degrees, 12, 0, "24 flights, 12 parameters")
	near(t, slopes.Degrees, 12, 0, "24 flights, 12 parameters")
	require.Equal(t, Determined, pooled.State)
	_, degrees := pool.ElevatorSlope()
	near(t, degrees, 12, 0, "24 flights, 12 parameters")

	odd := errors1()
	odd.liftFlight, odd.elevatorPoint = 0.5, 3*odd.elevatorPoint
	wild := canard().programme(random, 6, []float64{2.30, 2.40}, odd)
	r, _ := NeutralPoint(wild, Systematics{}, pool)
	require.Contains(t, strings.Join(r.Warnings, "\n"), "their own scatter is used")
	near(t, r.Degrees, 4, 0, "6 flights, 2 parameters")
}
