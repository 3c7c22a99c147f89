package estimate

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// slopeFlights makes exact flights: one a CG, δe = slope·CL, three speeds.
func slopeFlights(cg, slope []float64) []Point {
	var points []Point
	for i := range cg {
		for _, lift := range []float64{0.3, 0.5, 0.8} {
			points = append(points, Point{Flight: fmt.Sprintf("F%d", i), CG: cg[i], Lift: lift, Elevator: 0.02 + slope[i]*lift, Power: "level"})
		}
	}
	return points
}

// Constructed example: trim slopes of −10.05, −7.60, −5.30, −2.75 degrees per unit CL at CG 0.18, 0.22, 0.26, 0.30 of the
// chord; ordinary least squares and Fieller's interval by hand with t_2 = 4.302653.
func TestNeutralPointFromFourSlopes(t *testing.T) {
	const degree, source = math.Pi / 180, "constructed trim slopes, closed form"
	points := slopeFlights([]float64{0.18, 0.22, 0.26, 0.30}, []float64{-10.05 * degree, -7.60 * degree, -5.30 * degree, -2.75 * degree})
	r, slopes := NeutralPoint(points, Systematics{}, nil)
	require.Equal(t, SetInterval, r.Set)
	near(t, *r.Value, 0.346198, 5e-7, source)
	near(t, *r.Low, 0.339893, 5e-7, source)
	near(t, *r.High, 0.353211, 5e-7, source)
	near(t, *r.SDOwn, 0.00154293, 5e-9, source)
	near(t, r.Degrees, 2, 0, source)
	require.Equal(t, Weak, r.State) // two degrees of freedom
	require.Contains(t, strings.Join(r.Warnings, "\n"), "check the sign of the elevator")
	require.Len(t, slopes.CG, 4)
	near(t, slopes.Slope[0], -10.05*degree, 1e-12, source)
	near(t, math.Sqrt(slopes.Covariance[0][0]), 0.0724569*degree, 5e-8*degree, source)
}

func TestNeutralPointCarriesSystematics(t *testing.T) {
	points := slopeFlights([]float64{2.0, 2.1, 2.2, 2.3}, []float64{0.5, 0.41, 0.29, 0.2})
	s := Systematics{CG: 0.004, CGScale: 0.01, AirspeedScale: 0.02, Mass: 0.005, ElevatorScale: 0.03, Elevator: 0.01, Alpha: 0.01}
	plain, _ := NeutralPoint(points, Systematics{}, nil)
	r, slopes := NeutralPoint(points, s, nil)
	near(t, r.Common[SourceCG], 0.004, 1e-15, "one for one")
	near(t, r.Common[SourceCGScale], 0.01*(*r.Value-2.15), 1e-12, "stretch about the middle")
	require.Len(t, r.Common, 2, "airspeed, mass and elevator gain cancel")
	near(t, square(*r.SD), square(*r.SDOwn)+square(r.Common[SourceCG])+square(r.Common[SourceCGScale]), 1e-15, "contract")
	require.Less(t, *r.Low, *plain.Low)
	require.Greater(t, *r.High, *plain.High)
	// Two roads: refit with each source moved by a thousandth of itself.
	for name, move := range map[string]func(p *Point, e float64){
		SourceCG:            func(p *Point, e float64) { p.CG += e * s.CG },
		SourceCGScale:       func(p *Point, e float64) { p.CG = 2.15 + (p.CG-2.15)*(1+e*s.CGScale) },
		SourceAirspeedScale: func(p *Point, e float64) { p.Lift /= square(1 + e*s.AirspeedScale) },
		SourceMass:          func(p *Point, e float64) { p.Lift *= 1 + e*s.Mass },
		SourceElevatorScale: func(p *Point, e float64) { p.Elevator *= 1 + e*s.ElevatorScale },
	} {
		const e = 1e-4
		moved := append([]Point(nil), points...)
		for i := range moved {
			move(&moved[i], e)
		}
		other, _ := NeutralPoint(moved, Systematics{}, nil)
		near(t, (*other.Value-*plain.Value)/e, r.Common[name], 1e-5, name)
		checkMovedSlopes(t, name, points, moved, slopes, e)
	}
}

