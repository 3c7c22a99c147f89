package reconstruct

import (
	"cmp"
	"math"
	"slices"

	"wingproof/flightlog"
)

// Setup is what Run must know beside the recording. Zero values mean "not known" and take the default said there.
type Setup struct {
	Pressure    float64         // at the field, Pa; used only where the recording has no static pressure
	Temperature float64         // at the field, K; used only where the recording has no air temperature
	CG          flightlog.Place // of this flight, model size, from the model's datum: x aft, y right, z up
	Barred      []Stretch       // what must not be used, as the log's quality says

	// SatelliteDelayDeclared says that the logger map already took a delay off the satellite channels: the lag is still
	// estimated and reported, but not taken off again.
	SatelliteDelayDeclared bool

	BoresightSD   float64 // rad, nose-up mounting of the inertial unit against the datum x axis; 0 means 0.2°
	VerticalAirSD float64 // m/s, steady vertical air, one draw a flight; 0 means 0.2 m/s
	Rate          float64 // Hz of the path; 0 means that of the gyros, at most 50; more than 1000 is taken as that

	AirTold bool // the caller itself tells what was assumed of pressure and temperature: Run does not say it again
}

// Stretch is a part of the recording; Channel "" means every channel.
type Stretch struct {
	Channel    flightlog.Quantity
	Start, End float64 // s
}

const degree = math.Pi / 180

// What is believed before the first sample, standard deviations. Common practice for small loggers and calm
// days, no source.
const (
	defaultBoresight   = 0.2 * degree
	defaultVerticalAir = 0.2 // m/s
	loggedKelvin       = 1.5 // K, of a logged or noted air temperature: a sensor in a fuselage in the sun
	assumedKelvin      = 7.0 // K, of 15 °C where nobody noted anything

	priorTilt         = 5 * degree // about north and east at the start, before the first logged attitude is taken in
	priorHeading      = 15 * degree
	priorVelocity     = 5.0 // m/s, before the first satellite velocity is taken in
	priorHeight       = 0.5 // m, at the start
	priorWind         = 4.0 // m/s
	priorForceBias    = 0.08
	priorRateBias     = 0.5 * degree
	priorScale        = 0.04
	priorAttitudeBias = 0.4 * degree // roll and pitch of the logged attitude
	priorHeadingBias  = 3 * degree
	priorHeightBias   = 0.5 // m
	priorVaneBias     = 2 * degree
	priorUpwash       = 0.05
	usualUpwash       = 0.06 // a vane on a boom about a chord ahead of a wing turns that much more than the flow
)

// How fast what should stay the same wanders: variances per second. Common practice, no source; each is written as
// (change)²/(time over which it happens).
const (
	walkWind         = 0.2 * 0.2 / 60 // (m/s)²/s
	walkForceBias    = 0.005 * 0.005 / 60
	walkRateBias     = 0.01 * 0.01 * degree * degree / 60
	walkScale        = 0.001 * 0.001 / 60
	walkAttitudeBias = 0.05 * 0.05 * degree * degree / 60
	walkHeightBias   = 0.3 * 0.3 / 60 // m²/s: drift of a barometric sensor

	groundAir       = 20.0  // m above the ground up to which vertical air is not what it is higher up
	verticalAirTime = 300.0 // s over which steady vertical air is forgotten
)

// boresight and verticalAir fill in the defaults.
func (s Setup) boresight() float64   { return orDefault(s.BoresightSD, defaultBoresight) }
func (s Setup) verticalAir() float64 { return orDefault(s.VerticalAirSD, defaultVerticalAir) }

func orDefault(value, standard float64) float64 {
	if value > 0 {
		return value
	}
	return standard
}

// barredFor lists what must not be used of channels, in order of time and without overlaps, so that a pass over samples needs to look
// at one stretch only: of a log with a thousand spikes too.
func (s Setup) barredFor(qs []flightlog.Quantity) []Stretch {
	var all []Stretch
	for _, b := range s.Barred {
		if (b.Channel == "" || slices.Contains(qs, b.Channel)) && b.End >= b.Start {
			all = append(all, b)
		}
	}
	slices.SortFunc(all, func(a, b Stretch) int { return cmp.Compare(a.Start, b.Start) })
	var out []Stretch
	for _, b := range all {
		if n := len(out); n > 0 && b.Start <= out[n-1].End {
			out[n-1].End = max(out[n-1].End, b.End)
			continue
		}
		out = append(out, b)
	}
	return out
}
