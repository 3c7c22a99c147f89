package decide

// Problem is everything that a verdict rests on.
type Problem struct {
	Seed         uint64
	LengthRatio  float64 // model over full size, for printing stations at both sizes; 0 when not known
	Draws        int     // joint draws per judgement; 0 means the default, 20,000
	Date         string
	Choices      []Choice
	Decisions    []Decision
	Predictions  []Prediction // one for each combination of levels
	Errors       []TheoryError
	Correlations []Correlation
	TrimSlopes   []TrimSlopes
	Direct       []Direct
	Aircraft     Aircraft
	Limits       []Limit
	Built        []Built
	Parts        []Part
	LeftOut      []LeftOut
	WingFirst    []WingFirst
	Motions      Motions // nil: no limit on a motion can be judged

	streams *streams  // shared by judgements of like problems, of their seed and number of draws; nil for one of its own
	spread  []float64 // scales of level errors that a forecast takes over from the board of now; nil finds them anew
	bar     int       // draws that a forecast with fewer draws pretends to, so that it asks for no more than the board does
	weights *weights  // shared by judgements of the same aircraft and streams; nil for those of its own
	ranged  [][]bool  // whether anybody reads the range of a limit, by configuration and requirement; nil: somebody reads each
}

// WingFirst is a stall of the model in which the wing let go before the foreplane. At full size the foreplane holds on
// longer still, so that such a flight fails the limit on stall order; none can pass it.
type WingFirst struct {
	Levels  map[string]string
	CG      float64 // m aft of datum
	Flights []string
}

// Motions computes the modes of motion of a configuration at full size from what is believed of its derivatives, by the
// name of their quantity. It knows nothing of errors: the judging asks it around the beliefs.
//
// It returns short-period damping and control anticipation, phugoid damping, frequency and damping of the Dutch roll, the
// time constant of the roll, and the rate at which the spiral grows [1/s, negative when it dies away], by quantity.
type Motions func(levels map[string]string, beliefs map[string]float64, in Flown) (map[string]float64, error)

// Flown is a loading in flight: kg, m aft of datum, kg·m².
type Flown struct{ Mass, CG, Ix, Iy, Iz float64 }

// Choice is one open question of the design and the sizes that are still discussed.
type Choice struct {
	Name     string
	Baseline string
	Levels   []string
}

// Decision is one row of the record of decisions, oldest first.
type Decision struct {
	Number int
	Event  string // settle, reopen, void, signoff
	Date   string
	Choice string // the choice; for a signoff the name signed off; for void the number of the row
	Level  string // of the choice; for a signoff the one part that it is for, with or without its side, empty: every part
	Who    string
	Why    string
}

// Prediction is what the lattice says of one configuration at model scale.
type Prediction struct {
	Levels  map[string]string
	Values  map[string]float64          // by quantity: neutral_point, elevator_trim_rate, directional_stiffness, lift_curve_slope, zero_lift_drag …
	Step    map[string]float64          // by quantity: computed step from model to full size, such as Reynolds number; none when absent
	Bending map[string][]BendingStation // by surface: full size, at limit load factor and gross mass, trimmed at its worst CG

	// Doubt is how far the computation itself may be off for this configuration, by quantity: one standard deviation in the
	// quantity's unit, on top of the stated model errors, such as that of section data. None when absent.
	Doubt map[string]float64

	// FullDoubt is the same of the step to full size: no flight of the model lessens it.
	FullDoubt map[string]float64

	NoseUpStop float64 // rad, travel of the elevator that raises the nose; 0 when not stated
}

// BendingStation is the bending moment at one station along a surface.
type BendingStation struct {
	Y      float64 // m from the plane of symmetry
	Moment float64 // N·m, tip up positive
}

// TheoryError is how wrong the lattice may be on one quantity, as standard deviations.
//
// truth(configuration) = prediction + Bias + Σ over choices Level[choice] + Interaction, each one draw of
// its own: Bias once for the aircraft, Level once a level, Interaction once a configuration. FullSize
// errors come on top on the way to full size, one draw each, common to all configurations.
type TheoryError struct {
	Quantity    string
	Relative    bool // the numbers are fractions of the predicted value; else they are in the quantity's unit
	Bias        float64
	Level       map[string]float64 // by choice
	Interaction float64
	FullSize    map[string]float64 // reynolds, power, shape
	Source      string
}

