package weighing

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"wingproof/aero"
)

// What the bench sees of an invented body gives the body back.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(rt, name) }
		body := inventedBody(draw)
		r, err := Solve(sessionOf(body, draw))
		require.NoError(rt, err)
		mass, cg := cgOf(body)
		var ixz float64
		for _, l := range body {
			ixz += l.m * (l.x - cg.x) * (l.z - cg.z)
		}
		require.Empty(rt, r.Missing)
		for _, c := range []struct {
			q    Quantity
			want float64
		}{{Mass, mass}, {CGX, cg.x}, {CGY, cg.y}, {CGZ, cg.z}, {Ix, about(body, 'x')}, {Iy, about(body, 'y')}, {Iz, about(body, 'z')}, {Ixz, ixz}} {
			n, ok := r.Number(c.q)
			require.True(rt, ok, c.q)
			require.InDelta(rt, c.want, n.Value, 1e-9, c.q)
		}
	})
}

// A support's station that is wrong shifts level and tilted balance alike, so that the height suffers less than from two errors.
func TestASupportIsOneError(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 5))
	fixed := func(_ string, low, high float64) float64 { return low + (high-low)*random.Float64() }
	s := sessionOf(inventedBody(fixed), fixed)
	s.Points[0].X.SD = 0.001
	r, err := Solve(s)
	require.NoError(t, err)
	x, _ := r.Number(CGX)
	z, _ := r.Number(CGZ)
	share := (s.Attitudes[0].Readings[0].Loads[0] - 0.2) / value(t, r, Mass)
	require.InEpsilon(t, 0.001*share, x.SD, 1e-6, "x by the share of the weight that the support carries")
	up := s.Attitudes[1].Angle.Value
	tilted := (s.Attitudes[1].Readings[0].Loads[0] - 0.2) / value(t, r, Mass)
	require.InEpsilon(t, 0.001*math.Abs(tilted-share)*math.Cos(up)/math.Sin(up), z.SD, 1e-6, "z by the difference of the two shares")
}

// A hook at one point, twice, gives x and z without any scale; the mass is then missing, and said to be.
func TestHungFromTwoPoints(t *testing.T) {
	const x, z = 0.95, 0.04
	hook := func(name string, px, pz float64) (Point, Attitude) {
		angle := math.Atan2(px-x, -(pz - z)) // the hook straight above the CG: (px−x) cos θ + (pz−z) sin θ = 0
		if math.Cos(angle) < 0 {
			angle += math.Pi
		}
		return Point{Name: name, X: Figure{Value: px}, Z: &Figure{Value: pz}}, Attitude{Name: name, Tilted: true, Angle: Figure{Value: angle}, Readings: []Reading{{Point: name}}}
	}
	p1, a1 := hook("fore", 0.7, 0.3)
	p2, a2 := hook("aft", 1.3, 0.25)
	r, err := Solve(Session{Gravity: Figure{Value: g0}, Points: []Point{p1, p2}, Attitudes: []Attitude{a1, a2}})
	require.NoError(t, err)
	require.InDelta(t, x, value(t, r, CGX), 1e-12)
	require.InDelta(t, z, value(t, r, CGZ), 1e-12)
	_, ok := r.Number(Mass)
	require.False(t, ok)
	require.Contains(t, r.Missing[0], "the mass")
}

// Air in a swing: what is taken off is printed, its error is 30 % of it, and swings share it.
func TestAirIsTakenOff(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 9))
	fixed := func(_ string, low, high float64) float64 { return low + (high-low)*random.Float64() }
	s := sessionOf(inventedBody(fixed), fixed)
	without, err := Solve(s)
	require.NoError(t, err)
	wing := aero.Surface{Name: "wing", Role: aero.RoleWing, Mirrored: true, Stations: []aero.Station{
		{LeadingEdge: r3.Vec{X: 3}, TrailingEdge: r3.Vec{X: 5}}, {LeadingEdge: r3.Vec{X: 4, Y: 4}, TrailingEdge: r3.Vec{X: 5, Y: 4}}}}
	s.Air = &Air{Airframe: aero.Airframe{Surfaces: []aero.Surface{wing}}, Ratio: 0.25, Density: 1.2}
	with, err := Solve(s)
	require.NoError(t, err)
	for _, q := range []Quantity{Ix, Iy} {
		n, _ := with.Number(q)
		require.InDelta(t, value(t, without, q)-n.Value, n.Air, 1e-6, q)
		require.Positive(t, n.Air)
		require.InDelta(t, 0.3*n.Air, n.SD, 1e-6, q)
		inputs, _ := n.Halving()
		require.Nil(t, inputs, "no reading halves an error that is the air's")
	}
	ix, _ := with.Number(Ix)
	iy, _ := with.Number(Iy)
	require.InEpsilon(t, ix.SD*iy.SD, Covariance(ix, iy), 1e-6)
}

