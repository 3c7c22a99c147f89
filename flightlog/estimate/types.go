package estimate

// Point is a steady test point as the fits see it: SI and radians; CG in full-size metres aft of datum.
type Point struct {
	Flight     string
	CG         float64
	Alpha      float64
	AlphaSD    float64
	Lift       float64
	LiftSD     float64
	Elevator   float64
	ElevatorSD float64
	Drag       float64
	DragSD     float64
	HasDrag    bool
	Power      string // idle, level or full
	Reynolds   float64
	Airspeed   float64 // true, model, m/s; 0 when unknown: only the drag polar asks, for vertical air
}

// Systematics are standard deviations of errors that all points of a program share, so that more
// points do not shrink them.
type Systematics struct {
	AirspeedScale float64 // relative; CL and CD go with its square
	Mass          float64 // relative
	Density       float64 // relative, as it enters dynamic pressure; 0 where a pitot tube measures that directly
	TubeDensity   float64 // relative, where a pitot tube measures dynamic pressure: only the true airspeed of glides takes it
	CG            float64 // full-size m: offset of every CG of the program
	CGScale       float64 // relative: stretch of the distances between CGs
	Alpha         float64 // rad: mounting of the inertial unit
	Elevator      float64 // rad: zero of the elevator calibration
	ElevatorScale float64 // relative: gain of the elevator calibration
	AileronScale  float64 // relative: gain of the aileron calibration
	RudderScale   float64 // relative: gain of the rudder calibration
	GlideVertical float64 // m/s of steady vertical air, one draw a flight
}

// Result is one number with its doubts.
//
// Low and High bound 95 %; nil means unbounded or not determined. Common maps the name of a shared
// error source to its signed standard deviation: the change of the value when that source moves by one
// of its own standard deviations. SD² = SDOwn² + Σ Common².
type Result struct {
	Quantity string
	Unit     string
	CG       float64 // full-size m aft of datum; HasCG tells whether it means anything
	HasCG    bool
	Power    string
	Lift     float64 // lift coefficient in the middle of the data
	Reynolds float64
	State    string // determined, weak or not_determined
	Value    *float64
	SD       *float64
	SDOwn    *float64
	Common   map[string]float64
	Low      *float64
	High     *float64
	Set      string // interval, outside or all
	Method   string
	Flights  []string
	Points   int
	Degrees  float64 // degrees of freedom behind SDOwn
	Warnings []string
}

// TrimSlopes is what a neutral-point fit hands on for pooling with theory: dδe/dCL at two or more CGs
// [rad per unit CL], with the covariance of its random part and the signed effect of each shared source.
// True slopes obey slope_i = rate·(CG_i − x_NP), so nothing here is a ratio.
type TrimSlopes struct {
	CG         []float64 // full-size m aft of datum
	Slope      []float64
	Covariance [][]float64
	Common     map[string][]float64
	Degrees    float64
	Flights    []string
	Power      string
}
