package program

import (
	"wingproof/aero"
	"wingproof/flightlog"
)

// Figure is a number with one standard deviation and where it comes from.
type Figure struct {
	Value  float64
	SD     float64
	Status string // estimated or weighed
	Source string
}

// Program is a program folder as read.
type Program struct {
	Dir          string
	Name         string
	CautionsRead string
	Seed         uint64
	DateOrder    string // year_first, day_first, month_first
	Model        Model
	FullSize     FullSize
	Gear         *Gear
	Aerofoils    []AerofoilData // in the order of the file
	Surfaces     []aero.Surface // baseline, in the order of the file
	Masses       []SurfaceMass  // of the surfaces that state theirs, in the order of the file
	HingeErrors  []HingeError   // of the hinges that state theirs, in the order of the file
	Fuselage     []FuselageStation
	Declared     DeclaredReference
	Choices      []Choice
	Loadings     []Loading
	Limits       []Limit
	Built        []Built
	TheoryErrors []TheoryError // overrides of the defaults, in the order of the file
	Servos       []Servo       // of the model that a bench test found, in the order of the file
	Loggers      []flightlog.Map
	Flights      []Flight
	Weighings    []Weighing
	Marks        []Mark
	Cards        []Card // what is planned to be flown, in the order of the table
	Parts        []Part
	Decisions    []Decision // by their numbers
	Sheets       []Sheet    // issued to the wall, by their numbers
	Missing      []string   // tables and logs that are not there, and what wants them
	Warnings     []string
	Alarms       []string // a broken chain of decisions or sheets, with both rows
	Inputs       []string // every file that the folder was read from or points to, logs too; relative, slashes, sorted

	Held []string // tables that still are place holders of a new folder, in words; see PlaceHolders
}

// Model is the flying model.
type Model struct {
	LengthRatio  float64 // model over full size
	TestAltitude float64 // geopotential metres of the field, for sheets
	Errors       InstrumentErrors
	Bays         []Bay // where ballast may sit, in the order of the file
}

// Bay is a place of the model that takes ballast. It stays at model size, in datum axes from the model's datum.
type Bay struct {
	Name     string
	From, To float64 // m aft; equal where x is one place
	Y        float64 // m from the plane of symmetry; when not 0 there is one on either side
	Z        float64 // m up
	Most     float64 // kg that it takes, of both sides together
}

// InstrumentErrors are standard deviations of what every flight of the program shares.
type InstrumentErrors struct {
	AirspeedScale float64 // relative
	Density       float64 // relative
	Alpha         float64 // rad, mounting of the inertial unit
	Elevator      float64 // rad, zero of the elevator calibration
	ElevatorScale float64 // relative
	AileronScale  float64 // relative
	RudderScale   float64 // relative
	VerticalAir   float64 // m/s, one draw a flight
}

// FullSize is the aircraft that is being built.
type FullSize struct {
	Mass            Figure // gross, kg
	EmptyMass       Figure // kg
	EmptyX          Figure // m aft of datum
	EmptyZ          Figure // m above datum
	Ix, Iy, Iz      Figure // kg·m²; zero value when not stated
	Ixz             Figure // kg·m², of either sign
	CruiseSpeed     float64
	CruiseAltitude  float64
	LimitLoadFactor float64
	ApproachSpeed   float64 // m/s equivalent; 0 when not stated

	// What only the load envelope needs; 0 is not stated. The speeds are equivalent airspeeds, as load
	// requirements state them; CruiseSpeed is a true airspeed.
	NegativeLimitLoadFactor float64 // below 0 when stated
	ManoeuvreSpeed          float64 // m/s
	DiveSpeed               float64 // m/s, not below the cruise
	GustCruise              float64 // m/s, speed of the vertical gust at the cruise speed
	GustDive                float64 // m/s, the same at the dive speed
}

// Gear is where the wheels touch the ground, full-size metres.
type Gear struct{ NoseX, MainX, Track, GroundZ float64 }

// DeclaredReference holds reference quantities that the user states; zero means not stated. They replace
// the computed ones and are cross-checked against them.
type DeclaredReference struct {
	Area, Span, MeanChord, MeanChordLeadingEdge float64
}

// Choice is an open question of the design.
type Choice struct {
	Name     string
	Baseline string
	Levels   []Level
}

