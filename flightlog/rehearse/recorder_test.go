package rehearse

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/atmosphere"
)

// sampled looks many times at one unmoving truth.
func sampled(i Instruments, truth moment, n int, seed uint64) Log {
	r := newRecorder(i, atmosphere.SeaLevelPressure, seeded(seed))
	for k := range n {
		truth.time = float64(k) / i.FastRate
		r.sample(&truth)
	}
	return *r.log
}

func steady() moment {
	m := moment{speed: 22, force: [3]float64{1, 0.5, -9.5}, pressure: 100000, kel: 287}
	m.s.attitude(0.2, 0.1, 1.0)
	m.s.u, m.s.p, m.s.q, m.s.r = 22, 0.1, 0.2, 0.3
	m.c = commands{0.02, -0.01, 0.03, 0.4}
	return m
}

// Noise scatters by its standard deviation (within 5 %, twice the scatter of a standard deviation of 2500 samples is 3 %) and
// does not move the mean.
func TestNoiseHasItsStandardDeviation(t *testing.T) {
	i := DefaultInstruments()
	i.RateBiasSD, i.ForceBiasSD, i.AttitudeBiasSD, i.HeadingBiasSD, i.PressureBiasSD, i.OutsideBiasSD = 0, 0, 0, 0, 0, 0
	log := sampled(i, steady(), 2500, 1)
	calibrated := atmosphere.CalibratedAirspeed(22, 100000, 287)
	for _, c := range []struct {
		column   int
		mean, sd float64
	}{
		{atRollRate, 0.1, i.RateNoise}, {atPitchRate, 0.2, i.RateNoise}, {atYawRate, 0.3, i.RateNoise},
		{atForward, 1, i.ForceNoise}, {atRight, 0.5, i.ForceNoise}, {atDown, -9.5, i.ForceNoise},
		{atRoll, 0.2, i.AttitudeNoise}, {atPitch, 0.1, i.AttitudeNoise}, {atHeading, 1, i.AttitudeNoise},
		{atAirspeed, calibrated, i.AirspeedNoise}, {atPressure, 100000, i.PressureNoise},
	} {
		mean, sd, n := meanOver(log, c.column, 0, 1e9)
		require.Equal(t, 2500, n)
		require.InDelta(t, c.mean, mean, 4*c.sd/math.Sqrt(2500), "column %d", c.column)
		require.InEpsilon(t, c.sd, sd, 0.05, "column %d", c.column)
	}
	// controls are written as commanded
	require.Equal(t, 0.02, log.Columns[atElevator][7])
	require.Equal(t, 0.03, log.Columns[atRudderRight][7])
}

// Biases differ from flight to flight with their own standard deviation.
func TestBiasesAreDrawnOnceAFlight(t *testing.T) {
	i := perfect()
	i.AttitudeBiasSD, i.ForceBiasSD = 0.003, 0.05
	var squares [2]float64
	const flights = 300
	for seed := range uint64(flights) {
		log := sampled(i, steady(), 5, seed)
		require.Equal(t, log.Columns[atPitch][0], log.Columns[atPitch][4], "the same in every sample")
		squares[0] += math.Pow(log.Columns[atPitch][0]-0.1, 2) / flights
		squares[1] += math.Pow(log.Columns[atDown][0]+9.5, 2) / flights
	}
	require.InEpsilon(t, 0.003, math.Sqrt(squares[0]), 0.13) // three times the scatter 1/√(2·300)
	require.InEpsilon(t, 0.05, math.Sqrt(squares[1]), 0.13)
}

// A unit mounted nose up reads more pitch, and feels gravity forward.
func TestBoresightTurnsEveryAxis(t *testing.T) {
	i := perfect()
	i.Boresight = 0.02
	truth := moment{force: [3]float64{0, 0, -atmosphere.Gravity}, pressure: 101325, kel: 288}
	truth.s.attitude(0, 0.1, 2)
	truth.s.r = 0.5
	log := sampled(i, truth, 1, 1)
	require.InDelta(t, 0.12, log.Columns[atPitch][0], 1e-12)
	require.InDelta(t, 2, log.Columns[atHeading][0], 1e-12)
	require.InDelta(t, atmosphere.Gravity*math.Sin(0.02), log.Columns[atForward][0], 1e-12)
	require.InDelta(t, -0.5*math.Sin(0.02), log.Columns[atRollRate][0], 1e-12)
}

