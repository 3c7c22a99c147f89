package loads

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"wingproof/aero"
)

// drawWing draws a straight half wing from y = 0, swept, of strips of any width, chord and force.
func drawWing(t *rapid.T) []aero.StripLoad {
	draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	sweep, inner := draw("sweep", -0.5, 1), 0.0
	strips := make([]aero.StripLoad, rapid.IntRange(2, 12).Draw(t, "strips"))
	for i := range strips {
		width := draw("width", 0.05, 1)
		y := inner + width/2
		strips[i] = aero.StripLoad{
			Surface: "wing", Width: width, Chord: draw("chord", 0.2, 3), Centre: r3.Vec{X: 2 + sweep*y, Y: y, Z: 0.3},
			Force:  r3.Vec{X: draw("drag", -0.2, 0.2), Y: draw("side", -0.2, 0.2), Z: draw("lift", -1, 2)},
			Moment: r3.Vec{Y: draw("pitch", -0.3, 0.3)},
		}
		inner += width
	}
	return strips
}

// tilted stands a wing up about its root line: 0 leaves it flat, π/2 makes a winglet that stands straight up.
func tilted(strips []aero.StripLoad, angle float64) []aero.StripLoad {
	turn := r3.NewRotation(angle, r3.Vec{X: 1})
	out := slices.Clone(strips)
	for i := range out {
		out[i].Centre, out[i].Force, out[i].Moment = turn.Rotate(out[i].Centre), turn.Rotate(out[i].Force), turn.Rotate(out[i].Moment)
	}
	return out
}

func edges(strips []aero.StripLoad) []float64 {
	out := []float64{0}
	for _, s := range strips {
		out = append(out, out[len(out)-1]+s.Width)
	}
	return out
}

func TestShearAtTheRootIsTheTotalForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		strips := drawWing(t)
		var total r3.Vec
		for _, s := range strips {
			total = r3.Add(total, s.Force)
		}
		require.InDelta(t, total.Z, Shear(strips, []string{"wing"}, []float64{0})[0], 1e-12)
		up := tilted(strips, math.Pi/2)
		require.InDelta(t, total.Z, AlongUpright(up, "wing", []float64{0})[0].Shear, 1e-12)
	})
}

func TestBendingSlopeIsMinusShear(t *testing.T) {
	// Force is even across a strip, so that shear is linear between edges and the trapezoid of shear is exact.
	rapid.Check(t, func(t *rapid.T) {
		strips := drawWing(t)
		at := edges(strips)
		for i := range strips { // a station inside each strip too
			at = append(at, at[i]+rapid.Float64Range(0.1, 0.9).Draw(t, "within")*strips[i].Width)
		}
		slices.Sort(at)
		s := Along(strips, []string{"wing"}, at, 1)
		for i := 1; i < len(s); i++ {
			require.InDelta(t, (s[i-1].Shear+s[i].Shear)/2*(at[i]-at[i-1]), s[i-1].Bending-s[i].Bending, 1e-9)
		}
	})
}

func TestWingStoodUpCarriesTheSame(t *testing.T) {
	// Turned about the x axis through the origin, a wing and its loads are the same beam.
	rapid.Check(t, func(t *rapid.T) {
		strips := drawWing(t)
		last := edges(strips)[len(strips)]
		at := []float64{0, 0.37 * last, 0.8 * last, last}
		up := tilted(strips, rapid.Float64Range(-0.3, 1.8).Draw(t, "tilt"))
		flat, stood := AlongQuarterChord(strips, []string{"wing"}, at), AlongUpright(up, "wing", at)
		axis := []float64{2.5, 2.6, 2.7, 2.8}
		flatAbout, err := AboutAxis(flat, axis)
		require.NoError(t, err)
		stoodAbout, err := AboutAxis(stood, axis)
		require.NoError(t, err)
		for i := range at {
			for _, pair := range [][2]Section{{flat[i], stood[i]}, {flatAbout[i], stoodAbout[i]}} {
				require.InDelta(t, pair[0].Shear, pair[1].Shear, 1e-9)
				require.InDelta(t, pair[0].Bending, pair[1].Bending, 1e-9)
				require.InDelta(t, pair[0].Torsion, pair[1].Torsion, 1e-9)
				require.InDelta(t, pair[0].Point.X, pair[1].Point.X, 1e-9)
			}
		}
	})
}

func TestTorsionOfASweptEvenWing(t *testing.T) {
	// Load w per metre on a quarter-chord line that runs aft by s per metre, from y to the tip at l: about the
	// quarter-chord point at the station the arm grows from zero, so torsion is −w·s·(l − y)²/2 (nose down).
	const w, sweep, l = 3.0, 0.4, 4.0
	strips := evenWing(9, l, func(float64) float64 { return w })
	for i := range strips {
		strips[i].Centre.X = 2 + sweep*strips[i].Centre.Y
	}
	for _, s := range AlongQuarterChord(strips, []string{"wing"}, []float64{0, 0.7, 2, 3.9, 4}) {
		require.InDelta(t, -w*sweep*(l-s.Y)*(l-s.Y)/2, s.Torsion, 1e-12)
		require.InDelta(t, 2+sweep*s.Y, s.Point.X, 1e-12)
	}
	// About x = 1.5 the root has −∫w(0.5 + s·y)dy.
	require.InDelta(t, -w*(0.5*l+sweep*l*l/2), Along(strips, []string{"wing"}, []float64{0}, 1.5)[0].Torsion, 1e-12)
}

