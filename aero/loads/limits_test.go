package loads

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"
)

// limitsOfTheTwoSeater are those of an invented aircraft.
func limitsOfTheTwoSeater() Limits {
	return Limits{
		Positive: 3.8, Negative: -1.52, ManoeuvreSpeed: 62, DiveSpeed: 105, Sideslip: 0.2618,
		Gusts: []Gust{{Name: "at the cruising speed", Velocity: CruiseGust, Speed: 80}, {Name: "at the dive speed", Velocity: DiveGust, Speed: 105}},
		Wing:  GustWing{12.6, 1.465, 5.2},
		Loadings: []Loading{
			{Name: "two aboard, full tanks", Mass: 960, CG: r3.Vec{X: 3.98}, FuelFull: true},
			{Name: "one aboard, tanks empty", Mass: 720, CG: r3.Vec{X: 4.1}},
		},
	}
}

func ExampleConditions() {
	conditions, err := Conditions(limitsOfTheTwoSeater())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range conditions[:len(conditions)/2] {
		fmt.Printf("%5.2f at %3.0f m/s  %s\n", c.LoadFactor, c.Speed, c.Name)
	}
	// Output:
	//  3.80 at  62 m/s  limit load up at the manoeuvre speed; two aboard, full tanks
	//  3.80 at 105 m/s  limit load up at the dive speed; two aboard, full tanks
	// -1.52 at  62 m/s  limit load down at the manoeuvre speed; two aboard, full tanks
	// -1.52 at 105 m/s  limit load down at the dive speed; two aboard, full tanks
	//  4.45 at  80 m/s  gust from below at the cruising speed; two aboard, full tanks
	// -2.45 at  80 m/s  gust from above at the cruising speed; two aboard, full tanks
	//  3.27 at 105 m/s  gust from below at the dive speed; two aboard, full tanks
	// -1.27 at 105 m/s  gust from above at the dive speed; two aboard, full tanks
	//  2.53 at  62 m/s  two thirds of the limit load with full aileron, rolling steadily; two aboard, full tanks
	//  1.00 at  62 m/s  level flight, full rudder, no sideslip yet; two aboard, full tanks
	//  1.00 at  62 m/s  level flight, full rudder and the sideslip that it brings; two aboard, full tanks
	//  1.00 at  62 m/s  level flight, sideslip, rudder neutral; two aboard, full tanks
}

func TestConditionsCarryTheirLoading(t *testing.T) {
	l := limitsOfTheTwoSeater()
	l.AileronOnset = true
	list, err := Conditions(l)
	require.NoError(t, err)
	require.Len(t, list, 2*13)
	names := map[string]bool{}
	for i, c := range list {
		loading := l.Loadings[i/13]
		require.Equal(t, []any{loading.Name, loading.Mass, loading.CG, loading.FuelFull}, []any{c.Loading, c.Mass, c.CG, c.FuelFull})
		require.False(t, names[c.Name], "two conditions are called %q", c.Name)
		names[c.Name] = true
		require.Equal(t, c.Aileron == 1 || c.Rudder == 1 || c.Sideslip > 0, c.Asymmetric())
	}
	require.Greater(t, list[13+4].LoadFactor, list[4].LoadFactor, "the lighter aircraft feels the gust more")
	rolling := list[8:10]
	require.True(t, rolling[0].SteadyRoll)
	require.False(t, rolling[1].SteadyRoll)
	require.InDelta(t, 3.8*2/3, rolling[1].LoadFactor, 1e-12)
	again, err := Conditions(l)
	require.NoError(t, err)
	require.Equal(t, list, again)
}

func TestConditionsThatAreLeftOut(t *testing.T) {
	bare := Limits{Positive: 3.8, ManoeuvreSpeed: 60, NoAileron: true, NoRudder: true, Loadings: []Loading{{Name: "gross", Mass: 900}}}
	list, err := Conditions(bare)
	require.NoError(t, err)
	require.Equal(t, []Condition{{Name: "limit load up at the manoeuvre speed; gross", Loading: "gross", Mass: 900, LoadFactor: 3.8, Speed: 60}}, list)
}

func TestConditionsNameEveryMistake(t *testing.T) {
	_, err := Conditions(Limits{Positive: 0.5, Negative: 1, ManoeuvreSpeed: math.NaN(), DiveSpeed: -3, Sideslip: 2})
	for _, want := range []string{
		"the limit load factor up is 0.5; it has to be 1 or more", "the limit load factor down is 1; it has to be negative",
		"the manoeuvre speed is NaN m/s", "the dive speed is -3 m/s", "the sideslip is 2 rad", "there is no loading",
	} {
		require.ErrorContains(t, err, want)
	}
	l := limitsOfTheTwoSeater()
	l.Loadings[1].Mass = 0
	_, err = Conditions(l)
	require.EqualError(t, err, `load conditions: loading "one aboard, tanks empty" has a mass of 0 kg; it has to be positive`)
	l = limitsOfTheTwoSeater()
	l.Wing = GustWing{}
	_, err = Conditions(l)
	require.EqualError(t, err, `loading "two aboard, full tanks": gust at the cruising speed: the reference area is 0 m²; it has to be positive`)
}
