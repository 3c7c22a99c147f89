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

// Quantities lists what the columns of a Log hold, in order.
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

// Stretch is the time that one card took, with the turn onto its heading.
type Stretch struct {
	Card       Card
	Start, End float64 // s
}

// Log is what the recorder holds after a flight: SI and radians, NaN where a cell is blank.
type Log struct {
	Time      []float64   // s from the start of the recording
	Columns   [][]float64 // one slice for each of Quantities, as long as Time
	Stretches []Stretch   // when each card was flown; the recorder does not know this, the pilot's notes do
	Truth     Truth       // what no instrument saw
}

// Truth is the motion as it really was at each row of a Log, at the CG: SI, radians, each as long as Time.
type Truth struct {
	Alpha, Beta                   []float64
	Airspeed                      []float64 // true, m/s
	Roll, Pitch, Heading          []float64
	WindNorth, WindEast, WindDown []float64 // velocity of the air over the earth where the model is, gusts included, m/s
	SteadyNorth, SteadyEast       []float64 // the same without gusts
	Height                        []float64 // m above the field
	Elevator, Aileron, Rudder     []float64 // surface angles that acted, rad
}

func newLog(rows int) *Log {
	l := &Log{Time: make([]float64, 0, rows), Columns: make([][]float64, columns)}
	for i := range l.Columns {
		l.Columns[i] = make([]float64, 0, rows)
	}
	return l
}

func (l *Log) add(time float64, row *[columns]float64) {
	l.Time = append(l.Time, time)
	for i, v := range row {
		l.Columns[i] = append(l.Columns[i], v)
	}
}

// Recording turns the log into what a reader would have made of its file, blank cells left out, without
// the rounding of a text file.
func (l Log) Recording(source string) flightlog.Recording {
	r := flightlog.Recording{Source: source, Channels: make(map[flightlog.Quantity]flightlog.Channel, columns), Rows: len(l.Time)}
	for i, q := range Quantities() {
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
