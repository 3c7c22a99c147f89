package response

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"wingproof/aero"
	"wingproof/aero/stability"
)

var stretches = flag.Int("stretches", 40, "manoeuvres for each weather in the studies of the linear model")

// lateralModel is an invented quarter-scale foreplane model in level flight, about its CG.
func lateralModel(speed float64) (aero.Derivatives, stability.Body, stability.Condition) {
	d := aero.Derivatives{
		Reference: aero.Reference{Area: 0.7875, Span: 2.15, MeanChord: 0.425}, Alpha: 0.06,
		ByAlpha:     aero.Coefficients{Lift: 4.4, Drag: 0.2, Pitch: -0.44},
		ByBeta:      aero.Coefficients{Side: -0.55, Roll: -0.09, Yaw: 0.06},
		ByRollRate:  aero.Coefficients{Side: -0.05, Roll: -0.45, Yaw: -0.04},
		ByPitchRate: aero.Coefficients{Lift: 3.2, Pitch: -9.5},
		ByYawRate:   aero.Coefficients{Side: 0.25, Roll: 0.12, Yaw: -0.13},
		ByControl:   map[string]aero.Coefficients{"rudder": {Side: 0.12, Roll: 0.01, Yaw: -0.05}},
	}
	return d, stability.Body{Mass: 15, Ix: 1.2, Iy: 1.3, Iz: 2.3}, stability.Condition{Density: 1.2, Speed: speed}
}

// flown is one stretch of the linear model with the motion that it has.
type flown struct {
	stretch Stretch
	truth   stability.Modes
}

// rudderAt is a doublet of 8° after two seconds, half a second each way.
func rudderAt(t float64) float64 {
	switch {
	case t >= 2 && t < 2.5:
		return 0.14
	case t >= 2.5 && t < 3:
		return -0.14
	}
	return 0
}

const handsOff = 3.3 // s: the doublet and a wait

// fly runs the linear model through gusts [m/s] that are correlated over 30 m and records from a time on. Gyro and accelerometer have noise.
func fly(t testing.TB, gust, noise, speed, from, seconds float64, rudder func(float64) float64, random *rand.Rand) flown {
	t.Helper()
	const step, length = 0.01, 30.0
	d, b, c := lateralModel(speed)
	truth, err := stability.FindModes(d, b, c)
	require.NoError(t, err)
	a, err := stability.Lateral(d, b, c)
	require.NoError(t, err)
	pressure, rate := 0.5*c.Density*speed*speed*d.Reference.Area, d.Reference.Span/(2*speed)
	power := d.ByControl["rudder"]
	turn, push := heldStep(a, [4]float64{power.Side * pressure / (b.Mass * speed), power.Roll * pressure * d.Reference.Span / b.Ix, power.Yaw * pressure * d.Reference.Span / b.Iz}, step)
	keep := math.Exp(-step * speed / length)
	slip := gust / speed * random.NormFloat64()
	x := mat.NewVecDense(4, []float64{slip, 0, 0, 0})
	out := flown{Stretch{Step: step, Signals: []Signal{{Name: "yaw rate"}, {Name: "right force"}}}, truth}
	for i := range int((from + seconds) / step) {
		now := float64(i) * step
		if now >= from {
			force := (d.ByBeta.Side*x.AtVec(0) + rate*(d.ByRollRate.Side*x.AtVec(1)+d.ByYawRate.Side*x.AtVec(2))) * pressure / b.Mass
			for k, v := range [2]float64{x.AtVec(2) + noise*0.005*random.NormFloat64(), force + noise*0.1*random.NormFloat64()} {
				out.stretch.Signals[k].Values = append(out.stretch.Signals[k].Values, v)
			}
		}
		next := mat.NewVecDense(4, nil)
		next.MulVec(turn, x)
		fresh := keep*slip + math.Sqrt(1-keep*keep)*gust/speed*random.NormFloat64()
		for k, p := range push {
			next.SetVec(k, next.AtVec(k)+p*rudder(now))
		}
		next.SetVec(0, next.AtVec(0)+fresh-slip)
		slip, x = fresh, next
	}
	return out
}

func dutchRollFlight(t testing.TB, gust, noise, seconds float64, random *rand.Rand) flown {
	return fly(t, gust, noise, 22+2*random.NormFloat64(), handsOff, seconds, rudderAt, random)
}

func gustsAlone(t testing.TB, gust, seconds float64, random *rand.Rand) Stretch {
	return fly(t, gust, 1, 22, handsOff, seconds, func(float64) float64 { return 0 }, random).stretch
}

// Against the eigenvalues of the linear model: without noise a stretch that begins when the roll has died out gives them to four
// digits; what is left is that the spiral is no straight line.
func TestDutchRollOfTheLinearModel(t *testing.T) {
	for _, speed := range []float64{18, 22, 28} {
		f := fly(t, 0, 0, speed, handsOff+1, 5, rudderAt, rand.New(rand.NewPCG(1, 1)))
		m := FindDutchRoll(f.stretch)
		require.True(t, m.Determined, m.Why)
		require.InEpsilon(t, f.truth.DutchRoll.Frequency, m.Frequency, 3e-4)
		require.InDelta(t, f.truth.DutchRoll.Damping, m.Damping, 3e-4)
	}
}

// Intervals of the free response hold the truth in gusts too, and frequency and damping are not biased. With -stretches 400 -v the table
// of DEVELOPERS.md comes out.
func TestDutchRollInGusts(t *testing.T) {
	for _, gust := range []float64{0, 0.2, 0.5, 1} {
		random := rand.New(rand.NewPCG(1, 2))
		var s tally
		for range *stretches {
			f := dutchRollFlight(t, gust, 1, 6.5, random)
			s.add(FindDutchRoll(f.stretch), f.truth.DutchRoll)
		}
		t.Logf("gusts %.1f m/s: %s", gust, s.words())
		if gust > 0.5 { // more than a day for such flights has
			continue
		}
		s.requireHonest(t)
	}
}