// checkMovedSlopes compares refitted slopes with the signed effect that was stated, at the same reported CG.
func checkMovedSlopes(t *testing.T, name string, points, moved []Point, slopes TrimSlopes, e float64) {
	t.Helper()
	_, now := NeutralPoint(points, Systematics{}, nil)
	_, then := NeutralPoint(moved, Systematics{}, nil)
	line, _, _, err := regress(prepare(points, elevatorRelation()).lines, slopeTarget, component{})
	require.NoError(t, err)
	for i := range slopes.CG {
		atSameCG := then.Slope[i] + line.perCG()*(now.CG[i]-then.CG[i])
		near(t, (atSameCG-now.Slope[i])/e, slopes.Common[name][i], 1e-5, name)
	}
}

func TestNeutralPointUnboundedSaysHowMuchTravelWouldDo(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 7))
	a := canard()
	points := a.programme(random, 6, []float64{2.345, 2.390}, errors1())
	var noisy []Point
	for _, p := range points {
		p.Elevator += 0.9 * p.Lift * (float64(p.Flight[len(p.Flight)-1]%3) - 1) * 0.1
		noisy = append(noisy, p)
	}
	r, slopes := NeutralPoint(noisy, Systematics{}, nil)
	require.Equal(t, NotDetermined, r.State)
	require.Contains(t, []string{SetOutside, SetAll}, r.Set)
	require.Nil(t, r.Low)
	require.Nil(t, r.High)
	require.Nil(t, r.SD)
	require.Contains(t, strings.Join(r.Warnings, "\n"), "CG travel of 45 mm")
	require.Len(t, slopes.CG, 2, "slopes stay useful for pooling with theory")
	margin := StaticMargin(r, 2.4, 1)
	require.Equal(t, NotDetermined, margin.State)
	require.Nil(t, margin.Low)
}

func TestNeutralPointOneCG(t *testing.T) {
	points := slopeFlights([]float64{2.1, 2.1, 2.1}, []float64{0.30, 0.31, 0.29})
	r, slopes := NeutralPoint(points, Systematics{}, nil)
	require.Equal(t, NotDetermined, r.State)
	require.Contains(t, strings.Join(r.Warnings, "\n"), "one CG only")
	require.Len(t, slopes.Slope, 1)
	near(t, slopes.Slope[0], 0.30, 1e-12, "mean of three")
	near(t, slopes.Covariance[0][0], 1e-4/3, 1e-12, "variance of a mean of three")
	near(t, slopes.Degrees, 2, 0, "three flights, one parameter")
}

// R. C. Nelson, Flight Stability and Automatic Control, problem 2.1 as in a public worked solution: dCm/dCL = −0.15 at
// CG 0.30 puts the neutral point at 0.45 of the chord. Trim slopes −(dCm/dCL)/Cm_δe at two CGs find it again.
func TestNeutralPointOfNelsonsProblem(t *testing.T) {
	const power = 1.1 // Cm_δe, any value: it cancels
	cg := []float64{0.30, 0.36, 0.40}
	var slope []float64
	for _, h := range cg {
		slope = append(slope, (0.45-h)/power)
	}
	r, _ := NeutralPoint(slopeFlights(cg, slope), Systematics{}, nil)
	near(t, *r.Value, 0.45, 1e-9, "Nelson, problem 2.1")
	near(t, *StaticMargin(r, 0.30, 1).Value, 15, 1e-7, "Nelson, problem 2.1")
}

func TestStaticMarginCarriesTheInterval(t *testing.T) {
	points := slopeFlights([]float64{2.0, 2.1, 2.2, 2.3}, []float64{0.5, 0.41, 0.29, 0.2})
	np, _ := NeutralPoint(points, Systematics{CG: 0.01}, nil)
	m := StaticMargin(np, 2.3, 0.8)
	near(t, *m.Value, 100*(*np.Value-2.3)/0.8, 1e-12, "definition")
	near(t, *m.Low, 100*(*np.Low-2.3)/0.8, 1e-12, "definition")
	near(t, m.Common[SourceCG], 100*0.01/0.8, 1e-12, "definition")
	require.Positive(t, *m.Value, "stable: CG ahead of the neutral point")
	require.Equal(t, NotDetermined, StaticMargin(np, 2.3, 0).State)
	require.Equal(t, NotDetermined, StaticMargin(np, math.NaN(), 1).State)
}
