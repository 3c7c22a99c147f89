package reconstruct

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// Lags come back to within what their standard deviations say, at two pairs of rates.
func TestSatelliteLag(t *testing.T) {
	for _, c := range []struct {
		name                 string
		fast, air, satellite float64
	}{{"25 Hz and 5 Hz", 25, 25, 5}, {"100 Hz and 10 Hz", 100, 50, 10}} {
		t.Run(c.name, func(t *testing.T) {
			const seeds = 6
			sum := 0.0
			for seed := uint64(1); seed <= seeds; seed++ {
				want := 0.03 + 0.05*float64(seed)
				log := flown(t, seed, rehearse.Weather{WindSpeed: 5, Turbulence: 0.1}, func(i *rehearse.Instruments) {
					i.SatelliteLag, i.FastRate, i.AirRate, i.SatelliteRate = want, c.fast, c.air, c.satellite
				})
				rec := log.Recording("rehearsed")
				in, _ := gather(&rec, Setup{})
				before := in.measured[northSpeed].Time[0]
				lag, climb, _ := in.shiftSatellite(Setup{})
				require.True(t, lag.Known)
				require.Equal(t, lag, climb, "both come from one receiver")
				require.InDelta(t, want, lag.Value, 0.02)
				require.Less(t, lag.SD, 0.01)
				require.InDelta(t, before-lag.Value, in.measured[northSpeed].Time[0], 1e-12, "taken off")
				sum += math.Pow((lag.Value-want)/lag.SD, 2)
				t.Logf("%.3f s: %.4f ± %.4f", want, lag.Value, lag.SD)
			}
			require.Less(t, sum, 14.45, "97.5 % point of χ² with 6 degrees of freedom")
		})
	}
}

// A declared delay is not taken off again; a barometric climb rate keeps a lag of its own.
func TestLagOfItsOwn(t *testing.T) {
	log := flown(t, 2, rehearse.Weather{}, nil)
	rec := log.Recording("rehearsed")
	in, _ := gather(&rec, Setup{})
	before := in.measured[northSpeed].Time[0]
	lag, _, _ := in.shiftSatellite(Setup{SatelliteDelayDeclared: true})
	require.InDelta(t, 0.2, lag.Value, 0.02)
	require.Equal(t, before, in.measured[northSpeed].Time[0])

	rec.Channels[flightlog.ClimbRate] = later(rec.Channels[flightlog.ClimbRate], 0.25)
	in, _ = gather(&rec, Setup{})
	lag, climb, _ := in.shiftSatellite(Setup{})
	require.InDelta(t, 0.2, lag.Value, 0.02)
	require.InDelta(t, 0.45, climb.Value, 0.02)
}

// A flight without shaking tells no lag, and says so.
func TestLagNeedsShaking(t *testing.T) {
	var c flightlog.Channel
	for i := range 400 {
		c.Time, c.Value = append(c.Time, 0.2*float64(i)), append(c.Value, 20+0.05*stream(uint64(i)).NormFloat64())
	}
	still := newLine(flightlog.Channel{Time: []float64{0, 80}, Value: []float64{0, 0}})
	for i := 0.0; i < 80; i += 0.04 { // no holes, no acceleration
		still.Time[len(still.Time)-1] = i
		still.Time, still.Value = append(still.Time, i+0.04), append(still.Value, 0)
	}
	p := lagProblem{velocity: []flightlog.Channel{c}, force: []*line{still}, errors: [][]*line{{still}}}
	require.False(t, p.solve().Known)
}

// circle is a made flight of the triangle: true airspeed v along all headings from, to; wind and scale exact.
func triangleInput(from, to, windNorth, windEast, scale float64) *input {
	in := &input{air: &air{}}
	const v, samples = 22.0, 300
	for i := range samples {
		time, heading := 0.2*float64(i), from+(to-from)*float64(i)/samples
		sin, cos := math.Sincos(heading)
		for k, value := range map[kind]float64{rollAngle: 0, pitchAngle: 0.05, headingAngle: heading, airspeed: v * (1 + scale),
			northSpeed: v*cos + windNorth, eastSpeed: v*sin + windEast, climbRate: 0} {
			c := &in.measured[k]
			c.Time, c.Value = append(c.Time, time), append(c.Value, value)
		}
	}
	return in
}

