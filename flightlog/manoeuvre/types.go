package manoeuvre

import "wingproof/flightlog"

// Kind is what a stretch of a flight was, in the words of a test sheet.
type Kind string

// The kinds that Find tells apart.
const (
	Level        Kind = "level"        // power on, height and speed steady, wings level
	Climb        Kind = "climb"        // power on, path upwards, speed steady
	Glide        Kind = "glide"        // throttle closed, speed steady
	Turn         Kind = "turn"         // steady bank at nearly constant height, less than once round
	Circle       Kind = "circle"       // steady bank and speed once round or more, as for a wind estimate
	Deceleration Kind = "deceleration" // slowing towards the stall, then the recovery
	Doublet      Kind = "doublet"      // a step each way on one control, then hands off
	Multistep    Kind = "multistep"    // three alternating steps or more on one control, then hands off
	PullUp       Kind = "pull_up"      // one elevator step out of level flight, held at a load factor above one
	Sideslip     Kind = "sideslip"     // rudder and bank held, heading nearly constant
)

// Kinds lists every kind in the order in which tables name them.
func Kinds() []Kind {
	return []Kind{Level, Climb, Glide, Turn, Circle, Deceleration, Doublet, Multistep, PullUp, Sideslip}
}

// Manoeuvre is one stretch of a recording that Find recognised. SI and radians; a value that a kind does not have, or that
// the channels do not give, is zero.
type Manoeuvre struct {
	Kind    Kind               `json:"kind"`
	Control flightlog.Quantity `json:"control,omitempty"` // doublet, multistep, pull-up, sideslip; both rudders go by the name of the left one where it was recorded
	Start   float64            `json:"start_s"`           // of the essential part: the steady stretch, or the first step of an input
	End     float64            `json:"end_s"`             // of the essential part: an input ends with its free response, a deceleration at the lowest speed or the break

	Airspeed float64 `json:"airspeed_m_s"` // mean, calibrated
	Bank     float64 `json:"bank_rad"`     // mean, right wing down positive
	Turned   float64 `json:"turned_rad"`   // change of heading over the stretch, to the right positive, more than once round counted on

	Size       float64   `json:"size_rad,omitempty"`       // mean amplitude of the steps with the sign of the first; rudder held in a sideslip; the step of a pull-up
	Amplitudes []float64 `json:"amplitudes_rad,omitempty"` // of each step off the trimmed value, with sign
	Widths     []float64 `json:"widths_s,omitempty"`       // of each step between half amplitudes
	HandsOff   float64   `json:"hands_off_s,omitempty"`    // free response behind an input, until the next one

	Load float64 `json:"load_factor,omitempty"` // pull-up: over the second half of the held step

	Slowing float64 `json:"slowing_m_s2,omitempty"`        // deceleration: mean loss of airspeed
	Lowest  float64 `json:"lowest_airspeed_m_s,omitempty"` // deceleration: the lowest calibrated airspeed
	Break   float64 `json:"break_s,omitempty"`             // deceleration: when the nose fell off; zero when no break shows

	Detail string `json:"detail"` // one plain phrase
}