// Level is one size or shape of a choice: edits on the baseline geometry.
type Level struct {
	Name  string
	Edits []Edit
}

// Edit changes one surface. Nil fields leave it alone.
type Edit struct {
	Surface    string
	Stations   []aero.Station // from a file of its own
	Height     *float64       // m, vertical extent of a winglet or fin
	Span       *float64       // m, tip to tip of a mirrored surface
	ChordScale *float64       // factor on all chords, about the quarter chord
	Cant       *float64       // rad from vertical, tip outboard positive
	Toe        *float64       // rad, leading edge inboard positive
	Incidence  *float64       // rad, leading edge up positive
	MoveX      *float64       // m aft
	MoveZ      *float64       // m up
}

// Loading is a named set of what is carried.
type Loading struct {
	Name  string
	Flies bool
	Items []Item
}

// Item is one mass carried, full-size position.
//
// A tank in the wing states between which distances from the plane of symmetry it lies, on both sides:
// then Y is 0, and Mass is that of both sides together.
type Item struct {
	What             string
	Mass             float64
	X, Y, Z          float64
	SpanFrom, SpanTo float64 // m from the plane of symmetry; both 0 when not stated
}

// Limit is one requirement.
type Limit struct {
	Name     string
	Quantity string
	AtLeast  *float64 // percent quantities in percent, angles in rad, others as they are
	AtMost   *float64
	Evidence string
	Source   string
	Loadings []string
}

// Built is what an existing part can carry.
type Built struct {
	Part      string
	Surface   string    // the lifting surface that it lies in
	Y         []float64 // m from the plane of symmetry, rising
	Allowable []float64 // N·m as in the file
	Basis     string    // limit or ultimate
	KnockDown float64   // factor on the allowable, 1 when not stated
	SD        float64   // relative
}

// TheoryError overrides the default model error of one quantity. Numbers are fractions of the predicted
// value, or of the mean aerodynamic chord for neutral_point.
type TheoryError struct {
	Quantity    string
	Bias        float64
	Level       map[string]float64
	Interaction float64
	FullSize    map[string]float64 // reynolds, power, shape
	Source      string
}

// Flight is one row of flights.csv.
type Flight struct {
	Name        string
	Date        string // ISO
	Log         string // path relative to the folder, slashes
	Logger      string
	Levels      map[string]string
	Weighing    string  // row of weighings.csv, or empty
	Mass        float64 // model kg
	MassSD      float64
	CG          float64 // full-size m aft of datum
	CGSD        float64 // full-size m
	Pressure    float64 // Pa, 0 not stated
	Temperature float64 // K, 0 not stated
	Use         bool
	WhyNot      string
	Notes       string
	Row         int // of the table, for messages
}

// Weighing is one row of weighings.csv: the model on the scales.
type Weighing struct {
	Name       string
	Date       string
	Mass       float64 // kg
	MassSD     float64
	CGX        float64 // full-size m aft of datum
	CGXSD      float64
	CGZ        float64
	CGZSD      float64
	CGZKnown   bool    // cg_z was written
	Ix, Iy, Iz float64 // model kg·m², 0 not measured
	IxSD       float64 // kg·m²; of a measured one never 0
	IySD, IzSD float64
	Ixz        float64
	IxzSD      float64 // 0 not stated
}

// Mark is a hand mark that overrides the search for steady stretches.
type Mark struct {
	Flight     string
	Start, End float64
	Manoeuvre  string
}

// Part is one row of parts.csv.
type Part struct {
	Name           string
	Side           string
	Made           string // moulded, built, bought; empty is moulded
	Stage          string
	BuiltTo        map[string]string
	HoursSpent     float64
	HoursLeft      float64
	ShapedBy       []string // empty with ShapedByStated: the word none
	ShapedByStated bool
	MustPass       []string
	MustPassStated bool
	Responsible    string
	NeededBy       string
	Notes          string
}

// Decision is one row of decisions.csv.
type Decision struct {
	Number         int
	Event          string // settle, reopen, void, signoff
	Date           string // ISO
	Choice         string // the choice; for a signoff the name signed off; for void the number of the row
	Level          string // of the choice; for a signoff the one part that it is for, empty: every part that waits for it
	Who            string
	Why            string
	InputsSHA256   string
	PreviousSHA256 string
}