func TestTorsionOfAnEllipticWing(t *testing.T) {
	// Elliptic load on a straight line 0.5 m aft of the axis: torsion is −0.5·shear, and shear is the area of the
	// quarter ellipse outboard: l/2·(π/2 − t·√(1−t²) − asin t) with t = y/l.
	const l = 4.0
	strips := evenWing(2000, l, func(y float64) float64 { return math.Sqrt(1 - y*y/(l*l)) })
	for _, s := range Along(strips, []string{"wing"}, []float64{0, 1, 3}, 1.5) {
		u := s.Y / l
		require.InDelta(t, l/2*(math.Pi/2-u*math.Sqrt(1-u*u)-math.Asin(u)), s.Shear, 1e-4)
		require.InDelta(t, -0.5*s.Shear, s.Torsion, 1e-12)
	}
}

func TestWingletTorsionByHand(t *testing.T) {
	// 2 per metre inboard on a winglet 1 m high whose quarter-chord line runs aft by 0.7 per metre: about
	// the point at its foot the arm is 0.7·z, torsion −2·0.7/2: leading edge outboard.
	strips := inboardWinglet()
	for i := range strips {
		strips[i].Centre.X = 3 + 0.7*strips[i].Centre.Z
	}
	s := AlongUpright(strips, "winglet", []float64{0, 0.33})
	require.InDelta(t, -0.7, s[0].Torsion, 1e-12)
	require.InDelta(t, -0.7*0.67*0.67, s[1].Torsion, 1e-12)
	require.InDelta(t, 0, r3.Norm(r3.Sub(r3.Vec{X: 3, Y: 4}, s[0].Point)), 1e-12)
	// An axis 0.3 m ahead of the foot adds 0.3·2 more of the same.
	moved, err := AboutAxis(s, []float64{2.7, 2.7})
	require.NoError(t, err)
	require.InDelta(t, -0.7-0.3*2, moved[0].Torsion, 1e-12)
	_, err = AboutAxis(s, []float64{1})
	require.EqualError(t, err, "moving the torsion axis: 1 values of x for 2 stations; give one for each station")
}

func TestBendingIsAboutTheHeightOfTheSurface(t *testing.T) {
	// A wing with dihedral, outer panel listed first, and a side force of 4 on a winglet whose middle is at z = 1: the
	// arm is what the height of the surface at the station leaves of it.
	outer := aero.StripLoad{Surface: "wing", Width: 2 * math.Hypot(1, 0.1), Centre: r3.Vec{Y: 3, Z: 0.3}}
	inner := aero.StripLoad{Surface: "strake", Width: 2 * math.Hypot(1, 0.1), Centre: r3.Vec{Y: 1, Z: 0.1}}
	low := aero.StripLoad{Surface: "winglet", Width: 0.2, Centre: r3.Vec{Y: 4, Z: 0.9}, Force: r3.Vec{Y: -2}, Moment: r3.Vec{X: 0.7}}
	high := aero.StripLoad{Surface: "winglet", Width: 0.2, Centre: r3.Vec{Y: 4, Z: 1.1}, Force: r3.Vec{Y: -2}}
	s := Along([]aero.StripLoad{outer, inner, low, high}, []string{"wing", "strake", "winglet"}, []float64{1, 1.5, 2.5, 3, 3.7}, 0)
	for i, height := range []float64{0.1, 0.15, 0.25, 0.3, 0.3} { // held outboard of the last middle
		require.InDelta(t, height, s[i].Point.Z, 1e-12)
		require.InDelta(t, 4*(1-height)+0.7, s[i].Bending, 1e-12)
	}
}

func TestAlongAWingletAloneKeepsItsHeight(t *testing.T) {
	// No strip reaches out in y: moments are about the height of the first strip.
	s := Along(inboardWinglet(), []string{"winglet"}, []float64{3}, 2)[0]
	require.InDelta(t, 2*(0.5-0.05), s.Bending, 1e-12)
	require.InDelta(t, 3, AlongQuarterChord(inboardWinglet(), []string{"winglet"}, []float64{3})[0].Point.X, 1e-12)
	require.Equal(t, Section{Y: 1, Point: r3.Vec{Y: 1}, Along: r3.Vec{Y: 1}}, AlongQuarterChord(nil, []string{"wing"}, []float64{1})[0])
	require.Equal(t, []Section{{Y: 1}}, AlongUpright(nil, "winglet", []float64{1}))
}
