package rehearse

import (
	"fmt"
	"math"
	"math/rand/v2"

	"wingproof/flightlog"
)

const degree = math.Pi / 180

// Instruments are the errors and sample rates of the recorder and its sensors.
//
// The first block holds values that every flight of one programme shares: a reduction cannot average
// them away. The others are standard deviations, drawn once a flight or once a sample by Fly.
type Instruments struct {
	AirspeedScale float64 // relative: indicated/calibrated − 1
	Boresight     float64 // rad: nose-up angle of the inertial unit against the datum x axis
	ElevatorZero  float64 // rad: surface angle when the log says zero
	ElevatorScale float64 // relative: surface angle per logged angle − 1
	AileronZero   float64 // rad, likewise
	AileronScale  float64
	RudderZero    float64
	RudderScale   float64

	ElevatorPlaySD float64 // rad: backlash and hysteresis, one offset a flight
	RateBiasSD     float64 // rad/s, a flight
	ForceBiasSD    float64 // m/s², a flight
	AttitudeBiasSD float64 // rad, roll and pitch, a flight
	HeadingBiasSD  float64 // rad, a flight
	PressureBiasSD float64 // Pa, a flight
	OutsideBiasSD  float64 // K, a flight

	RateNoise      float64 // rad/s, a sample
	ForceNoise     float64 // m/s², a sample
	AttitudeNoise  float64 // rad, a sample
	AirspeedNoise  float64 // m/s, a sample
	PressureNoise  float64 // Pa, a sample; altitude comes from the same sensor
	SatelliteNoise float64 // m/s in each component of the velocity over the earth

	FastRate      float64 // Hz: rates, forces, attitude, controls
	AirRate       float64 // Hz: airspeed, pressure, altitude
	SatelliteRate float64 // Hz: ground speed, track, climb rate, temperature
	SatelliteLag  float64 // s: how old a satellite velocity is when it is written

	Sensors flightlog.Sensors // where the sensors sit; nil is at the CG
	Vanes   Vanes             // the zero Vanes are not fitted
}

// ProgrammeErrors are the standard deviations of the errors that a whole programme of flights shares.
type ProgrammeErrors struct {
	AirspeedScale float64 // relative
	Boresight     float64 // rad
	ElevatorZero  float64 // rad
	ElevatorScale float64 // relative
	AileronZero   float64 // rad
	AileronScale  float64 // relative
	RudderZero    float64 // rad
	RudderScale   float64 // relative
}

// DefaultProgrammeErrors are 1.5 % of airspeed, 0.2° of mounting, 0.15° and 2 % of elevator calibration.
// Invented, of the order that careful bench work leaves.
func DefaultProgrammeErrors() ProgrammeErrors {
	return ProgrammeErrors{AirspeedScale: 0.015, Boresight: 0.2 * degree, ElevatorZero: 0.15 * degree, ElevatorScale: 0.02}
}

// DefaultInstruments is a small recorder without programme errors: sensors at 25 Hz, satellite
// navigation at 5 Hz and 0.2 s late. The values are invented, of the order of cheap sensors.
func DefaultInstruments() Instruments {
	return Instruments{
		ElevatorPlaySD: 0.15 * degree,
		RateBiasSD:     0.1 * degree, ForceBiasSD: 0.03, AttitudeBiasSD: 0.15 * degree, HeadingBiasSD: 1 * degree,
		PressureBiasSD: 30, OutsideBiasSD: 1,
		RateNoise: 0.4 * degree, ForceNoise: 0.15, AttitudeNoise: 0.1 * degree,
		AirspeedNoise: 0.15, PressureNoise: 2, SatelliteNoise: 0.07,
		FastRate: 25, AirRate: 25, SatelliteRate: 5, SatelliteLag: 0.2,
	}
}

// DrawInstruments draws the shared errors of one programme onto base. Draw once and use the result for
// every flight. What belongs to aileron and rudder is drawn last, and only where its standard deviation is not zero.
func DrawInstruments(base Instruments, sd ProgrammeErrors, rng *rand.Rand) Instruments {
	base.AirspeedScale = sd.AirspeedScale * rng.NormFloat64()
	base.Boresight = sd.Boresight * rng.NormFloat64()
	base.ElevatorZero = sd.ElevatorZero * rng.NormFloat64()
	base.ElevatorScale = sd.ElevatorScale * rng.NormFloat64()
	for _, late := range [...]struct {
		to *float64
		sd float64
	}{{&base.AileronZero, sd.AileronZero}, {&base.AileronScale, sd.AileronScale}, {&base.RudderZero, sd.RudderZero}, {&base.RudderScale, sd.RudderScale}} {
		if late.sd != 0 {
			*late.to = late.sd * rng.NormFloat64()
		}
	}
	return base
}

func (i Instruments) check() error {
	if !(i.FastRate >= 1 && i.FastRate <= 500) {
		return fmt.Errorf("rehearse: fast sample rate %g Hz is not between 1 and 500", i.FastRate)
	}
	for _, slow := range []struct {
		name string
		rate float64
	}{{"air data", i.AirRate}, {"satellite", i.SatelliteRate}} {
		every := i.FastRate / slow.rate
		if !(slow.rate > 0) || math.Abs(every-math.Round(every)) > 1e-9 || every < 1 {
			return fmt.Errorf("rehearse: %s sample rate %g Hz does not divide the fast rate %g Hz", slow.name, slow.rate, i.FastRate)
		}
	}
	if !(i.SatelliteLag >= 0 && i.SatelliteLag < 5) {
		return fmt.Errorf("rehearse: satellite lag %g s is not between 0 and 5", i.SatelliteLag)
	}
	return i.Vanes.check()
}

// flightErrors are one flight's draws, in the fixed order of the fields.
type flightErrors struct {
	play                 float64
	rate, force          [3]float64
	roll, pitch, heading float64
	pressure, outside    float64
	vanes                uint64 // seed of the vanes' own stream: a draw that the flight makes anyway
}

func (i Instruments) draw(rng *rand.Rand) flightErrors {
	var e flightErrors
	e.play = i.ElevatorPlaySD * rng.NormFloat64()
	for k := range e.rate {
		e.rate[k] = i.RateBiasSD * rng.NormFloat64()
	}
	for k := range e.force {
		e.force[k] = i.ForceBiasSD * rng.NormFloat64()
	}
	e.roll = i.AttitudeBiasSD * rng.NormFloat64()
	e.pitch = i.AttitudeBiasSD * rng.NormFloat64()
	e.heading = i.HeadingBiasSD * rng.NormFloat64()
	e.pressure = i.PressureBiasSD * rng.NormFloat64()
	outside := rng.NormFloat64()
	e.outside = i.OutsideBiasSD * outside
	e.vanes = math.Float64bits(outside)
	return e
}