func TestHalving(t *testing.T) {
	n := Number{SD: 5, Parts: []Part{{Source: Source{Spacing, ""}, SD: 4}, {Source: Source{Length, ""}, SD: 2}, {Source: Source{Period, ""}, SD: math.Sqrt(5)}}}
	// By the first alone 9 would be left of 25; by the first two 5, and (25/4 − 5)/20 = 1/16 is just a quarter.
	inputs, factor := n.Halving()
	require.Len(t, inputs, 2)
	require.InDelta(t, 0.25, factor, 1e-12)
	one := Number{SD: 1, Parts: []Part{{Source: Source{Spacing, ""}, SD: 1}}}
	inputs, factor = one.Halving()
	require.Len(t, inputs, 1)
	require.InDelta(t, 0.5, factor, 1e-12)
}

func TestDoubtsAreSaid(t *testing.T) {
	f := handWorked(t)
	for _, c := range []struct {
		name, want string
		spoil      func(s *Session)
	}{
		{"a swing counted too little", "yaw: 66.67 s are about 21 periods by its other timings, not 20", func(s *Session) {
			s.Swings[0].Timings = []Timing{{20, 63.5}, {20, 63.4}, {20, 66.67}}
		}},
		{"a cable pulls", "nose up shows -400 g in all beside the level runs", func(s *Session) { s.Attitudes[1].Readings[0].Loads[0] -= 0.4 }},
		{"two swings in yaw", "second yaw gives", func(s *Session) {
			second := s.Swings[0]
			second.Name, second.Timings = "second yaw", []Timing{{20, 66}}
			s.Swings = append(s.Swings, second)
		}},
		{"no body", "Iz is larger than Ix and Iy together", func(s *Session) { s.Swings[0].Spacing.Value *= 1.3 }},
		{"negative", "Ix comes out at", func(s *Session) { s.Swings[1].Timings[0].Seconds = 24 }},
		{"large", "pitch swings by 20° to a side", func(s *Session) { s.Swings[2].Amplitude.Value = 20 * math.Pi / 180 }},
	} {
		s := withErrors(f.session())
		c.spoil(&s)
		r, err := Solve(s)
		require.NoError(t, err)
		found := false
		for _, w := range r.Warnings {
			found = found || len(w) >= len(c.want) && w[:len(c.want)] == c.want
		}
		require.True(t, found, "%s: %q", c.name, r.Warnings)
	}
}

func TestPartsOfASession(t *testing.T) {
	f := handWorked(t)
	s := f.session()
	s.Attitudes = s.Attitudes[:1]
	r, err := Solve(s)
	require.NoError(t, err)
	require.InDelta(t, 16, value(t, r, Mass), 1e-9)
	require.Len(t, r.Missing, 6, "%q", r.Missing) // height, roll and pitch swings' arms, Ix, Iy, Ixz
	_, ok := r.Number(Iz)
	require.True(t, ok, "yaw needs no height")
	s.Attitudes[0].Readings = s.Attitudes[0].Readings[:1]
	r, err = Solve(s)
	require.NoError(t, err)
	_, ok = r.Number(CGX)
	require.False(t, ok)
	r, err = Solve(Session{Gravity: Figure{Value: g0}})
	require.NoError(t, err)
	require.Empty(t, r.Numbers)
	s.Swings[0].Timings = nil
	_, err = Solve(s)
	require.ErrorContains(t, err, "yaw has no timing")
	s = f.session()
	s.Points = nil
	_, err = Solve(s)
	require.ErrorContains(t, err, "no point of the session")
	s = f.session()
	s.Gravity.Value = math.NaN()
	_, err = Solve(s)
	require.ErrorContains(t, err, "not a finite number")
}

// On scales alone the CG's height is unknown, and standing off level still counts: by the supports' distance from the datum.
func TestLevelAloneIsNotSurer(t *testing.T) {
	f := handWorked(t)
	s := f.session()
	s.Attitudes, s.Swings = s.Attitudes[:1], nil
	s.Attitudes[0].Angle.SD = 0.004
	r, err := Solve(s)
	require.NoError(t, err)
	x, _ := r.Number(CGX)
	height := (2.86*f.value["nose_z_m"] + 13.14*f.value["main_z_m"]) / 16
	require.InEpsilon(t, -0.004*height, x.SD, 1e-6)
	for i := range s.Points {
		s.Points[i].Z = nil
	}
	r, err = Solve(s)
	require.NoError(t, err)
	x, _ = r.Number(CGX)
	require.Zero(t, x.SD)
	require.Contains(t, r.Missing[0], "standing off level")
}
