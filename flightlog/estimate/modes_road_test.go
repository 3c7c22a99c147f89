package estimate

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog/identify"
	"wingproof/flightlog/response"
	"wingproof/flightlog/source"
)

// swingOf is the Dutch roll of the model at a speed, as a free response would show it without errors.
func swingOf(t *testing.T, flight string, speed float64) Swing {
	t.Helper()
	in := modelForModes()
	in.Aircraft.Speed = speed
	m, err := NominalModes(in)
	require.NoError(t, err)
	return Swing{Flight: flight, Aircraft: in.Aircraft, Mode: response.Mode{
		Kind: response.DutchRoll, Frequency: m.DutchRoll.Frequency, FrequencySD: 0.03, Damping: m.DutchRoll.Damping, Airspeed: speed, Determined: true}}
}

// There and back: the Dutch roll of the linear model gives the stiffness that it was computed with, whatever the speed.
func TestDutchRollGivesBackTheStiffness(t *testing.T) {
	in := modelForModes()
	var swings []Swing
	for i, speed := range []float64{18, 22, 26} {
		swings = append(swings, swingOf(t, fmt.Sprint("F", i), speed))
	}
	for i, d := range in.Derivatives {
		if d.Quantity == identify.DirectionalStiff {
			in.Derivatives[i].Value, in.Derivatives[i].SD = 99, 9 // not used
		}
	}
	road := DirectionalStiffnessFromDutchRoll(swings, in, nil)
	require.InEpsilon(t, 0.06, *road.Result.Value, 1e-6)
	require.NotContains(t, road.Borrowed, identify.DirectionalStiff)
	require.Contains(t, road.Borrowed, identify.YawDamping)

	// what was borrowed wrongly moves the value as Borrowed says
	for i, d := range in.Derivatives {
		if d.Quantity == identify.YawDueToRoll {
			in.Derivatives[i].Value += 0.002
		}
	}
	moved := DirectionalStiffnessFromDutchRoll(swings, in, nil)
	require.InEpsilon(t, 0.002*road.Borrowed[identify.YawDueToRoll], *moved.Result.Value-*road.Result.Value, 0.02)
}

// Cn_β = ω²·Iz/(½ρV²Sb) but for coupling: one percent more of reported inertia is one percent more stiffness, and
// one percent more of airspeed two percent less.
func TestDutchRollCarriesInertiaAndAirspeed(t *testing.T) {
	in := modelForModes()
	in.Aircraft.Errors = ModeErrors{InertiaZ: map[string]float64{source.InertiaZ: 0.01}, Speed: map[string]float64{source.AirspeedScale: 0.01}}
	for i, d := range in.Derivatives {
		switch d.Quantity {
		case identify.YawDamping, identify.YawDueToRoll:
			in.Derivatives[i].Common = map[string]float64{source.InertiaZ: 0.01 * d.Value}
		}
		common := map[string]float64{source.AirspeedScale: -0.02 * d.Value}
		switch d.Quantity {
		case identify.YawDamping, identify.YawDueToRoll, identify.RollDamping, identify.RollDueToYaw, identify.SideForceByRollRate, identify.SideForceByYawRate:
			common[source.AirspeedScale] = -0.01 * d.Value // the rates are over V, the coefficients over V²
		}
		for name, v := range in.Derivatives[i].Common {
			common[name] = v
		}
		in.Derivatives[i].Common = common
	}
	road := DirectionalStiffnessFromDutchRoll([]Swing{swingOf(t, "F1", 22), swingOf(t, "F2", 23)}, in, nil)
	v := *road.Result.Value
	require.InEpsilon(t, 0.01*v, road.Result.Common[source.InertiaZ], 1e-3)
	// the parts of side force and gravity in the motion grow with other powers of the speed
	require.InEpsilon(t, -0.02*v, road.Result.Common[source.AirspeedScale], 0.1)
}

// The interval holds the truth as often as it says, borrowed errors included.
func TestDutchRollRoadCovers(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 3))
	hits, trials := 0, 200
	for range trials {
		in := modelForModes()
		for i := range in.Derivatives {
			in.Derivatives[i].Value += in.Derivatives[i].SD * random.NormFloat64()
		}
		var swings []Swing
		for i, speed := range []float64{19, 20, 22, 23, 25, 26} {
			s := swingOf(t, fmt.Sprint("F", i/2), speed)
			s.Mode.FrequencySD = 0.08
			s.Mode.Frequency += 0.08 * random.NormFloat64()
			swings = append(swings, s)
		}
		r := DirectionalStiffnessFromDutchRoll(swings, in, nil).Result
		if r.Low != nil && 0.06 >= *r.Low && 0.06 <= *r.High {
			hits++
		}
	}
	t.Logf("%d of %d", hits, trials)
	require.InDelta(t, 0.95, float64(hits)/float64(trials), 2.6*math.Sqrt(0.95*0.05/float64(trials)))
}

func TestDutchRollRoadSaysWhatIsMissing(t *testing.T) {
	in := modelForModes()
	road := DirectionalStiffnessFromDutchRoll(nil, in, nil)
	require.Equal(t, NotDetermined, road.Result.State)
	require.Contains(t, road.Result.Warnings[0], "rudder doublets")
	in.Derivatives = in.Derivatives[:4]
	road = DirectionalStiffnessFromDutchRoll([]Swing{swingOf(t, "F1", 22)}, in, nil)
	require.Contains(t, road.Result.Warnings[0], "roll damping")
}

func TestPitchStiffnessFromShortPeriod(t *testing.T) {
	in := modelForModes()
	m, err := NominalModes(in)
	require.NoError(t, err)
	var swings []Swing
	for i := range 2 {
		swings = append(swings, Swing{Flight: fmt.Sprint("F", i), Aircraft: in.Aircraft, Mode: response.Mode{
			Kind: response.ShortPeriod, Frequency: m.ShortPeriod.Frequency, FrequencySD: 0.1, Determined: true}})
	}
	road := PitchStiffnessFromShortPeriod(swings, in, nil)
	require.InEpsilon(t, -0.44, *road.Result.Value, 1e-6)
	require.Contains(t, road.Borrowed, identify.PitchDamping)
}
