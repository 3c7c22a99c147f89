package response

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"wingproof/aero/stability"
)

// aileronInput flies an aileron doublet of the linear model through gusts [m/s].
func aileronInput(t testing.TB, gust, noise, speed float64, random *rand.Rand) (Input, stability.Modes) {
	t.Helper()
	const fine, every = 0.001, 10
	d, b, c := lateralModel(speed)
	truth, err := stability.FindModes(d, b, c)
	require.NoError(t, err)
	a, err := stability.Lateral(d, b, c)
	require.NoError(t, err)
	pressure := 0.5 * c.Density * speed * speed * d.Reference.Area * d.Reference.Span
	push := [4]float64{0, 0.15 * pressure / b.Ix, -0.01 * pressure / b.Iz}
	turn, steps := heldStep(a, push, fine)
	in := Input{Step: fine * every}
	keep := math.Exp(-fine * speed / 30)
	slip := gust / speed * random.NormFloat64()
	x := mat.NewVecDense(4, []float64{slip, 0, 0, 0})
	for i := range 3000 {
		now := float64(i) * fine
		if i%every == 0 {
			in.RollRate = append(in.RollRate, x.AtVec(1)+noise*0.005*random.NormFloat64())
			in.Aileron = append(in.Aileron, aileronAt(now))
		}
		next := mat.NewVecDense(4, nil)
		next.MulVec(turn, x)
		fresh := keep*slip + math.Sqrt(1-keep*keep)*gust/speed*random.NormFloat64()
		for k := range 4 {
			next.SetVec(k, next.AtVec(k)+steps[k]*(aileronAt(now)+aileronAt(now+fine))/2)
		}
		next.SetVec(0, next.AtVec(0)+fresh-slip)
		slip, x = fresh, next
	}
	return in, truth
}

// aileronAt is a doublet of 4° that moves along straight lines between samples, as the fit takes a surface to do.
func aileronAt(t float64) float64 {
	corners := [][2]float64{{0.3, 0}, {0.34, 0.07}, {0.8, 0.07}, {0.88, -0.07}, {1.3, -0.07}, {1.34, 0}}
	for i := 1; i < len(corners); i++ {
		a, b := corners[i-1], corners[i]
		if t > a[0] && t <= b[0] {
			return a[1] + (b[1]-a[1])*(t-a[0])/(b[0]-a[0])
		}
	}
	return 0
}

// heldStep is e^(A·step) and its integral times a push.
func heldStep(a *mat.Dense, push [4]float64, step float64) (*mat.Dense, [4]float64) {
	whole := mat.NewDense(5, 5, nil)
	for i := range 4 {
		for j := range 4 {
			whole.Set(i, j, a.At(i, j)*step)
		}
		whole.Set(i, 4, push[i]*step)
	}
	var out mat.Dense
	out.Exp(whole)
	turn := mat.DenseCopyOf(out.Slice(0, 4, 0, 4))
	return turn, [4]float64{out.At(0, 4), out.At(1, 4), out.At(2, 4), out.At(3, 4)}
}

func dutchRollOf(m stability.Modes) Mode {
	return Mode{Kind: DutchRoll, Frequency: m.DutchRoll.Frequency, Damping: m.DutchRoll.Damping, Determined: true}
}

func TestRollComesBack(t *testing.T) {
	for _, speed := range []float64{18, 22, 28} {
		in, truth := aileronInput(t, 0, 0, speed, rand.New(rand.NewPCG(1, 1)))
		d := FindRoll(in, dutchRollOf(truth))
		require.True(t, d.Determined, d.Why)
		t.Logf("%.4f of %.4f ± %.4f, lag %.2f", d.Root, truth.Roll.Root, d.RootSD, d.LagEffect)
		require.InEpsilon(t, truth.Roll.Root, d.Root, 2e-3, "the spiral is no pure sum, and the model moves in steps")
	}
}

// Intervals of the roll's root hold the truth in gusts too. An unknown lag of the servo is another matter: a surface that is in truth
// later by some milliseconds moves the root by several of these standard deviations, and LagEffect says so.
func TestRollInGusts(t *testing.T) {
	for _, gust := range []float64{0, 0.2, 0.5} {
		random := rand.New(rand.NewPCG(3, 4))
		var z, off, sd, lag []float64
		not := 0
		for range *stretches {
			in, truth := aileronInput(t, gust, 1, 22+2*random.NormFloat64(), random)
			d := FindRoll(in, dutchRollOf(truth))
			if !d.Determined {
				not++
				continue
			}
			z = append(z, (d.Root-truth.Roll.Root)/d.RootSD)
			off, sd, lag = append(off, d.Root/truth.Roll.Root-1), append(sd, -d.RootSD/d.Root), append(lag, d.LagEffect)
		}
		bias, scatter := meanSD(off)
		t.Logf("gusts %.1f m/s: %d, not %d | root bias %+.2f %% sd %.2f %% (stated %.2f %%) cover %.3f, %.0f for each second of lag",
			gust, len(z), not, 100*bias, 100*scatter, 100*meanOf(sd), covered(z), meanOf(lag))
		n := float64(len(z))
		require.Greater(t, n, float64(not))
		require.GreaterOrEqual(t, covered(z), 0.9-2.6*math.Sqrt(0.95*0.05/n))
		require.Less(t, math.Abs(bias), scatter*(1.0/3+2.6/math.Sqrt(n)))
	}
}

func TestRollNotDeterminedInWords(t *testing.T) {
	in, truth := aileronInput(t, 0, 1, 22, rand.New(rand.NewPCG(1, 1)))
	require.Contains(t, FindRoll(in, Mode{}).Why, "Dutch roll")
	still := in
	still.Aileron = make([]float64, len(in.Aileron))
	require.Contains(t, FindRoll(still, dutchRollOf(truth)).Why, "ailerons did not move")
	require.Contains(t, FindRoll(Input{}, dutchRollOf(truth)).Why, "no second of recording")
}
