package stall

// Order is the answer to one Case. Angles are radians.
type Order struct {
	Name      string
	Foreplane Bracket // α at which the foreplane's total lift stops rising
	Wing      Bracket // α at which the first wing station reaches its maximum lift
	Margin    Bracket // Wing − Foreplane; positive: the foreplane goes first

	FirstForeplane Station // the first foreplane strip to reach its maximum, before the total stops rising
	FirstWing      Station // the first wing strip to reach its maximum, at the α of Wing
	WingInboard    Bracket // Wing without the outer TipBand of the span: never less than Wing; beyond the range when no strip is left

	// Stops is Foreplane for other shares than Case.StopShare: how much the answer depends on what counts
	// as having stopped.
	Stops []Stop

	Pitch    *Pitch   // nil when no strip has an arm
	Surfaces []string // names in the order of the strips
	Curve    []Point  // by rising α
	Sections Sections // all strips at the α of Wing, or at the end of the range nearest to it
	Notes    []string // doubts in words
}

// Station is the strip that was first to reach its maximum.
type Station struct {
	Strip   int // index in Case.Strips; −1 when none reached it
	Surface string
	Along   float64 // 2y/b, as in Strip
	Alpha   Bracket
}

// Stop is the α at which the foreplane's total lift stops rising when a given share counts as stopped.
type Stop struct {
	Share float64
	Alpha Bracket
}

// Point is the state at one angle of attack. Lifts are over the dynamic pressure, m².
type Point struct {
	Alpha                           float64
	ForeplaneLift, WingLift         float64
	Lift                            float64 // foreplane, wing and others
	ForeplaneAttached, WingAttached float64 // with the flow attached everywhere
	ForeplaneRise                   float64 // gain of ForeplaneLift over the stop window, over that of ForeplaneAttached
	LetGo                           []int   // strips held at their maximum, by surface as in Order.Surfaces
	PitchChange                     float64 // what letting go has added to the nose-up moment about the CG, m³; 0 without arms
}

// Sections is a picture of all strips at one angle of attack.
type Sections struct {
	Alpha  float64
	Strips []SectionState // as in Case.Strips
}

// SectionState is one strip of Sections.
type SectionState struct {
	Strip
	Attached float64 // section lift with the flow attached everywhere
	Lift     float64 // section lift with no section beyond its maximum
	MaxLift  float64 // +Inf: never held
	Turn     float64 // that holds the strip, rad, ≤ 0
	LetGo    bool
}

// Pitch tells what letting go does to the pitching moment about the CG, compared with attached flow at the same α and elevator.
//
// The rates compared are those at which sections that let go add to the nose-up moment as α rises, against
// the attached foreplane's; less than a tenth of that counts as nothing.
type Pitch struct {
	NoseDrop Bracket // the first α from which letting go pulls the nose down
	PitchUp  Bracket // the first α from which letting go pushes the nose up: a danger
}
