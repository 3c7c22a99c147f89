package estimate

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func tailAft() aircraft {
	a := canard()
	a.momentElevator, a.liftElevator = -0.923, 0.355 // elevator behind: nose down, lift up
	return a
}

var threeCGs = []float64{2.30, 2.36, 2.42}

func TestManoeuvrePointOfExactFlights(t *testing.T) {
	for name, a := range map[string]aircraft{"foreplane": canard(), "tail aft": tailAft()} {
		t.Run(name, func(t *testing.T) {
			const source = "the aircraft that was flown"
			r, perG := ManoeuvrePoint(exactLoads(a, threeCGs), exact(a, 3, threeCGs), Systematics{}, nil)
			require.NotNil(t, r.Value, r.Warnings)
			near(t, *r.Value, a.manoeuvrePoint(), 1e-6, source)
			require.Greater(t, *r.Value, a.neutralPoint(), "pitch damping puts it aft of the neutral point")
			require.Len(t, perG, 3)
			for i, g := range perG {
				near(t, *g.Value, a.perG(g.Lift, threeCGs[i]), 1e-7, source)
			}
			np, _ := NeutralPoint(exact(a, 3, threeCGs), Systematics{}, nil)
			near(t, *r.Value-*np.Value, a.manoeuvrePoint()-a.neutralPoint(), 1e-6, "the part of pitch damping")
		})
	}
}

// Flights without turns give the change with CG; one flight with turns is enough to place the line.
func TestManoeuvrePointTakesFlightsWithoutTurns(t *testing.T) {
	a := canard()
	loads := exactLoads(a, threeCGs)[:5]
	r, perG := ManoeuvrePoint(loads, exact(a, 6, threeCGs), Systematics{}, nil)
	near(t, *r.Value, a.manoeuvrePoint(), 1e-6, "the aircraft that was flown")
	require.Len(t, r.Flights, 6)
	require.NotEmpty(t, perG)
}

func TestManoeuvrePointSystematics(t *testing.T) {
	a := canard()
	points, loads := exact(a, 3, threeCGs), exactLoads(a, threeCGs)
	s := Systematics{AirspeedScale: 0.01, Mass: 0.005, CG: 0.004, CGScale: 0.02, ElevatorScale: 0.03}
	r, perG := ManoeuvrePoint(loads, points, s, nil)
	plain, plainG := ManoeuvrePoint(loads, points, Systematics{}, nil)
	const e = 1e-4
	for name, move := range map[string]struct {
		point func(*Point)
		load  func(*Load)
	}{
		SourceAirspeedScale: {func(p *Point) { p.Lift /= square(1 + e*s.AirspeedScale) },
			func(l *Load) { l.Lift /= square(1 + e*s.AirspeedScale); l.PitchRate /= 1 + e*s.AirspeedScale }},
		SourceMass:          {func(p *Point) { p.Lift *= 1 + e*s.Mass }, func(l *Load) { l.Lift *= 1 + e*s.Mass }},
		SourceCG:            {func(p *Point) { p.CG += e * s.CG }, func(l *Load) { l.CG += e * s.CG }},
		SourceCGScale:       {func(p *Point) { p.CG = 2.36 + (p.CG-2.36)*(1+e*s.CGScale) }, func(l *Load) { l.CG = 2.36 + (l.CG-2.36)*(1+e*s.CGScale) }},
		SourceElevatorScale: {func(p *Point) { p.Elevator *= 1 + e*s.ElevatorScale }, func(l *Load) { l.Elevator *= 1 + e*s.ElevatorScale }},
	} {
		p, l := append([]Point(nil), points...), append([]Load(nil), loads...)
		for i := range p {
			move.point(&p[i])
		}
		for i := range l {
			move.load(&l[i])
		}
		other, otherG := ManoeuvrePoint(l, p, Systematics{}, nil)
		near(t, (*other.Value-*plain.Value)/e, r.Common[name], 2e-5, name)
		if name == SourceElevatorScale {
			near(t, (*otherG[0].Value-*plainG[0].Value)/e, perG[0].Common[name], 1e-6, name)
		}
		if name == SourceAirspeedScale || name == SourceMass {
			near(t, *otherG[0].Value, *plainG[0].Value, 1e-9, name)
			require.Zero(t, perG[0].Common[name])
		}
	}
}

func TestManoeuvrePointInWords(t *testing.T) {
	a := canard()
	points, loads := exact(a, 3, []float64{2.3}), exactLoads(a, []float64{2.3, 2.3, 2.3})
	r, perG := ManoeuvrePoint(loads, points, Systematics{}, nil)
	require.Equal(t, NotDetermined, r.State)
	require.Contains(t, strings.Join(r.Warnings, "\n"), "turns or pull-ups at a second CG")
	require.Len(t, perG, 1)
	near(t, *perG[0].Value, a.perG(perG[0].Lift, 2.3), 1e-7, "the aircraft that was flown")
	r, _ = ManoeuvrePoint(nil, points, Systematics{}, nil)
	require.Contains(t, strings.Join(r.Warnings, "\n"), "no steady turn or pull-up was flown")
	r, _ = ManoeuvrePoint(loads, nil, Systematics{}, nil)
	require.Equal(t, NotDetermined, r.State)
}
