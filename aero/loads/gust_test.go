package loads

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"wingproof/aero/atmosphere"
)

// Exact by definition: international foot, knot, pound; slug and pound-force follow with standard gravity.
const (
	foot       = 0.3048
	knot       = 1852.0 / 3600
	pound      = 0.45359237
	poundForce = pound * gravity
)

// americanGust is the rule as printed, 14 CFR 23.341(c), from memory: n = 1 + K·U·V·a/(498·W/S), with U in ft/s, V in
// knots, W/S in lb/ft², density in slug/ft³, chord in ft and g in ft/s².
func americanGust(u, v, wingLoading, density, chord, slope float64) float64 {
	mu := 2 * wingLoading / (density * chord * slope * 32.174)
	return 1 + 0.88*mu/(5.3+mu)*u*v*slope/(498*wingLoading)
}

func TestGustWorkedByHandInAmericanUnits(t *testing.T) {
	// W/S 20 lb/ft², chord 4 ft, slope 5 per rad, sea level, 50 ft/s at 120 kt. By hand:
	// μ = 40/(0.0023769·4·5·32.174) = 26.152; K = 0.88·26.152/31.452 = 0.73171; n = 1 + 0.73171·30000/9960 = 3.2040.
	require.InDelta(t, 3.2040, americanGust(50, 120, 20, 0.0023769, 4, 5), 5e-5)
	area := 130 * foot * foot
	mass := 20 * 130 * pound
	wing := GustWing{Area: area, MeanChord: 4 * foot, LiftSlope: 5}
	require.InDelta(t, 26.152, GustMassRatio(wing, mass, atmosphere.SeaLevelDensity), 2e-3)
	below, above, err := GustLoadFactor(Gust{Velocity: CruiseGust, Speed: 120 * knot}, wing, mass)
	require.NoError(t, err)
	// The printed 498 stands for 498.5: the printed rule is 0.11 % heavier, and that is all.
	require.InDelta(t, 1+2.2040*498/498.54, below, 2e-4)
	require.InDelta(t, 2, below+above, 1e-12)
}

func TestGustWorkedByHandInSI(t *testing.T) {
	// 960 kg on 12.6 m², chord 1.4651 m, slope 5.2, 15.24 m/s at 70 m/s. By hand: m/S = 76.190 kg/m²;
	// μ = 152.381/(1.225·1.4651·5.2) = 16.3276; K = 0.88·16.3276/21.6276 = 0.664350;
	// n = 1 + 0.664350·1.225·15.24·70·5.2/(2·747.174) = 4.0211.
	wing := GustWing{Area: 12.6, MeanChord: 1.4651, LiftSlope: 5.2}
	require.InDelta(t, 16.3276, GustMassRatio(wing, 960, 1.225), 5e-4)
	require.InDelta(t, 0.664350, GustAlleviation(16.3276), 5e-7)
	below, above, err := GustLoadFactor(Gust{Velocity: 15.24, Speed: 70, Density: 1.225}, wing, 960)
	require.NoError(t, err)
	require.InDelta(t, 4.0211, below, 2e-4)
	require.InDelta(t, -2.0211, above, 2e-4)
}

func TestGustInBothUnitSystems(t *testing.T) {
	// The constant of the printed rule: 2·(lb/ft²)/(ρ0·ft/s·kt) is 498.5, printed 498.
	constant := 2 * poundForce / (foot * foot) / (atmosphere.SeaLevelDensity * foot * knot)
	require.InDelta(t, 498.5, constant, 0.05)
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		u, v, loading := draw("gust ft/s", 5, 66), draw("speed kt", 30, 300), draw("wing loading lb/ft²", 5, 60)
		chord, slope, density := draw("chord ft", 1, 10), draw("slope", 2, 6.5), draw("density slug/ft³", 0.001, 0.0024)
		const slug = poundForce / foot
		area := draw("area m²", 3, 30)
		mass := loading * poundForce / (foot * foot) * area / gravity
		g := Gust{Velocity: u * foot, Speed: v * knot, Density: density * slug / (foot * foot * foot)}
		below, _, err := GustLoadFactor(g, GustWing{area, chord * foot, slope}, mass)
		require.NoError(t, err)
		american := americanGust(u, v, loading, density, chord, slope)
		require.InEpsilon(t, (american-1)*498/constant, below-1, 1e-5)
		heavier, _, err := GustLoadFactor(g, GustWing{area, chord * foot, slope}, 1.1*mass)
		require.NoError(t, err)
		require.Less(t, heavier, below, "the heavier aircraft feels less")
	})
}

func TestGustRefusesWhatDoesNotFit(t *testing.T) {
	wing := GustWing{10, 1, 5}
	for want, try := range map[string]func() (float64, float64, error){
		"the speed is 0 m/s; it has to be positive": func() (float64, float64, error) { return GustLoadFactor(Gust{Velocity: 1}, wing, 500) },
		"the mass is NaN kg":                        func() (float64, float64, error) { return GustLoadFactor(Gust{Velocity: 1, Speed: 9}, wing, math.NaN()) },
		"the lift slope is -5 per rad": func() (float64, float64, error) {
			return GustLoadFactor(Gust{Velocity: 1, Speed: 9}, GustWing{10, 1, -5}, 500)
		},
	} {
		_, _, err := try()
		require.ErrorContains(t, err, want)
	}
}

func TestManoeuvreSpeed(t *testing.T) {
	require.InDelta(t, 58.481, ManoeuvreSpeed(30, 3.8), 5e-4) // 30·√3.8
	require.InDelta(t, 40*math.Sqrt(1.52), ManoeuvreSpeed(40, -1.52), 1e-12)
	// At the manoeuvre speed the lift coefficient of the limit load is that of the stall at one g.
	c := Condition{Mass: 900, LoadFactor: 3.8, Speed: ManoeuvreSpeed(30, 3.8)}
	stall := Condition{Mass: 900, LoadFactor: 1, Speed: 30}
	require.InDelta(t, stall.LiftCoefficient(12), c.LiftCoefficient(12), 1e-12)
	require.InDelta(t, 900*gravity/(1.225/2*900*12), stall.LiftCoefficient(12), 1e-6)
}
