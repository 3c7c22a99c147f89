package response

// Kind names a natural motion.
type Kind string

// The natural motions.
const (
	DutchRoll   Kind = "dutch_roll"
	ShortPeriod Kind = "short_period"
	Phugoid     Kind = "phugoid"
	Roll        Kind = "roll"
)

// Signal is one measured history, without blanks.
type Signal struct {
	Name   string // as a crew would call it: yaw rate
	Values []float64
}

// Control is the history of one control, as logged.
type Control struct {
	Name   string // as a crew would call it: rudder
	Values []float64
}

// Stretch is what was recorded from the moment at which the controls came to rest, on a uniform grid. See HandsOff.
type Stretch struct {
	Step     float64   // s between samples
	Signals  []Signal  // all as long as each other; frequency and damping come from the first
	Controls []Control // those that excite the motion, for the check that they were held; may be empty
	Airspeed []float64 // true, m/s, or nil
}

// Mode is one natural motion as one stretch shows it.
type Mode struct {
	Kind        Kind
	Frequency   float64 // undamped, rad/s
	FrequencySD float64
	Damping     float64 // ratio, positive when the motion dies out
	DampingSD   float64
	Correlation float64   // of the errors of frequency and damping
	Airspeed    float64   // true, m/s, mean as the frequency sees it; 0 when not given
	Cycles      float64   // for which the motion stood above noise and gusts
	Seconds     float64   // that were fitted
	Gusts       float64   // sd of the motion that gusts keep up, over the amplitude at the start
	Amplitudes  []float64 // of each signal at the start of the stretch
	Determined  bool
	Why         string // when it is not determined: what was missing and what to fly
}

// Decay is one motion that dies out without swinging, as one input shows it.
type Decay struct {
	Kind       Kind
	Root       float64 // 1/s; negative dies out
	RootSD     float64
	LagEffect  float64 // change of Root per second by which the surface is in truth later than was taken
	Airspeed   float64 // true, m/s, mean; 0 when not given
	Seconds    float64
	Determined bool
	Why        string
}
