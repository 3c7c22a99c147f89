package estimate

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"wingproof/flightlog/identify"
)

func resultOf(value, own, degrees float64, common map[string]float64, flights ...string) Result {
	return fillStudent(Result{Quantity: identify.DirectionalStiff, Unit: perRadian, Power: "idle", Degrees: degrees, Flights: flights, Points: 1}, value, own, common)
}

// Worked by hand: 0.12 and 0.10, each with 2·2 % from airspeed: 0.0048 and 0.0040 cancel to 0.0008.
func TestDifferenceTakesSharedErrorsOff(t *testing.T) {
	a := resultOf(0.12, 0.003, 2, map[string]float64{SourceAirspeedScale: -0.0048, SourceMass: 0.001}, "A", "B", "C")
	b := resultOf(0.10, 0.004, 2, map[string]float64{SourceAirspeedScale: -0.0040, SourceCG: 0.002}, "D", "E", "F")
	d := Difference(a, b)
	require.InDelta(t, 0.02, *d.Value, 1e-15)
	require.InDelta(t, 0.005, *d.SDOwn, 1e-15)
	require.InDelta(t, -0.0008, d.Common[SourceAirspeedScale], 1e-15)
	require.InDelta(t, 0.001, d.Common[SourceMass], 0)
	require.InDelta(t, -0.002, d.Common[SourceCG], 0)
	require.InDelta(t, square(25)/(square(9)/2+square(16)/2), d.Degrees, 1e-9, "Satterthwaite by hand")
	require.Equal(t, []string{"A", "B", "C", "D", "E", "F"}, d.Flights)
	require.Equal(t, Determined, d.State)
	require.Contains(t, DifferenceWords("tall", "mid", d), "tall against mid: directional stiffness is larger by 0.02 1/rad (95 % from 0.0")
}

// Two results on one pooled scatter of 12 degrees do not make 24, and a difference of one flight's numbers counts the worse case.
func TestDifferenceOfTiedResults(t *testing.T) {
	d := Difference(resultOf(0.12, 0.003, 12, nil, "A", "B"), resultOf(0.10, 0.004, 12, nil, "C", "D"))
	require.InDelta(t, 12, d.Degrees, 1e-9)
	same := Difference(resultOf(0.12, 0.003, 12, nil, "A", "B"), resultOf(0.10, 0.004, 12, nil, "A", "B"))
	require.InDelta(t, 0.007, *same.SDOwn, 1e-15)
	require.Contains(t, same.Warnings[0], "flights A and B stand behind both")
}

func TestWhatHasNoDifference(t *testing.T) {
	a, b := resultOf(0.12, 0.003, 12, nil, "A"), resultOf(0.10, 0.004, 12, nil, "B")
	other := b
	other.Quantity = identify.DihedralEffect
	require.Equal(t, NotDetermined, Difference(a, other).State)
	a.HasCG, b.HasCG, b.CG = true, true, 0.05
	d := Difference(a, b)
	require.Equal(t, NotDetermined, d.State)
	require.Contains(t, d.Warnings[0], "50 mm apart")
	b.HasCG = false
	none := Difference(a, undetermined(b, "no flight"))
	require.Equal(t, NotDetermined, none.State)
	require.Contains(t, DifferenceWords("tall", "mid", none), "not determined, because the second of the two is not determined")
	b.Power = "level"
	require.Contains(t, Difference(a, b).Warnings[0], "power differs: idle and level")
}

func TestDifferenceTurnsItsSign(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := rapid.Float64Range(-1, 1)
		spread := rapid.Float64Range(0.001, 1)
		a := resultOf(number.Draw(t, "a"), spread.Draw(t, "sd a"), rapid.Float64Range(1, 40).Draw(t, "degrees a"), map[string]float64{SourceMass: number.Draw(t, "mass a")}, "A", "B")
		b := resultOf(number.Draw(t, "b"), spread.Draw(t, "sd b"), rapid.Float64Range(1, 40).Draw(t, "degrees b"), map[string]float64{SourceMass: number.Draw(t, "mass b")}, "C")
		d, e := Difference(a, b), Difference(b, a)
		require.InDelta(t, *d.Value, -*e.Value, 1e-12)
		require.InDelta(t, *d.Low, -*e.High, 1e-9)
		require.InDelta(t, *d.SD, *e.SD, 1e-12)
	})
}

// Two winglets, three flights each, and an airspeed tube that may be 3 % off, which moves every derivative by 6 %: the difference
// knows that error but for the part that goes with the difference itself. Its interval holds the truth in 95 % of 2,000 programs and is far
// narrower than what independent errors would give.
func TestDifferenceCoversAndIsNarrow(t *testing.T) {
	const programmes, scale = 2000, 0.03
	random := rand.New(rand.NewPCG(31, 1))
	var joint, apart rate
	for range programmes {
		airspeed := scale * random.NormFloat64()
		truth := [2]float64{0.12 * (1 + 0.1*random.NormFloat64()), 0.14}
		var programme [][]identify.Fit
		for c, value := range truth {
			var fits []identify.Fit
			for f := range 3 {
				y := (value + 0.002*random.NormFloat64() + 0.002*random.NormFloat64()) * (1 - 2*airspeed)
				fits = append(fits, fitOf(fmt.Sprintf("%d-%d", c, f), identify.DirectionalStiff, y, 0.002, map[string]float64{SourceAirspeedScale: -2 * scale * y}))
			}
			programme = append(programme, fits)
		}
		pooled := PoolDerivatives(programme)
		a, b := Derivatives(programme[0], nil, 0, pooled)[0], Derivatives(programme[1], nil, 0, pooled)[0]
		joint.count(Difference(a, b), truth[0]-truth[1])
		reach := math.Hypot(*a.High-*a.Low, *b.High-*b.Low) / 2
		low, high := *a.Value-*b.Value-reach, *a.Value-*b.Value+reach
		apart.count(Result{Low: &low, High: &high}, truth[0]-truth[1])
	}
	t.Logf("shared errors taken off: %.1f %%, width %.4f; as if independent: %.1f %%, width %.4f", 100*joint.share(), joint.width/programmes, 100*apart.share(), apart.width/programmes)
	require.True(t, joint.meets())
	require.Less(t, joint.width, apart.width/2.5)
}