// Wind and scale of a made triangle come back exactly, with a heading that is wrong as well; half a circle does not suffice.
func TestWindTriangle(t *testing.T) {
	in := triangleInput(0, 2*math.Pi, 3, -2, 0.03)
	for i := range in.measured[headingAngle].Value {
		in.measured[headingAngle].Value[i] -= 0.02
	}
	tr := windTriangle(in)
	require.True(t, tr.Enough, tr.Why)
	require.InDelta(t, 3, tr.WindNorth, 1e-6)
	require.InDelta(t, -2, tr.WindEast, 1e-6)
	require.InDelta(t, 0.03, tr.Scale, 1e-7)
	require.InDelta(t, 0.02, tr.Crab, 1e-6)
	require.InDelta(t, 2*math.Pi, tr.Headings, 1e-9)

	half := windTriangle(triangleInput(0, 2.5, 3, -2, 0.03))
	require.False(t, half.Enough)
	require.Contains(t, half.Why, "full circle")
	one := windTriangle(triangleInput(1, 1, 3, -2, 0.03))
	require.False(t, one.Enough)
	require.Contains(t, one.Why, "circle")
	require.Contains(t, WindTriangle(&flightlog.Recording{}, Setup{}).Why, "no usable roll rate")
}

// A banked model goes where its velocity points, not its heading: R·(cos α, 0, sin α) for a level turn at 40° of bank and 6° of α.
func TestHorizontalFlowInABank(t *testing.T) {
	const bank, alpha, speed = 40 * degree, 6 * degree, 20.0
	pitch := math.Atan(math.Cos(bank) * math.Tan(alpha)) // no climb
	north, east := horizontalFlow(speed, 0, bank, pitch, 0)
	require.InDelta(t, speed, math.Hypot(north, east), 1e-9)
	require.InDelta(t, -math.Sin(bank)*math.Sin(alpha)*speed, east, 1e-9, "the nose of a right turn points into the circle")
}

// Specific force at the CG from a unit that swings around it: analytic rates and their derivatives, f = f_cg + ω̇×r + ω×(ω×r).
func TestForcesMoveToTheCG(t *testing.T) {
	r := [3]float64{0.4, -0.1, -0.08}
	var rates, forces [3]flightlog.Channel
	cg := [3]float64{1, 0.2, -9.5}
	for i := range 500 {
		now := 0.02 * float64(i)
		w := [3]float64{0.8 * math.Sin(3*now), 1.2 * math.Sin(5*now+1), 0.4 * math.Cos(2*now)}
		d := [3]float64{2.4 * math.Cos(3*now), 6 * math.Cos(5*now+1), -0.8 * math.Sin(2*now)}
		turn, spin := cross(d, r), cross(w, cross(w, r))
		for k := range 3 {
			rates[k].Time, rates[k].Value = append(rates[k].Time, now), append(rates[k].Value, w[k])
			forces[k].Time, forces[k].Value = append(forces[k].Time, now), append(forces[k].Value, cg[k]+turn[k]+spin[k])
		}
	}
	out := atCG(forces, rates, r)
	for k := range 3 {
		for i := 5; i < 495; i++ {
			require.InDelta(t, cg[k], out[k].Value[i], 0.03, "axis %d at %d; it was off by up to 2.4", k, i)
		}
	}
	// datum axes: x aft, z up; body axes: X forward, Z down
	require.Equal(t, [3]float64{0.5, 0.25, -0.125}, offset(&flightlog.Place{X: 0.5, Y: 0.25, Z: 0.25}, flightlog.Place{X: 1, Z: 0.125}))
}

// Sensors half a metre off the CG cost nothing when their places are known.
func TestSensorsOffTheCG(t *testing.T) {
	w := rehearse.Weather{VerticalSD: 0.2}
	at := flown(t, 4, w, nil)
	off := flown(t, 4, w, func(i *rehearse.Instruments) {
		i.Sensors = flightlog.Sensors{Inertial: &flightlog.Place{X: 0.5, Y: 0.05, Z: 0.08}, Tube: &flightlog.Place{X: 0.1, Y: 0.5}, Antenna: &flightlog.Place{X: 1.5, Z: 0.1}}
	})
	rms := func(log rehearse.Log, rec flightlog.Recording) (alpha, beta float64) {
		p, _ := Run(&rec, Setup{CG: flightlog.Place{X: 0.975, Z: 0.0125}})
		require.True(t, p.Enough)
		f := flightTrial{log: log, path: p}
		a, b := f.errors(0, math.Inf(1))
		return math.Sqrt(variance(a)), math.Sqrt(variance(b))
	}
	plainAlpha, plainBeta := rms(at, at.Recording("at the CG"))
	alpha, beta := rms(off, off.Recording("off the CG"))
	require.InDelta(t, plainAlpha, alpha, 0.05*degree)
	require.InDelta(t, plainBeta, beta, 0.05*degree)
	unknown := off.Recording("places not stated")
	unknown.Sensors = flightlog.Sensors{}
	worse, worseBeta := rms(off, unknown)
	require.Greater(t, worse+worseBeta, 1.2*(alpha+beta), "what is not stated must cost something, or the test shows nothing")
}
