package weighing

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// noisy gives every reading of a session its error: figures are moved by what draw makes of their sd.
func noisy(s Session, random *rand.Rand) Session {
	move := func(f *Figure) {
		if f != nil {
			f.Value += f.SD * random.NormFloat64()
		}
	}
	move(&s.Gravity)
	s.Points = append([]Point(nil), s.Points...)
	for i := range s.Points {
		p := &s.Points[i]
		y, z := *p.Y, *p.Z
		p.Y, p.Z = &y, &z
		move(&p.X)
		move(p.Y)
		move(p.Z)
	}
	s.Attitudes = noisyAttitudes(s.Attitudes, move, random)
	s.Swings = noisySwings(s.Swings, move, random)
	return s
}

func noisyAttitudes(attitudes []Attitude, move func(*Figure), random *rand.Rand) []Attitude {
	out := append([]Attitude(nil), attitudes...)
	for i := range out {
		a := &out[i]
		move(&a.Angle)
		a.Readings = append([]Reading(nil), a.Readings...)
		for j := range a.Readings {
			r := &a.Readings[j]
			r.Loads = []float64{r.Loads[0] + r.SD*random.NormFloat64()}
		}
	}
	return out
}

func noisySwings(swings []Swing, move func(*Figure), random *rand.Rand) []Swing {
	out := append([]Swing(nil), swings...)
	for i := range out {
		w := &out[i]
		for _, p := range []**Figure{&w.Pivot, &w.PivotX, &w.PivotZ} {
			if *p != nil {
				moved := **p
				*p = &moved
				move(*p)
			}
		}
		move(&w.Spacing)
		move(&w.Length)
		move(&w.Angle)
		w.Timings = []Timing{{w.Timings[0].Periods, w.Timings[0].Seconds + w.TimingSD*random.NormFloat64()}}
	}
	return out
}

// withErrors states what a bench can do; Angle of a swing only where noisy can move it, which is an inclined axis.
func withErrors(s Session) Session {
	const mm, deg = 1e-3, math.Pi / 180
	s.Gravity.SD = 0.015
	for i := range s.Points {
		s.Points[i].X.SD, s.Points[i].Y.SD, s.Points[i].Z.SD = 0.7*mm, mm, mm
	}
	for i := range s.Attitudes {
		s.Attitudes[i].Angle.SD = 0.2 * deg
		for j := range s.Attitudes[i].Readings {
			s.Attitudes[i].Readings[j].SD = 0.003
		}
	}
	for i := range s.Swings {
		w := &s.Swings[i]
		w.Spacing.SD, w.Length.SD, w.TimingSD = mm, 2*mm, 0.15
		if w.Axis == Inclined {
			w.Angle.SD = 0.3 * deg
		}
		for _, p := range []*Figure{w.Pivot, w.PivotX, w.PivotZ} {
			if p != nil {
				p.SD = mm
			}
		}
	}
	return s
}

// The stated standard deviations are those that 3,000 repetitions of the bench show, covariance included.
func TestErrorsAgainstRepetition(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 11))
	fixed := func(_ string, low, high float64) float64 { return low + (high-low)*random.Float64() }
	s := withErrors(sessionOf(inventedBody(fixed), fixed))
	stated, err := Solve(s)
	require.NoError(t, err)
	const times = 3000
	seen := map[Quantity][]float64{}
	for range times {
		r, err := Solve(noisy(s, random))
		require.NoError(t, err)
		for _, n := range r.Numbers {
			seen[n.Quantity] = append(seen[n.Quantity], n.Value)
		}
	}
	for _, n := range stated.Numbers {
		mean, variance := n.Value, 0.0
		for _, v := range seen[n.Quantity] {
			variance += (v - mean) * (v - mean) / times
		}
		require.Positive(t, n.SD, n.Quantity)
		require.InDelta(t, 1, math.Sqrt(variance)/n.SD, 0.06, "%s: a standard deviation of 3,000 is known to 1.3 %%", n.Quantity)
	}
	ix, _ := stated.Number(Ix)
	iy, _ := stated.Number(Iy)
	var together float64
	for k := range times {
		together += (seen[Ix][k] - ix.Value) * (seen[Iy][k] - iy.Value) / times
	}
	require.InDelta(t, Covariance(ix, iy)/(ix.SD*iy.SD), together/(ix.SD*iy.SD), 0.06)
	require.Greater(t, math.Abs(Covariance(ix, iy)), 0.02*ix.SD*iy.SD, "mass, gravity and the CG's height enter both")
}