// Satellite cells come at their own rate, late by the lag, blank between.
func TestSatelliteIsLateAndSeldom(t *testing.T) {
	i := perfect()
	i.SatelliteLag = 0.2
	r := newRecorder(i, atmosphere.SeaLevelPressure, seeded(1))
	for k := range 100 {
		m := moment{time: float64(k) / 25, pressure: 101325, kel: 288}
		m.s.attitude(0, 0, 0)
		m.s.u = 3 * m.time // accelerates north
		r.sample(&m)
	}
	filled := 0
	for k, v := range r.log.Columns[atGroundSpeed] {
		if k%5 != 0 {
			require.True(t, math.IsNaN(v))
			continue
		}
		filled++
		require.InDelta(t, 3*math.Max(0, r.log.Time[k]-0.2), v, 1e-9)
	}
	require.Equal(t, 20, filled)
}

func TestServoDelayLagAndRate(t *testing.T) {
	const dt = 0.01
	a := newActuator(Servo{Delay: 0.03, Lag: 0.05, Rate: 100}, dt, false)
	for k := 1; k <= 60; k++ {
		_, got := a.move(0.2)
		since := float64(k)*dt - 0.03
		want := 0.0
		if since > 0 {
			want = 0.2 * -math.Expm1(-since/0.05)
		}
		require.InDelta(t, want, got, 1e-12)
	}
	slow := newActuator(Servo{Rate: 1}, dt, false)
	for _, want := range []float64{0.01, 0.02} {
		_, got := slow.move(0.2)
		require.InDelta(t, want, got, 1e-15)
	}
}

func TestGustsHaveTheirIntensity(t *testing.T) {
	rng := seeded(2)
	a, err := newAir(Weather{WindSpeed: 5, WindFrom: math.Pi / 2, Turbulence: 0.2, GustLength: 20}, rng)
	require.NoError(t, err)
	var squares [3]float64
	const n = 400000
	for range n {
		a.advance(0.02, 25, rng)
		for k, g := range a.gusts {
			squares[k] += g * g / n
		}
	}
	for k, want := range []float64{1, 1, 0.5} { // about 10,000 independent values: 0.7 % in the standard deviation
		require.InEpsilon(t, want, math.Sqrt(squares[k]), 0.03)
	}
	around := a.around(100)
	require.InDelta(t, -5, around.east-a.gusts[1], 1e-12, "from the east blows to the west")
}

// The series for density stays with pressure and temperature over a model's heights.
func TestDensityFollowsTheAtmosphere(t *testing.T) {
	a, err := newAir(Weather{}, seeded(1))
	require.NoError(t, err)
	for _, h := range []float64{0, 50, 150} {
		air, err := atmosphere.Standard(h)
		require.NoError(t, err)
		require.InEpsilon(t, air.Density, a.around(h).density, 1e-6)
		p, temperature := a.at(h)
		require.InEpsilon(t, air.Pressure, p, 1e-9)
		require.InEpsilon(t, air.Temperature, temperature, 1e-12)
	}
}

func TestDrawInstruments(t *testing.T) {
	sd := DefaultProgrammeErrors()
	base := DefaultInstruments()
	var squares float64
	for seed := range uint64(2000) {
		i := DrawInstruments(base, sd, seeded(seed))
		squares += i.AirspeedScale * i.AirspeedScale / 2000
		i.AirspeedScale, i.Boresight, i.ElevatorZero, i.ElevatorScale = 0, 0, 0, 0
		require.Equal(t, base, i)
	}
	require.InEpsilon(t, sd.AirspeedScale, math.Sqrt(squares), 0.06)
}
