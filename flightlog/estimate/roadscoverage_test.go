package estimate

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog/identify"
)

// Directional stiffness by input manoeuvres and by sideslip slope times rudder power, the power taken from those very manoeuvres: the
// intervals hold the truth, and roads that agree in truth are called contradictory in about one case of twenty.
func TestRoadsThatBorrowCover(t *testing.T) {
	draws := trials(700)
	for _, flights := range []int{2, 3, 5} {
		random := rand.New(rand.NewPCG(uint64(flights), 11))
		var pooled, manoeuvres, sideslips rate
		quarrels := 0
		for range draws {
			roads, loan := drawRoads(random, flights)
			a := Roads(identify.DirectionalStiff, roads, loan)
			pooled.count(a.Pooled, trueStiffness)
			manoeuvres.count(roads[0].Result, trueStiffness)
			sideslips.count(roads[1].Result, trueStiffness)
			if !a.Agree {
				quarrels++
			}
		}
		t.Logf("%d flights of 3 configurations: pooled %.1f %%, width %.4f; manoeuvres %.1f %%, %.4f; sideslips %.1f %%, %.4f; called contradictory %.1f %%", flights,
			100*pooled.share(), pooled.width/float64(draws), 100*manoeuvres.share(), manoeuvres.width/float64(draws), 100*sideslips.share(), sideslips.width/float64(draws), 100*float64(quarrels)/float64(draws))
		require.True(t, pooled.meets())
		require.Less(t, pooled.width, math.Min(manoeuvres.width, sideslips.width)*1.02)
		require.Less(t, float64(quarrels)/float64(draws), 0.08)
	}
}

// Independent roads on few degrees of freedom, the standard deviations themselves estimated, with and without a shared error as large as theirs.
// Weights that come from such standard deviations would be overconfident: 0.81 instead of 0.95 for three roads of two degrees.
func TestRoadsOnFewDegreesCover(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for _, degrees := range [][]int{{2, 2}, {2, 30}, {1, 30}, {4, 4}, {2, 2, 2}, {4, 4, 4}} {
		for _, ratio := range []float64{0.5, 1, 2} {
			for _, shared := range []float64{0, 0.01} {
				var r rate
				for range trials(500) {
					z := random.NormFloat64()
					var roads []Road
					for i, nu := range degrees {
						sd := 0.01
						if i == 0 {
							sd *= ratio
						}
						roads = append(roads, roadOf("road", 0.12+sd*random.NormFloat64()+shared*z, sd*estimatedSD(random, nu), float64(nu), map[string]float64{SourceMass: shared}, nil))
					}
					r.count(Roads(identify.DirectionalStiff, roads, Loan{}).Pooled, 0.12)
				}
				t.Logf("degrees %v, first sd times %g, shared %g: %.1f %%, width %.4f", degrees, ratio, shared, 100*r.share(), r.width/float64(r.all))
				require.True(t, r.meets())
			}
		}
	}
}

// estimatedSD is a draw of an estimated standard deviation whose truth is one.
func estimatedSD(random *rand.Rand, degrees int) float64 {
	sum := 0.0
	for range degrees {
		sum += square(random.NormFloat64())
	}
	return math.Sqrt(sum / float64(degrees))
}

const trueStiffness, trueRudder = 0.12, -0.06

// drawRoads flies three configurations of which the first is judged. Rudder power and stiffness of one fit are correlated by 0.7.
func drawRoads(random *rand.Rand, flights int) ([]Road, Loan) {
	const sd, sdRudder, rho, airspeed, gain = 0.008, 0.004, 0.7, 0.02, 0.03
	speed, rudder := airspeed*random.NormFloat64(), gain*random.NormFloat64()
	var programme [][]identify.Fit
	for range 3 {
		var fits []identify.Fit
		for f := range flights {
			e := random.NormFloat64()
			stiff := trueStiffness + sd*e + 0.006*random.NormFloat64()
			power := trueRudder + sdRudder*(rho*e+math.Sqrt(1-rho*rho)*random.NormFloat64()) + 0.003*random.NormFloat64()
			stiff, power = stiff*(1-2*speed), power*(1-2*speed-rudder)
			fit := fitOf(string(rune('A'+f)), identify.DirectionalStiff, stiff, sd, map[string]float64{SourceAirspeedScale: -2 * airspeed * stiff})
			fit.Derivatives = append(fit.Derivatives, identify.Derivative{Quantity: identify.RudderPower, Value: power, SD: sdRudder, Determined: true,
				Common: map[string]float64{SourceAirspeedScale: -2 * airspeed * power, SourceRudderScale: -gain * power}})
			fit.Covariance = [][]float64{{sd * sd, rho * sd * sdRudder}, {rho * sd * sdRudder, sdRudder * sdRudder}}
			fits = append(fits, fit)
		}
		programme = append(programme, fits)
	}
	scatter := PoolDerivatives(programme)
	loan := DerivativeLoan(programme[0], nil, "idle", scatter)
	results := Derivatives(programme[0], nil, 0, scatter)
	return []Road{{"manoeuvres", results[0], map[string]float64{identify.DirectionalStiff: 1}}, drawSlip(random, results[1], rudder, gain)}, loan
}

// drawSlip is the sideslip road: a slope from three flights times the rudder power that was borrowed.
func drawSlip(random *rand.Rand, power Result, rudder, gain float64) Road {
	const sdSlope = 0.15
	var slopes []float64
	sum := 0.0
	for range 3 {
		s := (-trueStiffness/trueRudder + sdSlope*random.NormFloat64()) * (1 + rudder)
		slopes, sum = append(slopes, s), sum+s/3
	}
	spread := 0.0
	for _, s := range slopes {
		spread += square(s-sum) / 2 / 3
	}
	common := map[string]float64{SourceAirspeedScale: -sum * power.Common[SourceAirspeedScale], SourceRudderScale: -sum*power.Common[SourceRudderScale] - sum*gain**power.Value}
	slope, lent := math.Sqrt(spread)**power.Value, sum**power.SDOwn
	r := Result{Quantity: identify.DirectionalStiff, Power: "idle", Degrees: satterthwaite([]variancePart{{slope * slope, 2}, {lent * lent, power.Degrees}})}
	r = fillStudent(r, -sum**power.Value, math.Hypot(slope, lent), common)
	return Road{"sideslips", r, map[string]float64{identify.RudderPower: -sum}}
}
