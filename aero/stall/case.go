package stall

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// Part says what a strip counts as in the stall order.
type Part int

// The parts of an aircraft that the stall order tells apart.
const (
	Other     Part = iota // winglets, fins: held at their maximum like the rest, but no wing station
	Foreplane             // counts in the foreplane's total lift
	Wing                  // a wing station: wing and strake
)

// Strip is one chordwise strip of a lifting surface.
type Strip struct {
	Surface string
	Part    Part
	Along   float64 // 2y/b of the foreplane or of the whole wing: 0 at the plane of symmetry, 1 at the tip
	Area    float64 // m², projected on the plane of the wing: section lift times Area is lift over the dynamic pressure
	Arm     float64 // m ahead of the CG where the strip's lift acts; all zero: pitch is not asked for
}

// Case is one question: one aircraft, CG, way of moving the elevator, Reynolds number and surface state.
type Case struct {
	Name   string // for messages
	Strips []Strip

	// Attached returns the section lift of every strip with the flow attached everywhere, and MaxLift the most
	// that its section can carry (+Inf: never held). Both follow the elevator where that moves with alpha [rad], and must be
	// continuous in it. They must not change once returned.
	Attached, MaxLift func(alpha float64) []float64

	// Response is the change of section lift of strip i (row) per radian of turn of strip j (column): trailing
	// edge down, the rest of the aircraft unchanged. nil: sections do not feel one another, which is the plain
	// critical-section method.
	Response *mat.Dense

	AlphaMin, AlphaMax float64 // range searched, rad; attached flow at the lower end gives the fullest answer

	Step    float64 // of the search, rad; 0 means a quarter of a degree. What comes and goes within a step can be missed
	TipBand float64 // outermost share of the wing's span that WingInboard leaves out; 0 means 0.05

	// The foreplane's lift has stopped rising where it gains less over StopWindow [rad; 0 means one degree] than StopShare
	// [0 means 0.20] of what attached flow would gain. See the package comment for the reason of both.
	StopShare, StopWindow float64
}

const (
	defaultStep       = math.Pi / 720
	defaultStopShare  = 0.20
	defaultStopWindow = math.Pi / 180
	defaultTipBand    = 0.05
	leastStep         = 1e-4 // rad: the accuracy that the search promises
)

// checked returns the case with its defaults filled in, or every mistake in it.
func (c Case) checked() (Case, error) {
	if c.Step == 0 {
		c.Step = defaultStep
	}
	if c.StopShare == 0 {
		c.StopShare = defaultStopShare
	}
	if c.StopWindow == 0 {
		c.StopWindow = defaultStopWindow
	}
	if c.TipBand == 0 {
		c.TipBand = defaultTipBand
	}
	found := append(c.rangeMistakes(), c.stripMistakes()...)
	if c.Attached == nil || c.MaxLift == nil {
		found = append(found, errors.New("attached or maximum section lift is missing; give both functions"))
	}
	if c.Response != nil {
		found = append(found, responseMistakes(c.Response, len(c.Strips)))
	}
	if err := errors.Join(found...); err != nil {
		return c, fmt.Errorf("stall order %q: %w", c.Name, err)
	}
	return c, nil
}

func (c Case) rangeMistakes() []error {
	var found []error
	switch {
	case !(c.AlphaMin >= -math.Pi/2 && c.AlphaMax <= math.Pi/2 && c.AlphaMax-c.AlphaMin >= leastStep):
		found = append(found, fmt.Errorf("angles of attack from %g to %g rad cannot be searched; give radians, the lower one first, within ±π/2",
			c.AlphaMin, c.AlphaMax))
	case !(c.Step >= leastStep):
		found = append(found, fmt.Errorf("a step of %g rad is finer than the search; give %g rad or more", c.Step, leastStep))
	}
	if !(c.StopShare > 0 && c.StopShare < 1) {
		found = append(found, fmt.Errorf("lift cannot stop at %g of its attached slope; give a share between 0 and 1", c.StopShare))
	}
	if !(c.StopWindow >= leastStep && c.StopWindow < math.Pi) {
		found = append(found, fmt.Errorf("a stop window of %g rad shows no slope; give %g rad or more", c.StopWindow, leastStep))
	}
	if !(c.TipBand > 0 && c.TipBand < 1) {
		found = append(found, fmt.Errorf("a tip band of %g is no share of the span; give one between 0 and 1", c.TipBand))
	}
	return found
}

func (c Case) stripMistakes() []error {
	var found []error
	var foreplane, wing bool
	for i, s := range c.Strips {
		foreplane, wing = foreplane || s.Part == Foreplane, wing || s.Part == Wing
		switch {
		case s.Part != Other && s.Part != Foreplane && s.Part != Wing:
			found = append(found, fmt.Errorf("strip %d of surface %q is part %d; give Foreplane, Wing or Other", i, s.Surface, s.Part))
		case !(s.Area >= 0) || math.IsInf(s.Area, 0) || s.Area == 0 && s.Part != Other:
			found = append(found, fmt.Errorf("strip %d of surface %q has an area of %g m²; give a positive one", i, s.Surface, s.Area))
		case !(s.Along >= -0.01 && s.Along <= 1.01):
			found = append(found, fmt.Errorf("strip %d of surface %q lies at %g of the span; give 0 (root) to 1 (tip)", i, s.Surface, s.Along))
		case math.IsNaN(s.Arm) || math.IsInf(s.Arm, 0):
			found = append(found, fmt.Errorf("strip %d of surface %q has an arm of %g m; give metres ahead of the CG", i, s.Surface, s.Arm))
		}
	}
	if !foreplane || !wing {
		found = append(found, errors.New("the order takes two: mark at least one strip Foreplane and one Wing"))
	}
	return found
}
