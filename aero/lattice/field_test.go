package lattice

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// noseUp turns a whole airframe by an angle about a point, nose up positive.
func noseUp(a aero.Airframe, angle float64, about r3.Vec) aero.Airframe {
	turn := r3.NewRotation(angle, r3.Vec{Y: 1}) // carries x (aft) down
	at := func(p r3.Vec) r3.Vec { return r3.Add(about, turn.Rotate(r3.Sub(p, about))) }
	surfaces := make([]aero.Surface, len(a.Surfaces))
	for i, s := range a.Surfaces {
		s.Stations = append([]aero.Station(nil), s.Stations...)
		for k := range s.Stations {
			s.Stations[k].LeadingEdge, s.Stations[k].TrailingEdge = at(s.Stations[k].LeadingEdge), at(s.Stations[k].TrailingEdge)
		}
		surfaces[i] = s
	}
	a.Surfaces = surfaces
	return a
}

func TestWakesAlongTheStreamTurnWithIt(t *testing.T) {
	// Nose up by ε at α is the same flow as level at α + ε. What is left with wakes along the stream comes from chords that are
	// laid along the datum x axis again; wakes along the body turn with the aircraft and miss the flow by several times that.
	a, point := controlled(t)
	const alpha = 0.08
	apart := func(wake Wake, angle float64) (lift, pitch, drag float64) {
		s, err := Solve(a, Options{Wake: wake, WakeAlpha: alpha + angle})
		require.NoError(t, err)
		turned, err := Solve(noseUp(a, angle, point), Options{Wake: wake, WakeAlpha: alpha})
		require.NoError(t, err)
		c, d := s.Coefficients(State{Alpha: alpha + angle}, point), turned.Coefficients(State{Alpha: alpha}, point)
		return math.Abs(d.Lift - c.Lift), math.Abs(d.Pitch - c.Pitch), math.Abs(d.Drag - c.Drag)
	}
	lift, pitch, drag := apart(WakeAlongStream, 0.04)
	require.Less(t, lift, 0.002)
	require.Less(t, pitch, 0.0003)
	require.Less(t, drag, 0.0003)
	bodyLift, bodyPitch, bodyDrag := apart(WakeAlongBody, 0.04)
	require.Greater(t, bodyLift, 3*lift)
	require.Greater(t, bodyPitch, 10*pitch)
	require.Greater(t, bodyDrag, 3*drag)
	halfLift, _, halfDrag := apart(WakeAlongStream, 0.02)
	require.Less(t, halfLift, 0.45*lift, "falls faster than the angle")
	require.Less(t, halfDrag, 0.45*drag)
}

func TestWakesAtNoAngleAreThoseAlongTheBody(t *testing.T) {
	a, point := controlled(t)
	state := State{Alpha: 0.1, Beta: 0.05}
	body := solved(t, a)
	stream, err := Solve(a, Options{Wake: WakeAlongStream})
	require.NoError(t, err)
	requireClose(t, body.Coefficients(state, point), stream.Coefficients(state, point), 1e-12)
}

func TestPrandtlAndGlauertInTwoDimensions(t *testing.T) {
	// Lift slope 2π/√(1 − M²) (H. Glauert, Proc. Royal Society A 118, 1928; in any text).
	for _, mach := range []float64{0.3, 0.5, 0.7} {
		s, err := Solve(flappedWing(4000, 0), Options{Mach: mach, coarse: [2]float64{0.5, 0.5}})
		require.NoError(t, err)
		beta := math.Sqrt(1 - mach*mach)
		require.InDelta(t, 1, s.Derivatives(State{}, r3.Vec{}).ByAlpha.Lift*beta/(2*math.Pi), 2e-3)
		require.InDelta(t, 0.25, s.NeutralPoint(State{})/0.4, 1e-3)
	}
}

func TestPrandtlAndGlauertOnAHighAspectRatio(t *testing.T) {
	// 2πA/(2 + √(A²β² + 4)), the lift slope of an unswept wing in subsonic flow (DATCOM, Helmbold's equation with
	// Prandtl and Glauert's rule; from memory). The lattice's straight wing lies two or three per cent below it at every Mach number.
	const aspect = 16
	share := make(map[float64]float64)
	for _, mach := range []float64{0, 0.3, 0.6} {
		s, err := Solve(plainWing(aspect, 0.5, quarterSweep(aspect, 0.5, 0)), Options{Mach: mach})
		require.NoError(t, err)
		formula := 2 * math.Pi * aspect / (2 + math.Sqrt(aspect*aspect*(1-mach*mach)+4))
		share[mach] = s.Derivatives(State{}, r3.Vec{}).ByAlpha.Lift / formula
		require.InDelta(t, 1, share[mach], 0.035)
		require.InDelta(t, share[0], share[mach], 0.006)
	}
}

