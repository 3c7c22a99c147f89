package quality

import (
	"bytes"
	"math"
	"math/rand/v2"

	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
	"wingproof/flightlog/statistic"
)

// injection spoils a clean log in one way, and tells what has to be found.
type injection struct {
	kind  string
	whole bool                      // the fault lasts the whole log, so that it has to be found at all
	shows func(l rehearse.Log) bool // whether this flight can show it at all; nil is always
	spoil func(l rehearse.Log, clean *flightlog.Recording, rng *rand.Rand) (*flightlog.Recording, rehearse.Fault, error)
}

// ofLibrary takes a kind from the library of faults.
func ofLibrary(kind rehearse.FaultKind) injection {
	return injection{kind: string(kind), whole: kind == rehearse.WrongSign || kind == rehearse.WrongUnit,
		spoil: func(l rehearse.Log, _ *flightlog.Recording, rng *rand.Rand) (*flightlog.Recording, rehearse.Fault, error) {
			l, f, err := rehearse.Spoil(l, kind, rng)
			return ofLog(l), f, err
		}}
}

// ofClock writes a log with a clock that errs to a file and reads it.
func ofClock(kind rehearse.FaultKind) injection {
	return injection{kind: string(kind), spoil: func(l rehearse.Log, _ *flightlog.Recording, rng *rand.Rand) (*flightlog.Recording, rehearse.Fault, error) {
		l, f, err := rehearse.Spoil(l, kind, rng)
		if err != nil {
			return nil, f, err
		}
		rec, err := throughFile(l)
		return rec, f, err
	}}
}

func throughFile(l rehearse.Log) (*flightlog.Recording, error) {
	var file bytes.Buffer
	if err := l.WriteCSV(&file, rehearse.Dialect{}); err != nil {
		return nil, err
	}
	m, err := l.Map(rehearse.Dialect{}, "box")
	if err != nil {
		return nil, err
	}
	return flightlog.Read(&file, "rehearsed.csv", m)
}

// throughout changes channels over the whole log: each value becomes factor·value + offset.
func throughout(kind string, factor, offset float64, qs ...flightlog.Quantity) injection {
	return injection{kind: kind, whole: true, spoil: func(_ rehearse.Log, clean *flightlog.Recording, _ *rand.Rand) (*flightlog.Recording, rehearse.Fault, error) {
		rec := without(clean)
		for _, q := range qs {
			c := rec.Channels[q]
			changed := make([]float64, len(c.Value))
			for i, v := range c.Value {
				changed[i] = factor*v + offset
			}
			rec.Channels[q] = flightlog.Channel{Time: c.Time, Value: changed}
		}
		return rec, rehearse.Fault{Channel: qs[0], Channels: qs}, nil
	}}
}

// mapped exchanges two columns.
func mapped(kind string, a, b flightlog.Quantity) injection {
	return injection{kind: kind, whole: true, spoil: func(_ rehearse.Log, clean *flightlog.Recording, _ *rand.Rand) (*flightlog.Recording, rehearse.Fault, error) {
		rec := without(clean)
		rec.Channels[a], rec.Channels[b] = rec.Channels[b], rec.Channels[a]
		return rec, rehearse.Fault{Channel: a, Channels: []flightlog.Quantity{a, b}}, nil
	}}
}

// where keeps an injection to flights that can show it.
func (in injection) where(shows func(rehearse.Log) bool) injection {
	in.shows = shows
	return in
}

// usesRudder: the rudder does more than tremble.
func usesRudder(l rehearse.Log) bool {
	for i, q := range rehearse.Quantities() {
		if q == flightlog.RudderLeft {
			return statistic.Quantile(statistic.Magnitudes(l.Columns[i]), 0.98) > 3*degree
		}
	}
	return false
}

// windy: there is a metre a second of wind or more, without which airspeed and ground speed are the same.
func windy(l rehearse.Log) bool {
	return math.Hypot(l.Truth.SteadyNorth[0], l.Truth.SteadyEast[0]) >= 1
}

func injections() []injection {
	var out []injection
	for _, kind := range rehearse.FaultKinds() {
		if kind == rehearse.StalledClock || kind == rehearse.BackwardTime {
			out = append(out, ofClock(kind))
		} else {
			out = append(out, ofLibrary(kind))
		}
	}
	const deg = 180 / math.Pi
	return append(out,
		throughout("sign: heading", -1, 2*math.Pi, flightlog.Heading),
		throughout("sign: track", -1, 2*math.Pi, flightlog.GroundTrack),
		throughout("sign: altitude", -1, 0, flightlog.Altitude),
		throughout("sign: elevator", -1, 0, flightlog.Elevator),
		throughout("sign: aileron", -1, 0, flightlog.Aileron),
		throughout("sign: rudders", -1, 0, flightlog.RudderLeft, flightlog.RudderRight).where(usesRudder),
		throughout("sign: right force", -1, 0, flightlog.RightAcceleration),
		throughout("sign: alpha vane", -1, 0, flightlog.AngleOfAttack),
		throughout("sign: beta vane", -1, 0, flightlog.Sideslip),
		throughout("throttle upside down", -1, 1, flightlog.Throttle),
		throughout("degrees: elevator", deg, 0, flightlog.Elevator),
		throughout("degrees: aileron", deg, 0, flightlog.Aileron),
		throughout("degrees: roll", deg, 0, flightlog.RollAngle),
		throughout("degrees: pitch", deg, 0, flightlog.PitchAngle),
		throughout("degrees: heading", deg, 0, flightlog.Heading),
		throughout("degrees: track", deg, 0, flightlog.GroundTrack),
		throughout("degrees: alpha vane", deg, 0, flightlog.AngleOfAttack),
		throughout("degrees: beta vane", deg, 0, flightlog.Sideslip),
		throughout("radians: elevator", 1/deg, 0, flightlog.Elevator),
		throughout("radians: aileron", 1/deg, 0, flightlog.Aileron),
		throughout("radians: roll", 1/deg, 0, flightlog.RollAngle),
		throughout("radians: pitch", 1/deg, 0, flightlog.PitchAngle),
		throughout("radians: heading", 1/deg, 0, flightlog.Heading),
		throughout("radians: track", 1/deg, 0, flightlog.GroundTrack),
		throughout("ft/min as m/s: climb", 60/0.3048, 0, flightlog.ClimbRate),
		throughout("ft/s as m/s: climb", 1/0.3048, 0, flightlog.ClimbRate),
		throughout("mph as kt: airspeed", 1.15078, 0, flightlog.Airspeed),
		throughout("airspeed 20 % high", 1.2, 0, flightlog.Airspeed),
		throughout("airspeed 20 % low", 0.8, 0, flightlog.Airspeed),
		throughout("°C as °F", 5.0/9, 273.15-(273.15+32)*5/9, flightlog.AirTemperature),
		throughout("°F as °C", 9.0/5, 273.15+32-273.15*9/5, flightlog.AirTemperature),
		mapped("exchanged: speeds", flightlog.Airspeed, flightlog.GroundSpeed).where(windy),
		mapped("exchanged: forward, right", flightlog.ForwardAcceleration, flightlog.RightAcceleration),
		mapped("exchanged: roll, yaw rate", flightlog.RollRate, flightlog.YawRate),
		mapped("exchanged: pitch, yaw rate", flightlog.PitchRate, flightlog.YawRate),
	)
}
