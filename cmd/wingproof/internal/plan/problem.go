package plan

// Problem is everything that a plan rests on.
type Problem struct {
	Program          string
	LengthRatio      float64 // model over full size
	Area, Span       float64 // reference, full size, m² and m
	Chord            float64 // mean aerodynamic chord, full size, m
	ChordLeadingEdge float64 // x of its leading edge, m aft of datum
	Configurations   []Configuration
	Range            *Range    // of the loadings that fly; nil when none is known
	CGs              []float64 // asked for, full-size m aft of datum; nil for three of the range
	Weighings        []Weighing
	Mass             Mass // of the model in place of the weighings; 0 takes the weighings
	Airspeed         Airspeed
	Heights          Heights
	NeverExceed      float64  // calibrated m/s; 0 when nobody has said
	DesignDive       float64  // calibrated m/s of the model: full size's dive speed carried to it, which bounds the default of NeverExceed; 0 when not known
	ElevatorTravel   *Travel  // nil when not stated
	Flights          int      // at most so many sheets
	Names            []string // of the flights to come, as many as Flights
	Assumptions      []string // that were made on the way here, in the shop's words
}

// Range is the CG range of the loadings that fly, full-size m aft of datum.
type Range struct{ Forward, Aft float64 }

// Mass is the mass of the model, kg, and where it comes from.
type Mass struct {
	Value, SD float64
	Source    string
}

// Weighing is the model as it stood on the scales.
type Weighing struct {
	Name     string
	Mass, SD float64 // kg
	CG       float64 // full-size m aft of datum
}

// Airspeed is what the crew's display makes of a calibrated airspeed.
type Airspeed struct {
	Logger string
	Scale  float64 // shown over calibrated, less 1; 0 when not known
	Known  bool
}

// Heights above the ground, m.
type Heights struct{ Entry, Lowest float64 }

// Travel is the elevator's, rad, trailing edge down positive.
type Travel struct{ Least, Most float64 }

// Configuration is one combination of levels and what is believed of it at model scale.
type Configuration struct {
	Name           string
	Levels         map[string]string
	NeutralPoint   float64 // full-size m aft of datum
	NeutralPointSD float64
	Source         string    // of the neutral point, in words
	Flights        []string  // of this configuration that stand behind it
	Agree          bool      // those flights agree with theory within its stated errors
	Flown          []float64 // CGs that this configuration has been flown at
	MaxLift        []Lift    // by CG, forward first; one is held at every CG
	SpanEfficiency float64   // of the lattice; 0 when not known
	Stalls         []Stall
}

// Lift is the model's maximum lift coefficient in trim at one CG, with one standard deviation and its source in words.
type Lift struct {
	CG        float64 // full-size m aft of datum
	Value, SD float64
	Source    string
}

// Stall is the predicted order at one CG, model, clean surfaces: positive margins mean that the foreplane lets go first.
type Stall struct {
	CG         float64 // full-size m aft of datum
	Margin, SD float64 // rad
	Words      string
}

// Proven tells whether the nearer aft limit holds: two flights of the configuration or more, which agree.
func (c Configuration) Proven() bool { return len(c.Flights) >= 2 && c.Agree }