// stretched multiplies every x by a factor.
func stretched(a aero.Airframe, factor float64) aero.Airframe {
	surfaces := make([]aero.Surface, len(a.Surfaces))
	for i, s := range a.Surfaces {
		s.Stations = append([]aero.Station(nil), s.Stations...)
		for k := range s.Stations {
			s.Stations[k].LeadingEdge.X *= factor
			s.Stations[k].TrailingEdge.X *= factor
		}
		surfaces[i] = s
	}
	a.Surfaces = surfaces
	return a
}

func TestGoethertsRule(t *testing.T) {
	// Flat surfaces at Mach M carry, in incompressible flow and stretched along x by 1/β, the same circulation for the same normal
	// velocity (B. Göthert, NACA TM 1105, 1946): equal lift and side force, places along x over β. Exact, panel by panel.
	a := plainWing(5, 0.5, 0.6)
	a.Surfaces = append(a.Surfaces,
		surfaceOf("foreplane", aero.RoleForeplane, [4]float64{-1, 0, 0.15, 0.2}, [4]float64{-0.9, 0.45, 0.15, 0.12}),
		surfaceOf("fin", aero.RoleFin, [4]float64{0.9, 0.5, 0.2, 0.3}, [4]float64{1.1, 0.55, 0.6, 0.2}))
	a.Reference = aero.Reference{Area: 1, Span: 2, MeanChord: 0.5}
	const mach = 0.6
	beta := math.Sqrt(1 - mach*mach)
	fast, err := Solve(a, Options{Mach: mach})
	require.NoError(t, err)
	slow, err := Solve(stretched(a, 1/beta), Options{})
	require.NoError(t, err)
	f, s := fast.Derivatives(State{}, r3.Vec{}), slow.Derivatives(State{}, r3.Vec{})
	require.InDelta(t, 1, f.ByAlpha.Lift/s.ByAlpha.Lift, 1e-10)
	require.InDelta(t, 1, f.ByBeta.Side/s.ByBeta.Side, 1e-10)
	require.InDelta(t, 1, f.ByBeta.Yaw/(beta*s.ByBeta.Yaw), 1e-10)
	require.InDelta(t, 1, f.ByRollRate.Roll/s.ByRollRate.Roll, 1e-10)
	require.InDelta(t, 1, fast.NeutralPoint(State{})/(beta*slow.NeutralPoint(State{})), 1e-8)
	require.InDelta(t, 1, fast.InducedDrag(State{Alpha: 0.1})/slow.InducedDrag(State{Alpha: 0.1}), 1e-10)
}

func TestNoAirPassesTheGround(t *testing.T) {
	a, point := controlled(t)
	for _, pitch := range []float64{0, 0.1} {
		ground := &Ground{Height: 1.2, Pitch: pitch}
		s, err := Solve(a, Options{Ground: ground, Density: 0.6})
		require.NoError(t, err)
		sin, cos := math.Sincos(pitch)
		up := r3.Vec{X: -sin, Z: cos}
		along := r3.Vec{X: cos, Z: sin}
		var points []r3.Vec
		for _, x := range []float64{-5, 0.3, 2, 5, 9, 40} {
			for _, y := range []float64{-3, 0, 0.7, 4.3} {
				points = append(points, r3.Add(r3.Add(r3.Scale(-ground.Height, up), r3.Scale(x, along)), r3.Vec{Y: y}))
			}
		}
		state := State{Alpha: pitch, Controls: map[string]float64{"elevator": 0.1, "aileron": 0.05}}
		disturbed := 0.0
		for _, v := range s.Flow(state, point, points) {
			require.InDelta(t, 0, r3.Dot(v, up), 1e-12)
			disturbed = math.Max(disturbed, r3.Norm(r3.Sub(v, along)))
		}
		require.Greater(t, disturbed, 0.005, "something flows there")
	}
}

