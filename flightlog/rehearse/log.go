package rehearse

import (
	"math"

	"wingproof/flightlog"
)

// The columns of a Log after time, in order.
const (
	atRollRate = iota
	atPitchRate
	atYawRate
	atForward
	atRight
	atDown
	atRoll
	atPitch
	atHeading
	atAirspeed
	atPressure
	atTemperature
	atAltitude
	atGroundSpeed
	atTrack
	atClimb
	atElevator
	atAileron
	atRudderLeft
	atRudderRight
	atThrottle
	columns
)

// Quantities lists what the columns of a Log without vanes hold, in order. See Log.Quantities.
func Quantities() []flightlog.Quantity {
	return []flightlog.Quantity{
		flightlog.RollRate, flightlog.PitchRate, flightlog.YawRate,
		flightlog.ForwardAcceleration, flightlog.RightAcceleration, flightlog.DownAcceleration,
		flightlog.RollAngle, flightlog.PitchAngle, flightlog.Heading,
		flightlog.Airspeed, flightlog.StaticPressure, flightlog.AirTemperature, flightlog.Altitude,
		flightlog.GroundSpeed, flightlog.GroundTrack, flightlog.ClimbRate,
		flightlog.Elevator, flightlog.Aileron, flightlog.RudderLeft, flightlog.RudderRight, flightlog.Throttle,
	}
}

// Stretch is the time that one card took, with the turn onto its heading, and the part of it that matters.
//
// From and To are, for an input, its first movement and 3 s after its last; for a pull-up, the step of the elevator; for a
// deceleration, the closing of the throttle and the break; for other cards, the time from which the flight was steady for 2 s, and End. A card that never came to it
// has From = To = End.
type Stretch struct {
	Card       Card
	Start, End float64 // s
	From, To   float64 // s
}

// Log is what the recorder holds after a flight: SI and radians, NaN where a cell is blank.
type Log struct {
	Time      []float64   // s from the start of the recording
	Columns   [][]float64 // one slice for each of Log.Quantities, as long as Time
	Stretches []Stretch   // when each card was flown; the recorder does not know this, the pilot's notes do
	Truth     Truth       // what no instrument saw

	Sensors flightlog.Sensors // where the sensors sat
}

// Quantities lists what the columns hold, in order: those of the package function, and behind them the angles of
// vanes where they are fitted.
func (l Log) Quantities() []flightlog.Quantity {
	if len(l.Columns) > columns {
		return append(Quantities(), vaneQuantities()...)
	}
	return Quantities()
}

func newLog(rows int, vanes bool) *Log {
	l := &Log{Time: make([]float64, 0, rows), Columns: make([][]float64, columns)}
	if vanes {
		l.Columns = make([][]float64, columns+len(vaneQuantities()))
	}
	for i := range l.Columns {
		l.Columns[i] = make([]float64, 0, rows)
	}
	for _, slice := range l.Truth.slices() {
		*slice = make([]float64, 0, rows)
	}
	return l
}

func (l *Log) add(time float64, row *[columns]float64) {
	l.Time = append(l.Time, time)
	for i, v := range row {
		l.Columns[i] = append(l.Columns[i], v)
	}
}

// addVanes completes the row last added.
func (l *Log) addVanes(angles [2]float64) {
	for i, v := range angles {
		l.Columns[columns+i] = append(l.Columns[columns+i], v)
	}
}

// Recording turns the log into what a reader would have made of its file, blank cells left out, without
// the rounding of a text file.
func (l Log) Recording(source string) flightlog.Recording {
	r := flightlog.Recording{Source: source, Channels: make(map[flightlog.Quantity]flightlog.Channel, columns), Sensors: l.Sensors, Rows: len(l.Time)}
	for i, q := range l.Quantities() {
		var c flightlog.Channel
		for k, v := range l.Columns[i] {
			if !math.IsNaN(v) {
				c.Time, c.Value = append(c.Time, l.Time[k]), append(c.Value, v)
			}
		}
		r.Channels[q] = c
	}
	return r
}
