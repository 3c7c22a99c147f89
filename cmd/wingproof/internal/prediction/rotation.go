package prediction

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
	"wingproof/aero/atmosphere"
	"wingproof/aero/lattice"
	"wingproof/cmd/wingproof/internal/program"
)

// Rotation is whether the elevator lifts the nose wheel on the take-off run, and from what speed on.
type Rotation struct {
	Loading  string  // the flying loading that needs the most speed
	Mass     float64 // kg
	CG       float64 // m aft of datum
	Elevator float64 // rad, its nose-up stop
	Moment   float64 // coefficient about the main wheels' contact, nose up positive, per dynamic pressure
	Speed    float64 // equivalent airspeed, m/s; +Inf when the elevator never does it
}

// TakeOff finds the speed from which full nose-up elevator lifts the nose wheel, level on the ground with its image in it.
//
// Moments are taken about the main wheels' contact: the air's on the whole aircraft, lift and induced forces included, against the
// weight ahead of the wheels. The propeller is left out (a pusher's thrust line above the wheels holds the nose down), and so are
// wheel drag, profile drag (it helps) and any stall of the foreplane: the figure is the least that is needed.
//
// What the program does not state comes back as words in missing.
func TakeOff(p *program.Program, airframe aero.Airframe, s Setup) (r Rotation, missing []string, err error) {
	all, lacks, err := TakeOffs(p, []aero.Airframe{airframe}, s)
	if err != nil {
		return r, nil, err
	}
	return all[0], lacks[0], nil
}

// TakeOffs is TakeOff for several airframes, solved together: what they share is worked out once, and each has the numbers that it
// has alone. An error of one of several is a lattice.AirframeError.
func TakeOffs(p *program.Program, airframes []aero.Airframe, s Setup) (out []Rotation, missing [][]string, err error) {
	out, missing = make([]Rotation, len(airframes)), make([][]string, len(airframes))
	stops := make([]float64, len(airframes))
	var able []aero.Airframe
	var index []int
	for i, a := range airframes {
		if stops[i], missing[i] = rotationNeeds(p, a, s.elevator()); len(missing[i]) == 0 {
			able, index = append(able, a), append(index, i)
		}
	}
	if len(able) == 0 {
		return out, missing, nil
	}
	s.Lattice.Ground = &lattice.Ground{Height: -p.Gear.GroundZ}
	s.Lattice.Sections, s.Lattice.OwnPanels = false, true
	solutions, err := lattice.SolveAll(able, s.Lattice)
	if err != nil {
		return nil, nil, blamed(err, index, len(airframes))
	}
	for k, i := range index {
		out[i] = rotation(p, solutions[k], s.elevator(), stops[i])
	}
	return out, missing, nil
}

// blamed names the airframe that failed by its place among all, of which index lists those that were solved.
func blamed(err error, index []int, all int) error {
	var one *lattice.AirframeError
	switch {
	case errors.As(err, &one) && one.Index < len(index):
		return &lattice.AirframeError{Index: index[one.Index], Err: one.Err}
	case len(index) == 1 && all > 1:
		return &lattice.AirframeError{Index: index[0], Err: err}
	}
	return err
}

// rotationNeeds is the nose-up stop of the elevator, or what keeps the take-off from being worked out.
func rotationNeeds(p *program.Program, airframe aero.Airframe, elevator string) (stop float64, missing []string) {
	stop, ok := noseUpStop(airframe, elevator)
	switch {
	case p.Gear == nil:
		missing = append(missing, "take-off rotation needs [gear] with nose_x, main_x, track and ground_z")
	case !ok:
		missing = append(missing, fmt.Sprintf("take-off rotation needs travel_deg on the hinge of control = %q", elevator))
	case p.FullSize.EmptyMass.Value <= 0 || len(FlyingLoadings(p)) == 0:
		missing = append(missing, "take-off rotation needs the empty weight and a loading that flies")
	case !(p.Gear.GroundZ < 0):
		missing = append(missing, "take-off rotation needs ground_z below the datum")
	}
	return stop, missing
}

// rotation is that of the loading that needs the most speed.
func rotation(p *program.Program, solution *lattice.Solution, elevator string, stop float64) Rotation {
	g := p.Gear
	c := solution.Coefficients(lattice.State{Controls: map[string]float64{elevator: stop}}, r3.Vec{X: g.MainX, Z: g.GroundZ})
	reference := solution.Reference()
	r := Rotation{Elevator: stop, Moment: c.Pitch}
	for _, l := range FlyingLoadings(p) {
		mass, x := LoadedCG(p.FullSize, l)
		speed := math.Inf(1)
		if needed := mass * atmosphere.Gravity * (g.MainX - x); c.Pitch > 0 {
			speed = math.Sqrt(2 * math.Max(needed, 0) / (atmosphere.SeaLevelDensity * reference.Area * reference.MeanChord * c.Pitch))
		}
		if r.Loading == "" || speed > r.Speed {
			r.Loading, r.Mass, r.CG, r.Speed = l.Name, mass, x, speed
		}
	}
	return r
}

// noseUpStop is the travel of the elevator that raises the nose: trailing edge down on a foreplane, up on a surface behind the CG.
func noseUpStop(airframe aero.Airframe, control string) (float64, bool) {
	for _, surface := range airframe.Surfaces {
		for _, h := range surface.Hinges {
			if h.Control != control || h.TravelMax <= h.TravelMin {
				continue
			}
			if surface.Role == aero.RoleForeplane {
				return h.TravelMax, true
			}
			return h.TravelMin, true
		}
	}
	return 0, false
}