func TestGroundLiftsMoreAndDragsLess(t *testing.T) {
	a, point := controlled(t)
	beforeSlope, beforeEfficiency := 0.0, 0.0
	const alpha = 0.08
	for _, height := range []float64{1e4, 8, 4, 2, 1.3} {
		s, err := Solve(a, Options{Density: 0.6, Ground: &Ground{Height: height, Pitch: alpha}})
		require.NoError(t, err)
		slope, efficiency := s.Derivatives(State{Alpha: alpha}, point).ByAlpha.Lift, s.SpanEfficiency(State{Alpha: alpha})
		t.Logf("height %7.1f m: CL_α %.4f, e %.4f, neutral point %.4f m", height, slope, efficiency, s.NeutralPointAbout(State{Alpha: alpha}, point))
		require.Greater(t, slope, beforeSlope)
		require.Greater(t, efficiency, beforeEfficiency)
		beforeSlope, beforeEfficiency = slope, efficiency
	}
}

func TestFarGroundIsFreeAir(t *testing.T) {
	a, point := controlled(t)
	state := State{Alpha: 0.08, Beta: 0.03, PitchRate: 0.002}
	free, err := Solve(a, Options{Density: 0.6, Wake: WakeAlongStream, WakeAlpha: 0.08})
	require.NoError(t, err)
	far, err := Solve(a, Options{Density: 0.6, Ground: &Ground{Height: 1e4, Pitch: 0.08}})
	require.NoError(t, err)
	requireClose(t, free.Coefficients(state, point), far.Coefficients(state, point), 1e-6)
	require.InDelta(t, free.InducedDrag(state), far.InducedDrag(state), 1e-7)
}

func TestGroundTurnsWithTheAircraft(t *testing.T) {
	// Level ground under an aircraft drawn nose up, or ground that falls off under one drawn level: the same flow but for chords that
	// are laid along x again.
	a, point := controlled(t)
	const pitch = 0.05
	drawn, err := Solve(noseUp(a, pitch, r3.Vec{}), Options{Density: 0.6, Ground: &Ground{Height: 2}})
	require.NoError(t, err)
	tilted, err := Solve(a, Options{Density: 0.6, Ground: &Ground{Height: 2, Pitch: pitch}})
	require.NoError(t, err)
	turned := r3.NewRotation(pitch, r3.Vec{Y: 1}).Rotate(point)
	c, d := drawn.Coefficients(State{}, turned), tilted.Coefficients(State{Alpha: pitch}, point)
	require.InDelta(t, 1, c.Lift/d.Lift, 0.01)
	require.InDelta(t, c.Pitch, d.Pitch, 0.002)
	require.InDelta(t, 1, c.Drag/d.Drag, 0.015)
}

func TestGroundOnAnEllipticLoad(t *testing.T) {
	// The mirror image is a biplane's other wing of opposite circulation: Di = (1 − σ) CL²/πA with Prandtl's interference factor σ
	// at the gap 2h. C. Wieselsberger, Wing Resistance Near the Ground, NACA TM 77, 1922, gives σ = (1 − 1.32 h/b)/(1.05 + 7.4
	// h/b) for 1/15 < 2h/b < 1/2 (from memory); the integral of TestBiplaneInterference, evaluated, is beside it.
	for _, c := range []struct{ height, sigma float64 }{{0.025, 0.7845192}, {0.05, 0.6564687}, {0.1, 0.4842031}, {0.25, 0.2322}} {
		s, err := Solve(aero.Airframe{Surfaces: []aero.Surface{wingAt("wing", aero.RoleWing, 0, 0, 1)}}, Options{Ground: &Ground{Height: 2 * c.height}})
		require.NoError(t, err)
		free := math.Pi / 4
		sigma := 1 - traceDrag(s.grid, elliptic(s.grid, 0, 1))/free
		near(t, c.sigma, sigma, 0.004, "Prandtl's integral")
		if c.height > 1.0/30 && c.height < 0.25 {
			near(t, (1-1.32*c.height)/(1.05+7.4*c.height), sigma, 0.006, "NACA TM 77")
		}
		level := s.InducedDrag(State{Alpha: 0.1}) / math.Pow(s.Coefficients(State{Alpha: 0.1}, r3.Vec{}).Lift, 2)
		alone := solved(t, aero.Airframe{Surfaces: []aero.Surface{wingAt("wing", aero.RoleWing, 0, 0, 1)}})
		above := alone.InducedDrag(State{Alpha: 0.1}) / math.Pow(alone.Coefficients(State{Alpha: 0.1}, r3.Vec{}).Lift, 2)
		t.Logf("h/b %.3f: 1−σ %.4f, rectangular wing %.4f", c.height, 1-c.sigma, level/above)
		require.InDelta(t, 1-c.sigma, level/above, 0.1, "a rectangular wing at h/b %.3f", c.height)
	}
}

