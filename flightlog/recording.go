package flightlog

import "wingproof/flightlog/unit"

// Quantity is what a logger channel measures.
type Quantity string

// The quantities that a logger map may name.
const (
	RollRate            Quantity = "roll_rate"            // p, right wing down positive
	PitchRate           Quantity = "pitch_rate"           // q, nose up positive
	YawRate             Quantity = "yaw_rate"             // r, nose right positive
	ForwardAcceleration Quantity = "forward_acceleration" // specific force along X; about g·sin θ at rest
	RightAcceleration   Quantity = "right_acceleration"   // specific force along Y
	DownAcceleration    Quantity = "down_acceleration"    // specific force along Z; −9.8 m/s² at rest, level
	RollAngle           Quantity = "roll_angle"
	PitchAngle          Quantity = "pitch_angle"
	Heading             Quantity = "heading"  // true, clockwise from north
	Airspeed            Quantity = "airspeed" // calibrated
	StaticPressure      Quantity = "static_pressure"
	AirTemperature      Quantity = "air_temperature"
	Altitude            Quantity = "altitude" // pressure altitude above the field, up positive
	GroundSpeed         Quantity = "ground_speed"
	GroundTrack         Quantity = "ground_track" // true, clockwise from north
	ClimbRate           Quantity = "climb_rate"   // up positive, from satellite navigation or barometer
	Elevator            Quantity = "elevator"     // trailing edge down positive
	Aileron             Quantity = "aileron"      // (left − right)/2, positive rolls right
	RudderLeft          Quantity = "rudder_left"  // trailing edge left positive
	RudderRight         Quantity = "rudder_right"
	Throttle            Quantity = "throttle" // 0 idle to 1 full
	AngleOfAttack       Quantity = "angle_of_attack"
	Sideslip            Quantity = "sideslip"
)

// Dimension tells what kind of unit the quantity takes.
func (q Quantity) Dimension() unit.Dimension {
	switch q {
	case RollRate, PitchRate, YawRate:
		return unit.AngularRate
	case ForwardAcceleration, RightAcceleration, DownAcceleration:
		return unit.Acceleration
	case RollAngle, PitchAngle, Heading, GroundTrack, Elevator, Aileron, RudderLeft, RudderRight, AngleOfAttack, Sideslip:
		return unit.Angle
	case Airspeed, GroundSpeed, ClimbRate:
		return unit.Speed
	case StaticPressure:
		return unit.Pressure
	case AirTemperature:
		return unit.Temperature
	case Altitude:
		return unit.Length
	case Throttle:
		return unit.Share
	}
	return ""
}

// Quantities lists every quantity in the order in which messages name them.
func Quantities() []Quantity {
	return []Quantity{RollRate, PitchRate, YawRate, ForwardAcceleration, RightAcceleration, DownAcceleration,
		RollAngle, PitchAngle, Heading, Airspeed, StaticPressure, AirTemperature, Altitude, GroundSpeed,
		GroundTrack, ClimbRate, Elevator, Aileron, RudderLeft, RudderRight, Throttle, AngleOfAttack, Sideslip}
}

// Channel is one quantity on its own time base. Time and Value share one length; Time rises strictly.
//
// Channels of one recording that have samples in the same rows share one Time, so do not write to it: give a channel
// whose times change a slice of its own.
type Channel struct {
	Time  []float64 // s from the start of the recording
	Value []float64 // SI, radians
}

// Recording is one flight as the logger wrote it.
type Recording struct {
	Source   string // file name, for messages
	Channels map[Quantity]Channel
	Sensors  Sensors              // where the sensors sat, as the map says
	Delays   map[Quantity]float64 // s, taken off the times of channels, as the map says; nil when it names none
	Rows     int
	Findings []Finding
}

// Severity of a finding.
type Severity string

// A note tells, a loss leaves something out, a refusal leaves the whole recording out.
const (
	Note    Severity = "note"
	Loss    Severity = "loss"
	Refusal Severity = "refusal"
)

// Openings and phrases of findings by which commands tell kinds of findings apart; they stand here so that whoever words a finding anew
// sees that somebody reads it.
const (
	CutLine       = "the last line has no end"
	UntilPutRight = "until it is put right" // of a channel that is wrong over the whole log: the map is at fault, not the flight
	StatedWeight  = "weighing"              // of a weight that does not fit what was stated
	NoneKept      = "none of "              // of the calm stretches could be kept
	NothingSteady = "no steady stretch "
)

// Finding is something that the reader or the reduction saw in a recording, with what follows from it. Start and End
// are on the time of the channel, its delay taken off, or on that of the log where no channel is named.
type Finding struct {
	Severity    Severity `json:"severity"`
	Channel     Quantity `json:"channel,omitempty"`
	Start       float64  `json:"start_s"`
	End         float64  `json:"end_s"`
	What        string   `json:"what"`
	Consequence string   `json:"consequence"`
	Line        int      `json:"line,omitempty"` // line of the file, when there is one
}

// Map tells how the columns of one kind of logger are read. The heads are the user's own.
type Map struct {
	Name    string
	Time    TimeColumn
	Columns []Column
	Sensors Sensors
}

// Place is a point of the model, in metres of model size from the model's datum: x aft, y right, z up.
type Place struct{ X, Y, Z float64 }

// Sensors tells where the sensors of a logger sit; nil is not stated.
type Sensors struct {
	Inertial *Place // accelerometers and gyros
	Tube     *Place // the airspeed tube
	Vanes    *Place
	Antenna  *Place // of satellite navigation
}

// TimeColumn names the column that holds time and its unit; Unit "iso" reads ISO 8601 instants.
type TimeColumn struct {
	Column string
	Unit   string // s, ms, us or iso
}

// Column maps one head to a quantity: si = Sign·(Scale·(unit to SI of the cell) + Offset), or, where
// Calibration has points, the cell goes through that table (cell value ► value in Unit) first.
//
// A sensor that filters, or sends its samples over a slow line, writes them late: satellite navigation by 0.1 to 0.3 s
// (common practice, no source). Delay moves the channel back to when the model did what it shows; the other channels, and
// the zero of time, stay.
type Column struct {
	Column      string
	Is          Quantity
	Unit        string
	Sign        float64      // +1 or −1
	Scale       float64      // 1 unless the user says otherwise
	Offset      float64      // in SI, added after scaling
	Calibration [][2]float64 // cell ► value in Unit, rising in the first; nil when the cell holds the value itself
	Delay       float64      // s: how much later than its instant a sample is written; Read takes it off the channel's time
}

// delays lists the delays that Read takes off the times of channels; nil when there are none.
func (m Map) delays() map[Quantity]float64 {
	var out map[Quantity]float64
	for _, c := range m.Columns {
		if c.Delay == 0 {
			continue
		}
		if out == nil {
			out = map[Quantity]float64{}
		}
		out[c.Is] = c.Delay
	}
	return out
}
