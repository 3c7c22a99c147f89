package estimate

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestElevatorPowerOfExactFlights(t *testing.T) {
	for name, a := range map[string]aircraft{"foreplane": canard(), "tail aft": tailAft()} {
		t.Run(name, func(t *testing.T) {
			r := ElevatorPower(exact(a, 6, threeCGs), a.chord, Systematics{}, nil)
			near(t, *r.Value, a.powerAtNeutralPoint(), 1e-8, "the aircraft that was flown, its elevator's lift included")
			near(t, r.CG, a.neutralPoint(), 1e-8, "the aircraft that was flown")
			lift := Result{Degrees: 100, Common: map[string]float64{}}
			sd := 0.0
			lift.Value, lift.SDOwn = &a.liftElevator, &sd
			near(t, *MoveElevatorPower(r, lift, a.reference, a.chord).Value, a.momentElevator, 1e-8, "the aircraft that was flown")
		})
	}
}

// Two roads: what each shared source does is stated, and found again by moving what was reported and fitting anew.
func TestElevatorPowerSystematics(t *testing.T) {
	a := canard()
	points := exact(a, 6, threeCGs)
	s := Systematics{AirspeedScale: 0.01, Mass: 0.005, Density: 0.01, CG: 0.004, CGScale: 0.02, ElevatorScale: 0.03}
	r := ElevatorPower(points, a.chord, s, nil)
	plain := ElevatorPower(points, a.chord, Systematics{}, nil)
	const e = 1e-4
	for name, move := range map[string]func(*Point){
		SourceAirspeedScale: func(p *Point) { p.Lift /= square(1 + e*s.AirspeedScale) },
		SourceMass:          func(p *Point) { p.Lift *= 1 + e*s.Mass },
		SourceDensity:       func(p *Point) { p.Lift /= 1 + e*s.Density },
		SourceCG:            func(p *Point) { p.CG += e * s.CG },
		SourceCGScale:       func(p *Point) { p.CG = 2.36 + (p.CG-2.36)*(1+e*s.CGScale) },
		SourceElevatorScale: func(p *Point) { p.Elevator *= 1 + e*s.ElevatorScale },
	} {
		moved := append([]Point(nil), points...)
		for i := range moved {
			move(&moved[i])
		}
		other := ElevatorPower(moved, a.chord, Systematics{}, nil)
		near(t, (*other.Value-*plain.Value)/e, r.Common[name], 2e-5, name)
	}
	near(t, square(*r.SD), square(*r.SDOwn)+square(commonSD(r.Common)), 1e-12, "contract")
}

// R. C. Nelson, Flight Stability and Automatic Control, problem 2.1 as in a public worked solution: dCm/dCL = −0.15 at CG 0.30. With
// trim slopes (0.45 − h)/1.1 the elevator power about the neutral point is 1.1, by the definition of a trim slope.
func TestElevatorPowerOfTrimSlopes(t *testing.T) {
	cg := []float64{0.30, 0.36, 0.40}
	var slope []float64
	for _, h := range cg {
		slope = append(slope, (0.45-h)/1.1)
	}
	near(t, *ElevatorPower(slopeFlights(cg, slope), 1, Systematics{}, nil).Value, 1.1, 1e-9, "definition")
}

func TestElevatorPowerInWords(t *testing.T) {
	r := ElevatorPower(exact(canard(), 3, []float64{2.3}), 1, Systematics{}, nil)
	require.Equal(t, NotDetermined, r.State)
	require.Contains(t, strings.Join(r.Warnings, "\n"), "fly a second CG, or elevator doublets")
	require.Equal(t, NotDetermined, ElevatorPower(exact(canard(), 6, threeCGs), 0, Systematics{}, nil).State)
	require.Equal(t, NotDetermined, MoveElevatorPower(r, r, 2.3, 1).State)
}
