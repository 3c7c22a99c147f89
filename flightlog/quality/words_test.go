package quality

import (
	"math"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// flownOnce is one flight with inputs on every control, shared by the tests that look at words.
var flownOnce = sync.OnceValues(func() (rehearse.Log, error) {
	return flown(inventedModel(), 5, flightOptions{sheet: 1, rate: 25})
})

// changed gives that flight with the samples of channels changed.
func changed(t *testing.T, change func(at, v float64) float64, qs ...flightlog.Quantity) *flightlog.Recording {
	l, err := flownOnce()
	require.NoError(t, err)
	rec := ofLog(l)
	for _, q := range qs {
		c := rec.Channels[q]
		for i, v := range c.Value {
			c.Value[i] = change(c.Time[i], v)
		}
	}
	return rec
}

func times(by float64) func(at, v float64) float64 {
	return func(_, v float64) float64 { return by * v }
}

// within changes what lies between two times.
func within(from, to float64, change func(v float64) float64) func(at, v float64) float64 {
	return func(at, v float64) float64 {
		if at >= from && at <= to {
			return change(v)
		}
		return v
	}
}

// What each finding says, and which results it names.
func TestWords(t *testing.T) {
	type change = func(at, v float64) float64
	for name, c := range map[string]struct {
		q        flightlog.Quantity
		change   change
		severity flightlog.Severity
		what     string
		lost     string
	}{
		"frozen satellite":   {flightlog.GroundSpeed, within(100, 110, func(float64) float64 { return 21.5 }), flightlog.Loss, "the ground speed repeats 21.5 for 10.0 s, so that it is frozen", "no wind and no check of the airspeed scale from 100 to 110 s"},
		"saturated":          {flightlog.RollRate, func(_, v float64) float64 { return math.Min(v, 0.3) }, flightlog.Loss, "the roll rate sits at its highest value 0.3 for", "no roll manoeuvre and no roll derivatives from"},
		"elevator stop":      {flightlog.Elevator, within(120, 122, func(float64) float64 { return 0.4 }), flightlog.Note, "the elevator stays at 22.9 degrees for 2.0 s, as at its end stop", "no elevator power, input or slope of pitch across it from 120.0 to 122.0 s, since the nose follows no further; steady flight there still counts"},
		"aileron stop":       {flightlog.Aileron, within(120, 122, func(float64) float64 { return 0.4 }), flightlog.Note, "the aileron stays at 22.9 degrees for 2.0 s", "the manoeuvre from 120.0 to 122.0 s got no more deflection than this"},
		"noise":              {flightlog.YawRate, func(at, v float64) float64 { return v + 40*math.Floor(math.Mod(at*25+0.5, 40)/39) }, flightlog.Loss, "samples of the yaw rate stand off the neighbours", "no yaw manoeuvre and no yaw derivatives from 2 to 349 s; look at the wiring"},
		"leaking tube":       {flightlog.Airspeed, within(150, 400, func(v float64) float64 { return 0.6 * v }), flightlog.Loss, "where the velocity over the ground and the wind say", "no lift, drag, test point or wind from 149 to 349 s; the rest of the log is good"},
		"airspeed scale":     {flightlog.Airspeed, times(1.3), flightlog.Refusal, "times the speed over the ground less the wind over the whole flight", "a calibrated tube has a scale of 0.7"},
		"airspeed in km/h":   {flightlog.Airspeed, times(3.6), flightlog.Refusal, "the airspeed is 3.", "the column seems to be in km/h, not in m/s"},
		"ground speed in kt": {flightlog.GroundSpeed, times(3600.0 / 1852), flightlog.Loss, "times the airspeed, and too large or small for the turns flown", "the column seems to be in kt, not in m/s"},
		"roll sign":          {flightlog.RollAngle, times(-1), flightlog.Refusal, "the roll angle has the wrong sign", "roll the model to the right by hand"},
		"heading sign":       {flightlog.Heading, func(_, v float64) float64 { return 2*math.Pi - v }, flightlog.Loss, "the heading has the wrong sign", "no wind by heading and no sideslip from this log until it is put right"},
		"climb sign":         {flightlog.ClimbRate, times(-1), flightlog.Loss, "the climb rate has the wrong sign", "carry the model upstairs"},
		"climb in ft/min":    {flightlog.ClimbRate, times(60 / 0.3048), flightlog.Loss, "the climb rate is 19", "the column seems to be in ft/min, not in m/s"},
		"right force":        {flightlog.RightAcceleration, times(-1), flightlog.Loss, "the right acceleration runs against the side force", "lower the right wing"},
		"aileron sign":       {flightlog.Aileron, times(-1), flightlog.Loss, "the aileron turns the model the wrong way", "right aileron up and left one down"},
		"rudder sign":        {flightlog.RudderLeft, times(-1), flightlog.Loss, "the rudder left turns the model the wrong way", "a trailing edge that moves left must turn the nose left"},
		"elevator sign":      {flightlog.Elevator, times(-1), flightlog.Refusal, "on a foreplane trailing edge down must raise the nose", "trim slopes and neutral point would have the wrong sign"},
		"elevator degrees":   {flightlog.Elevator, times(1 / degree), flightlog.Refusal, "beyond any hinge's travel", "the column seems to be in degrees"},
		"aileron radians":    {flightlog.Aileron, times(degree), flightlog.Loss, "the aileron moves by only", "in radians, not in degrees"},
		"track degrees":      {flightlog.GroundTrack, times(1 / degree), flightlog.Loss, "beyond a full turn", "the column seems to be in degrees"},
		"heading radians":    {flightlog.Heading, times(degree), flightlog.Loss, "jumps from one end to the other", "in radians, not in degrees"},
		"vane sign":          {flightlog.AngleOfAttack, times(-1), flightlog.Loss, "the angle of attack runs against the lift that is carried", "no angle of attack by vane"},
		"sideslip vane":      {flightlog.Sideslip, times(-1), flightlog.Loss, "the sideslip runs against the sideslip that bank and yaw rate bring", "no sideslip by vane"},
		"kelvin":             {flightlog.AirTemperature, func(_, v float64) float64 { return v - 273.15 }, flightlog.Refusal, "where the air outside has −63 to 47", "the column seems to be in °C, not in K"},
		"celsius":            {flightlog.AirTemperature, func(_, v float64) float64 { return (v-273.15-32)*5/9 + 273.15 }, flightlog.Note, "where climb rate and static pressure together ask for", "the column seems to be in °C, not in °F"},
		"pressure drops out": {flightlog.StaticPressure, within(100, 120, func(float64) float64 { return 0 }), flightlog.Loss, "the static pressure drops out for 20.0 s (it reads 0 Pa, which cannot be)", "no drag of glides and no path angle from 100 to 120 s; look at the wiring and the supply"},
		"altitude drops out": {flightlog.Altitude, within(100, 120, func(float64) float64 { return 90000 }), flightlog.Loss, "the altitude drops out for 20.0 s (it reads 9e+04 m, which cannot be)", "no drag of glides and no path angle from 100 to 120 s"},
		"heading jumps":      {flightlog.Heading, within(150, 400, func(v float64) float64 { return math.Mod(v+60*degree, 2*math.Pi) }), flightlog.Loss, "the heading jumps by 60° at 150.0 s", "heading, wind by heading and sideslip behind it, from 150 to 350 s, are in doubt"},
		"inches of mercury":  {flightlog.StaticPressure, times(1 / 33.86389), flightlog.Refusal, "where the air outside has about 100000", "in inHg, not in hPa"},
	} {
		rec := changed(t, c.change, c.q)
		got := about(both(rec), c.q, c.severity)
		require.NotEmpty(t, got, name)
		require.Contains(t, got[0].What, c.what, name)
		require.Contains(t, got[0].Consequence, c.lost, name)
		for _, f := range both(rec) {
			require.True(t, f.Channel == c.q || f.Severity == flightlog.Note, "%s blames %s too: %s", name, f.Channel, f.What)
		}
	}
}

// Accelerometers that read 8 % too much at rest are told before a flight hides it.
func TestGravityAtRest(t *testing.T) {
	rec := changed(t, times(1.08), flightlog.ForwardAcceleration, flightlog.RightAcceleration, flightlog.DownAcceleration)
	got := about(Inspect(rec), flightlog.DownAcceleration, flightlog.Loss)
	require.Len(t, got, 1)
	require.Regexp(t, `^at rest \(from 0\.\d to [3456]\.\d s\) the accelerometers read 10\.\d\d m/s² together, where gravity gives 9\.81$`, got[0].What)
	require.Contains(t, got[0].Consequence, "lift would be wrong by about +8 %")
}

// Exchanged columns name both sides.
func TestExchangedSpeeds(t *testing.T) {
	l, err := flown(inventedModel(), 12, flightOptions{sheet: 2, rate: 25})
	require.NoError(t, err)
	require.True(t, windy(l))
	rec := ofLog(l)
	swapped(rec, flightlog.Airspeed, flightlog.GroundSpeed)
	got := about(Inspect(rec), flightlog.Airspeed, flightlog.Refusal)
	require.Len(t, got, 1)
	require.Contains(t, got[0].What, "the two columns are exchanged")
	require.Contains(t, got[0].Consequence, "exchange the two in the logger map")
}

// InAircraft names the aircraft's numbers, and controls at the ends of the travel that it states.
func TestInAircraftWords(t *testing.T) {
	l, err := flown(inventedModel(), 6, flightOptions{sheet: 3, rate: 25})
	require.NoError(t, err)
	a := modelAircraft()
	a.Mass = 9
	got := about(InAircraft(ofLog(l), a), "", flightlog.Refusal)
	require.Len(t, got, 1)
	require.Regexp(t, `^with 9 kg on 0\.787 m² the lift coefficient rises by [23]\.\d\d for each radian of angle of attack, too little for a wing of aspect ratio 5\.9 and its foreplane \(3\.51 to 6\.12\)$`, got[0].What)
	require.Contains(t, got[0].Consequence, "no lift, drag or trim point of this log counts for this aircraft")

	a = modelAircraft()
	a.Travel = map[flightlog.Quantity]Travel{flightlog.Aileron: {Min: -0.3, Max: 0.3}}
	got = about(InAircraft(ofLog(l), a), flightlog.Aileron, flightlog.Note)
	require.Empty(t, got, "nothing stays beyond a travel for a second")
	c := ofLog(l)
	ail := c.Channels[flightlog.Aileron]
	for i, at := range ail.Time {
		if at > 100 && at < 101.5 {
			ail.Value[i] = 0.3 - 1e-4*math.Sin(at)
		}
	}
	got = about(InAircraft(c, a), flightlog.Aileron, flightlog.Note)
	require.Len(t, got, 1)
	require.Contains(t, got[0].What, "as at its end stop")

	a = modelAircraft()
	a.ForeplaneElevator = false
	got = about(InAircraft(ofLog(l), a), flightlog.Elevator, flightlog.Refusal)
	require.Len(t, got, 1)
	require.Contains(t, got[0].What, "on a tail trailing edge down must lower the nose")
	require.Empty(t, about(InAircraft(ofLog(l), Aircraft{ForeplaneElevator: true}), "", flightlog.Note), "no mass, no word about it")
}