// Correlation of the errors of two quantities.
type Correlation struct {
	A, B string
	Rho  float64
}

// TrimSlopes is the flight evidence on neutral point and elevator trim rate of one configuration:
// true slopes obey slope_i = rate·(CG_i − x_NP).
//
// Covariance is that of the random part alone, Common holds the signed effect of each shared source.
// Degrees are the degrees of freedom behind Covariance: infinite when it was declared and not estimated,
// below one counts as one. Power other than idle loosens the slopes by the stated power error.
type TrimSlopes struct {
	Levels     map[string]string
	CG         []float64
	Slope      []float64
	Covariance [][]float64
	Common     map[string][]float64
	Degrees    float64
	Flights    []string
	Power      string
}

// Direct is flight evidence on one quantity of one configuration at model scale.
type Direct struct {
	Levels   map[string]string
	Quantity string
	Value    float64
	SDOwn    float64
	Common   map[string]float64
	Degrees  float64
	Flights  []string
	Power    string // idle, level or full; other than idle loosens the number by the stated power error
}

// LeftOut is a flight that is not used, and why.
type LeftOut struct {
	Flight string            `json:"flight"`
	Levels map[string]string `json:"levels"`
	Why    string            `json:"why"`
}

// Figure is a full-size number with one standard deviation and its standing.
type Figure struct {
	Value  float64
	SD     float64
	Status string // estimated or weighed
	Source string
}

// Aircraft is what weight and wheels need to be known.
type Aircraft struct {
	MeanChord            float64
	MeanChordLeadingEdge float64
	EmptyMass            Figure  // kg
	EmptyX               Figure  // m aft of datum
	EmptyZ               Figure  // m above datum
	Ix, Iy, Iz           Figure  // kg·m²; zero when not stated
	WingArea             float64 // m²; 0 when not known
	ApproachSpeed        float64 // m/s equivalent; 0 when not stated
	Loadings             []Loading
	Gear                 *Gear
}

// Loading is a named set of what is carried.
type Loading struct {
	Name  string
	Flies bool // false: a case on the ground only, such as nobody aboard
	Items []Item
}

// Item is one mass carried.
type Item struct {
	What string
	Mass float64
	X, Z float64
}

// Gear is where the wheels touch the ground.
type Gear struct {
	NoseX   float64 // m aft of datum
	MainX   float64 // m aft of datum
	Track   float64 // m between the main wheels
	GroundZ float64 // m above datum (negative)
}

// Limit is one requirement on every configuration.
type Limit struct {
	Name     string
	Quantity string
	AtLeast  *float64 // in the quantity's own unit
	AtMost   *float64
	Evidence string // flight or analysis
	Source   string
	Loadings []string // empty: every loading that the quantity applies to
}

// Built is a part that exists and must carry what the configuration asks of it.
type Built struct {
	Part      string
	Surface   string
	Allowable []BendingStation // N·m that the part carries at limit load, knock-down and basis applied
	SD        float64          // relative
}

// Part is one row of the shop's list.
type Part struct {
	Name           string
	Side           string
	Made           string // moulded, built, bought; empty is moulded
	Stage          string // drawn, plug, mould, laid_up, fitted; ready in place of the three between where it needs no mould
	BuiltTo        map[string]string
	HoursSpent     float64
	HoursLeft      float64
	ShapedBy       []string
	ShapedByStated bool
	MustPass       []string
	MustPassStated bool
	Responsible    string
	NeededBy       string
	Notes          string
}

// Words of the board.
const (
	Frozen  = "frozen"
	Pending = "pending"

	Start      = "start"
	CarryOn    = "carry on"
	Done       = "done"
	Wait       = "wait"
	StopAndAsk = "stop and ask"

	Out      = "out"
	Good     = "good"
	Unproven = "unproven"

	Open          = "open"
	Settled       = "settled"
	Elimination   = "decided by elimination"
	Contradiction = "no combination passes"
)
