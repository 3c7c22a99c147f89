package identify

import (
	"math"
	"testing"

	"wingproof/aero/stability"

	"github.com/stretchr/testify/require"
)

// Two roads to every derivative of the models: written out, and by central differences.
func TestModelsLinearisedAgainstDifferences(t *testing.T) {
	body := stability.Body{Mass: 15, Ix: 1.2, Iy: 1.3, Iz: 2.3, Ixz: 0.15}
	along := &longitudinal{body: body, force: 0.03, chord: 0.4, x: 0.05, z: -0.03, alpha: 0.06, elevator: 0.02}
	along.set([]float64{4.4, 3.2, 0.45, -0.44, -9.5, 0.95, -4, 0.03, 0.05}, []float64{0.5, 0.02, 0.04})
	across := &lateral{body: body, force: 0.03, span: 2.15, x: 0.05, z: -0.03, aileron: 0.01, rudder: -0.02}
	across.set([]float64{-0.55, -0.05, 0.25, 0.01, 0.12, -0.09, -0.45, 0.12, 0.15, 0.01, 0.06, -0.04, -0.13, -0.01, -0.05}, []float64{0.01, 0.002, -0.003, 0.3, -0.2})
	cases := []struct {
		name     string
		m        plant
		l        *layout
		x        state
		in       instant
		constant []float64
		common   []float64
	}{
		{"longitudinal", along, longitudinalLayout(), state{20, 0.1, 0.6, 0.15}, instant{0.07, 0.3, -0.2, 0.2, 0.98, 1.0005, 0.7, 1.5}, along.own, along.common},
		{"lateral", across, lateralLayout(), state{1.5, 0.5, -0.3, 0.4}, instant{0.05, 0.1, 20, 19.8, 2, 0.3, 9.74, 0.12}, across.own, across.common},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var l linearised
			c.m.linearise(&c.x, &c.in, &l)
			c.m.observe(&c.x, &c.in, &l)
			all := func() []float64 {
				c.m.set(c.common, c.constant)
				var dx state
				c.m.rate(&c.x, &c.in, &dx)
				y := c.m.outputs(&c.x, &c.in)
				return append(dx[:], y[:]...)
			}
			y := c.m.outputs(&c.x, &c.in)
			require.InDeltaSlice(t, y[:], l.out[:], 1e-12)
			check := func(name string, change *float64, h float64, rate state, out [mostOutputs]float64) {
				was := *change
				*change = was + h
				up := all()
				*change = was - h
				down := all()
				*change = was
				for i := range up {
					want := (up[i] - down[i]) / (2 * h)
					got := append(rate[:], out[:]...)[i]
					require.InDelta(t, want, got, 2e-6*(1+math.Abs(want)), "%s, row %d", name, i)
				}
			}
			for j := range states {
				var rate state
				var out [mostOutputs]float64
				for i := range rate {
					rate[i] = l.byState[i][j]
				}
				for i := range out {
					out[i] = l.outState[i][j]
				}
				check("state", &c.x[j], 1e-5, rate, out)
			}
			parameter := func(name string, list []float64, terms []term) {
				for j, term := range terms {
					k := l.terms[term.coefficient][term.regressor]
					rate, out := l.byForce[term.coefficient], l.outForce[term.coefficient]
					for i := range rate {
						rate[i] *= k
					}
					for i := range out {
						out[i] *= k
					}
					check(name, &list[j], 1e-6, rate, out)
				}
			}
			parameter("common", c.common, c.l.common)
			parameter("constant", c.constant, c.l.constant)
			for s := range c.l.surfaces {
				var rate state
				var out [mostOutputs]float64
				for i := range rate {
					for k := range coefficients {
						rate[i] += l.byForce[k][i] * l.surface[s][k]
					}
				}
				for i := range out {
					out[i] = l.bySurface(i, s)
				}
				check("surface", &c.in[s], 1e-6, rate, out)
			}
		})
	}
}

// The air does not know whether the path or a gust made the angle: at rest in rotation a gust from below acts like α, one from the side
// like the side velocity, and one along the path like speed.
func TestGustsActLikeAngles(t *testing.T) {
	body := stability.Body{Mass: 15, Ix: 1.2, Iy: 1.3, Iz: 2.3, Ixz: 0.15}
	along := &longitudinal{body: body, force: 0.03, chord: 0.4, x: 0.05, z: -0.03, alpha: 0.06}
	along.set([]float64{4.4, 3.2, 0.45, -0.44, -9.5, 0.95, 0.03, 0.05, -4}, []float64{0.5, 0.02, 0.04})
	var l linearised
	x, in := state{20, 0.1, 0, 0.15}, instant{0.07, 0, 0, 0, 1, 1, 0, 1.5}
	along.linearise(&x, &in, &l)
	along.observe(&x, &in, &l)
	require.InDelta(t, l.outState[1][1]/20, l.outGust[1][1], 1e-12, "down force of a gust from below")
	require.InDelta(t, l.byState[2][1]/20, l.gust[1][2], 1e-12, "pitch of a gust from below")
	require.InDelta(t, l.outState[1][0], l.outGust[0][1], 1e-12, "down force of a gust along the path")
	require.InDelta(t, l.byState[2][0], l.gust[0][2], 1e-12, "pitch of a gust along the path")

	across := &lateral{body: body, force: 0.03, span: 2.15, x: 0.05, z: -0.03}
	across.set([]float64{-0.55, -0.05, 0.25, 0.01, 0.12, -0.09, -0.45, 0.12, 0.15, 0.01, 0.06, -0.04, -0.13, -0.01, -0.05}, []float64{0.01, 0.002, -0.003, 0, 0})
	x, in = state{1.5}, instant{0.05, 0.1, 20, 19.8, 2, 0, 9.74, 0.12}
	across.linearise(&x, &in, &l)
	across.observe(&x, &in, &l)
	require.InDelta(t, l.outState[2][0], l.outGust[0][2], 1e-12, "side force of a gust from the side")
	require.InDelta(t, l.byState[1][0], l.gust[0][1], 1e-12, "roll of a gust from the side")
}
