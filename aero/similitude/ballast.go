package similitude

import (
	"fmt"
	"math"
)

// Body is a model on the scales: mass, CG and moments of inertia about that CG. Datum axes at model size: x aft, z up, m;
// the CG lies in the plane of symmetry.
type Body struct {
	Mass            float64 // kg
	CG              Place
	Ix, Iy, Iz, Ixz float64 // kg·m²; Ixz = ∫ x z dm, the same in datum and in body axes
}

// Bay is where ballast may sit, at model size in datum axes.
type Bay struct {
	Name     string
	From, To float64 // m aft of the model's datum; equal for a place, else a tray along which ballast may be spread
	Y        float64 // m from the plane of symmetry; when not 0 there is one on either side, and they are filled alike
	Z        float64 // m above the datum
	Most     float64 // kg that it holds, of both sides together
}

// Asked says which quantities beside mass and CG x have a target and were measured.
type Asked struct{ Z, Ix, Iy, Iz, Ixz bool }

// Costs says what a departure costs, so that one can be traded for another: the sum of the squares of cost times
// departure is made small. Only their proportions count.
//
// Mass and CG x come first: the others are looked at only among the ways that give these two exactly, or, where no way
// does, as nearly as can be without making the model heavier than its target. Their own costs count where one spoils the other, and when masses are rounded.
type Costs struct {
	MassPercent float64 // of one percent of the mass
	XMillimetre float64 // of one millimetre of CG along x: of the moment about the target CG, over the target mass
	ZMillimetre float64 // of one millimetre of CG height, taken likewise
	Inertia     float64 // of one percent of Ix, Iy or Iz
	Ixz         float64 // of one percent of Iz in Ixz
}

// DefaultCosts weighs departures by what they do to a quarter-scale model of some 350 mm chord. One percent of an inertia
// shifts a frequency by half a percent, and one millimetre of CG shifts the static margin by 0.3 % of the chord, that of
// a margin of 10 % by a thirtieth and the short period by over one percent. Height hardly shows. Common practice, no source.
func DefaultCosts() Costs {
	return Costs{MassPercent: 1, XMillimetre: 2.5, ZMillimetre: 0.25, Inertia: 1, Ixz: 0.5}
}

// Ballasting is the task: what to add to the model as weighed, in which bays, so that it imitates the target.
type Ballasting struct {
	Now, Target Body
	Asked       Asked
	Bays        []Bay
	Costs       Costs   // zero: DefaultCosts
	Step        float64 // kg, what a lump is rounded to; 0: ScaleStep of the model
}

// Lump is ballast in one place; of a bay with two sides both together.
type Lump struct {
	Bay     string  `json:"bay"`
	X       float64 `json:"x_m"`
	Y       float64 `json:"y_m"`
	Z       float64 `json:"z_m"`
	Mass    float64 `json:"mass_kg"`  // on all sides together, rounded
	Sides   int     `json:"sides"`    // 1, or 2 where half of it sits on either side
	Each    float64 `json:"each_kg"`  // Mass over Sides
	Unround float64 `json:"exact_kg"` // on all sides together, before rounding
}

// ScaleStep is what a kitchen scale weighs ballast to: 1 g for a model below one kilogram, else 5 g. Common practice, no source.
func ScaleStep(modelMass float64) float64 {
	if modelMass < 1 {
		return 0.001
	}
	return 0.005
}

// Check returns an error where the task makes no sense: a mass or a needed target that is not positive, a bay that holds
// nothing or lies nowhere.
func (b Ballasting) Check() error {
	if !positive(b.Now.Mass) || !positive(b.Target.Mass) {
		return fmt.Errorf("similitude: ballast needs the mass of the model (%g kg) and its target (%g kg)", b.Now.Mass, b.Target.Mass)
	}
	for _, i := range []struct {
		name  string
		asked bool
		value float64
	}{{"Ix", b.Asked.Ix, b.Target.Ix}, {"Iy", b.Asked.Iy, b.Target.Iy}, {"Iz", b.Asked.Iz || b.Asked.Ixz, b.Target.Iz}} {
		if i.asked && !positive(i.value) {
			return fmt.Errorf("similitude: the target %s of %g kg·m² is not positive", i.name, i.value)
		}
	}
	for _, x := range []float64{b.Now.CG.X, b.Now.CG.Z, b.Target.CG.X, b.Target.CG.Z, b.Now.Ix, b.Now.Iy, b.Now.Iz, b.Now.Ixz, b.Target.Ixz} {
		if !finite(x) {
			return fmt.Errorf("similitude: CG or inertia of the model or its target is not finite")
		}
	}
	for _, bay := range b.Bays {
		if !positive(bay.Most) || !finite(bay.From) || !finite(bay.To) || !finite(bay.Y) || !finite(bay.Z) || bay.To < bay.From {
			return fmt.Errorf("similitude: ballast bay %q needs a place, its end aft of its beginning, and a mass that it holds", bay.Name)
		}
	}
	return nil
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

func (b Ballasting) costs() Costs {
	if b.Costs == (Costs{}) {
		return DefaultCosts()
	}
	return b.Costs
}

func (b Ballasting) step() float64 {
	if b.Step > 0 {
		return b.Step
	}
	return ScaleStep(b.Now.Mass)
}
