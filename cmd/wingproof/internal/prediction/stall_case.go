package prediction

import (
	"wingproof/aero"
	"wingproof/aero/atmosphere"
	"wingproof/aero/stall"
	"wingproof/cmd/wingproof/internal/evidence"
)

// Quantities of the stall, both in rad and positive on the good side.
const (
	// StallOrderMargin is the angle of attack at which the first wing station reaches its maximum lift, less that at which the
	// foreplane's total lift stops rising.
	StallOrderMargin = "stall_order_margin"
	// StallTrimMargin is the angle of attack at which the first wing station reaches its maximum lift, less that to which a slow pull on
	// the elevator as far as its stop brings the aircraft.
	StallTrimMargin = "stall_trim_margin"
)

// Sources of the error of both margins, one for the data of each surface.
const (
	SourceForeplaneMaximum = "section_maximum_foreplane"
	SourceWingMaximum      = "section_maximum_wing"
)

// sectionMaximumError is the relative standard deviation of a section's maximum lift: another tunnel, another finish, the
// sweep rule. Common practice, no source.
const sectionMaximumError = 0.05

// Surfaces says which surfaces a stall case takes as contaminated.
type Surfaces string

// The surface states that are judged. Dirt on the foreplane alone lets it go early, which flatters the margin and costs
// lift and elevator power; dirt everywhere is rain or insects, and counts for a limit like clean surfaces.
const (
	AllClean              Surfaces = "clean"
	ForeplaneContaminated Surfaces = "foreplane contaminated"
	AllContaminated       Surfaces = "all contaminated"
)

// Handling says how the elevator is held in a stall case, and at which end of the CG range.
//
// In trim, the elevator stands where the aircraft is balanced just when the foreplane's lift stops rising, sections that have let
// go included, and is held there; where its travel does not reach so far, at its stop. (An elevator that went on moving with the angle of attack
// would raise the foreplane's maximum as it goes, and hide that the foreplane has let go.)
type Handling string

// The ways into a stall that are judged. In trim at the aft CG the foreplane carries least, so that it lets go latest.
const (
	AftStop        Handling = "aft CG, elevator at its nose-up stop"
	AftTrimmed     Handling = "aft CG, in trim"
	ForwardTrimmed Handling = "forward CG, in trim"
)

// StallCase is the stall order of one airframe for one size, way into the stall and surface state. Angles are radians.
type StallCase struct {
	Name     string // such as "full size, aft CG, in trim, clean"
	Size     string // evidence.ModelScale or evidence.FullSize
	Handling Handling
	Surfaces Surfaces
	Loading  string
	Mass     float64 // of this size, kg
	CG       float64 // full-size m aft of datum
	Air      atmosphere.State

	Order     stall.Order
	Deviation float64            // standard deviation of the margin by the section data, rad; NaN when it is not known
	Common    map[string]float64 // what it is made of, signed, by source
	Stations  []float64          // m from the plane of symmetry, full size, of Order.Sections.Strips
	Reference aero.Reference

	Elevator          float64 // as held
	AtStop            bool    // the elevator stands at its nose-up stop
	Lift              float64 // lift coefficient where the foreplane's lift stops rising, sections held at their maximum
	Speed             float64 // m/s true at that lift coefficient in steady flight, of this size
	ForeplaneReynolds float64 // of the foreplane's longest chord at that speed
	WingReynolds      float64 // of the wing's mean aerodynamic chord at that speed
	Trim              StallTrim
	Greatest          GreatestLift // in trim with clean surfaces; unknown in other cases

	Verdict string
	Notes   []string
}

// StallTrim is how far steady flight can go with the elevator as it is held in the case.
type StallTrim struct {
	Attached stall.Bracket // angle of attack in trim with the flow attached everywhere
	Held     stall.Bracket // the same with sections that have let go: beyond it nothing holds the nose up
	Left     stall.Bracket // the first wing station's angle less Held

	Deviation float64            // standard deviation of Left by the section data, rad; NaN when it is not known
	Common    map[string]float64 // what it is made of, signed, by source
}

// CanPass tells whether the case may show that a limit on the margin is kept. A model's foreplane lets go early at its small
// Reynolds number, so that its cases may break the limit and never keep it; a foreplane that is dirty alone says nothing for it.
func (c StallCase) CanPass() bool {
	return c.Size == evidence.FullSize && c.Surfaces != ForeplaneContaminated
}

// GoverningStall is the case with the least margin among those that can pass; false when none has a margin or a bound from above.
func GoverningStall(cases []StallCase) (StallCase, bool) {
	return least(cases, func(c StallCase) stall.Bracket { return c.Order.Margin })
}

// GoverningStallTrim is the case in which the elevator at its stop leaves least to the wing's maximum, among those that can pass.
func GoverningStallTrim(cases []StallCase) (StallCase, bool) {
	var atStop []StallCase
	for _, c := range cases {
		if c.AtStop {
			atStop = append(atStop, c)
		}
	}
	return least(atStop, func(c StallCase) stall.Bracket { return c.Trim.Left })
}

func least(cases []StallCase, of func(StallCase) stall.Bracket) (best StallCase, found bool) {
	for _, c := range cases {
		high, ok := of(c).AtMost()
		if !c.CanPass() || !ok {
			continue
		}
		if low, _ := of(best).AtMost(); !found || high < low {
			best, found = c, true
		}
	}
	return best, found
}
