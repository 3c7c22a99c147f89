package weighing

import "wingproof/aero"

// Figure is a reading with one standard deviation.
type Figure struct{ Value, SD float64 }

// Session is everything that was read at one weighing of one model.
type Session struct {
	Points    []Point
	Attitudes []Attitude
	Swings    []Swing
	Gravity   Figure // m/s², where the model swung
	Air       *Air   // nil: the air is not taken off
}

// Point is a place of the model that rests on a scale or hangs from a hook. Level and tilted attitudes share it with its error.
type Point struct {
	Name string
	X    Figure  // m aft of the datum
	Y, Z *Figure // m right and above; nil: not stated
}

// Attitude is the model at rest on scales, or hung from one hook.
type Attitude struct {
	Name     string
	Tilted   bool   // a tilted attitude gives the CG's height and says nothing of the mass
	Angle    Figure // nose up, rad
	Readings []Reading
}

// Reading is one support of an attitude. A tilted attitude with one reading is a hang: its loads are not looked at.
type Reading struct {
	Point string
	Loads []float64 // kg, what the scale showed, each time that the model was put on it
	SD    float64   // kg, of the scale: an error that repeating does not shrink
	Tare  Figure    // kg, of what stands on the scale beside the model
}

// Rig is how a swing is made.
type Rig int

// The two rigs: two equal vertical lines, the model turning about the vertical axis midway between them; or a horizontal axis above the
// model.
const (
	BifilarRig Rig = iota
	CompoundRig
)

// Axis is the axis that the model turns about, in its own axes.
type Axis int

// The axes of a swing. Inclined lies in the plane of symmetry; Swing.Angle says how.
const (
	Pitch Axis = iota
	Roll
	Yaw
	Inclined
)

// Swing is one rig with the timings that were made in it.
type Swing struct {
	Name  string
	Rig   Rig
	Axis  Axis
	Angle Figure // rad: an inclined axis takes its value as the model's attitude, nose up; the others only its SD

	Spacing, Length Figure // m, bifilar: distance between the lines, length of a line

	// Compound: the measured distance from the axis to the model's CG, or where the axis passes in the model; what is nil follows from
	// the CG, and a swing for which nothing is stated is left out.
	Pivot          *Figure // m
	PivotX, PivotZ *Figure // m from the datum

	Amplitude Figure // rad, half the swing from side to side
	Timings   []Timing
	TimingSD  float64 // s, of one timing
	Hanger    *Hanger // what swings with the model; nil: nothing
}

// Timing is one run of the watch over a number of whole periods, forth and back.
type Timing struct{ Periods, Seconds float64 }

// Hanger is a cradle that swings with the model, and the timings of its swing alone in the same rig.
type Hanger struct {
	Mass     Figure  // kg
	Depth    *Figure // m from the axis down to the hanger's own CG; compound only
	Timings  []Timing
	TimingSD float64 // s
}

// Air says which surfaces move air in a swing.
type Air struct {
	Airframe aero.Airframe // full-size m
	Ratio    float64       // model length over full-size length
	Density  float64       // kg/m³
}