// turnedChords turns every chord of a surface about its leading edge (right-hand rule about axis).
func turnedChords(a aero.Airframe, surface int, axis r3.Vec, angle float64) aero.Airframe {
	a.Surfaces = append([]aero.Surface(nil), a.Surfaces...)
	s := &a.Surfaces[surface]
	s.Stations = append([]aero.Station(nil), s.Stations...)
	turn := r3.NewRotation(angle, axis)
	for i := range s.Stations {
		st := &s.Stations[i]
		st.TrailingEdge = r3.Add(st.LeadingEdge, turn.Rotate(r3.Sub(st.TrailingEdge, st.LeadingEdge)))
	}
	return a
}

func TestIncidenceAgainstTurnedGeometry(t *testing.T) {
	a, point := controlled(t)
	const h = 0.01
	state := State{Alpha: 0.05}
	s, err := Solve(a, Options{Incidences: true})
	require.NoError(t, err)
	d := s.Derivatives(state, point)
	slope := func(change func(float64) aero.Airframe) aero.Coefficients {
		low, high := solved(t, change(-h)).Coefficients(state, point), solved(t, change(h)).Coefficients(state, point)
		return high.Plus(low.Times(-1)).Times(1 / (2 * h))
	}
	fore := slope(func(angle float64) aero.Airframe { return turnedChords(a, 2, r3.Vec{Y: 1}, angle) })
	by := d.ByControl[Incidence("foreplane")]
	require.InDelta(t, 1, by.Lift/fore.Lift, 5e-4)
	require.InDelta(t, 1, by.Pitch/fore.Pitch, 5e-4)
	require.InDelta(t, 1, by.Drag/fore.Drag, 5e-4)
	toe := slope(func(angle float64) aero.Airframe { return turnedChords(a, 1, r3.Vec{Z: 1}, angle) })
	by = d.ByControl[Incidence("winglet")]
	require.InDelta(t, 1, by.Lift/toe.Lift, 5e-4)
	require.InDelta(t, 1, by.Pitch/toe.Pitch, 5e-4)
	require.Zero(t, by.Yaw, "both halves toe alike")
	require.Contains(t, s.Controls(), "incidence of wing")

	// Turned about the quarter chord, leading edge and wake also rise by a quarter of the chord times the angle.
	quarter := slope(func(angle float64) aero.Airframe {
		b, err := a.SetIncidence("foreplane", angle)
		require.NoError(t, err)
		return b
	})
	by = d.ByControl[Incidence("foreplane")]
	require.InDelta(t, 1, by.Lift/quarter.Lift, 0.05)
	require.InDelta(t, 1, by.Pitch/quarter.Pitch, 0.005)
}

func TestSectionResponseSumsToTheAngleOfAttack(t *testing.T) {
	// All strips of flat surfaces turned together are the angle of attack.
	a := plainWing(6, 0.5, 0.4)
	a.Surfaces = append(a.Surfaces, surfaceOf("foreplane", aero.RoleForeplane, [4]float64{-1, 0, 0.1, 0.2}, [4]float64{-0.9, 0.45, 0.1, 0.12}))
	s, err := Solve(a, Options{Sections: true})
	require.NoError(t, err)
	response, err := s.SectionResponse()
	require.NoError(t, err)
	sum := make([]float64, len(s.Strips(State{})))
	for i := range sum {
		for j := range sum {
			sum[i] += response.At(i, j)
		}
	}
	for i, strip := range s.Strips(State{Alpha: 1}) { // SectionLift is linear in the stream
		require.InDelta(t, sum[i]*math.Sin(1), strip.SectionLift, 1e-9)
	}
	_, err = solved(t, a).SectionResponse()
	require.ErrorContains(t, err, "Options.Sections")
}
