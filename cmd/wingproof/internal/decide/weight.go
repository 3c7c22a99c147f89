package decide

import (
	"fmt"
	"math"
)

// empty is one state of the empty aircraft: mass [kg], CG station x and height z [m].
type empty struct{ mass, x, z float64 }

// loaded returns mass and CG of the empty aircraft with what a loading carries.
func loaded(e empty, l Loading) empty {
	sum := empty{mass: e.mass, x: e.mass * e.x, z: e.mass * e.z}
	for _, item := range l.Items {
		sum.mass += item.Mass
		sum.x += item.Mass * item.X
		sum.z += item.Mass * item.Z
	}
	return empty{mass: sum.mass, x: sum.x / sum.mass, z: sum.z / sum.mass}
}

// nominal is the empty aircraft as stated.
func (a Aircraft) nominal() empty {
	return empty{mass: a.EmptyMass.Value, x: a.EmptyX.Value, z: a.EmptyZ.Value}
}

// weights are the full-size figures in every draw, once for all configurations and limits. What weighs on them is drawn
// when it is first asked for.
type weights struct {
	streams   *streams
	n         int
	aircraft  Aircraft
	empties   []empty
	byLoading map[string][]empty
	inertias  [][3]float64
}

func newWeights(s *streams, a Aircraft) *weights {
	return &weights{streams: s, n: s.n, aircraft: a, byLoading: map[string][]empty{}}
}

// empty draws mass and CG of the empty aircraft. A mass far below the stated one is held at a tenth of it.
func (w *weights) empty() []empty {
	if w.empties != nil {
		return w.empties
	}
	a := w.aircraft
	mass := w.streams.normals("weight", "empty mass")
	x := w.streams.normals("weight", "empty CG station")
	z := w.streams.normals("weight", "empty CG height")
	w.empties = make([]empty, w.n)
	for i := range w.empties {
		w.empties[i] = empty{
			mass: math.Max(0.1*a.EmptyMass.Value, a.EmptyMass.Value+a.EmptyMass.SD*mass[i]),
			x:    a.EmptyX.Value + a.EmptyX.SD*x[i],
			z:    a.EmptyZ.Value + a.EmptyZ.SD*z[i],
		}
	}
	return w.empties
}

// prepare draws all that the requirements weigh, so that goroutines only read afterwards.
func (w *weights) prepare(requirements []requirement) {
	for _, r := range requirements {
		for _, l := range r.loadings {
			w.loaded(l)
			w.inertia(0)
		}
	}
}

// loaded is the aircraft at a loading in every draw.
func (w *weights) loaded(l Loading) []empty {
	if w.byLoading[l.Name] == nil {
		draws := make([]empty, w.n)
		for i, e := range w.empty() {
			draws[i] = loaded(e, l)
		}
		w.byLoading[l.Name] = draws
	}
	return w.byLoading[l.Name]
}

// inertia is the inertia about roll, pitch and yaw axis in one draw, never below a tenth of what is stated; zero where none is.
func (w *weights) inertia(i int) [3]float64 {
	if w.inertias == nil {
		w.inertias = make([][3]float64, w.n)
		for k, f := range []Figure{w.aircraft.Ix, w.aircraft.Iy, w.aircraft.Iz} {
			if f.Value == 0 {
				continue
			}
			z := w.streams.normals("weight", "inertia", string(rune('x'+k)))
			for j := range w.inertias {
				w.inertias[j][k] = math.Max(0.1*f.Value, f.Value+f.SD*z[j])
			}
		}
	}
	return w.inertias[i]
}

// checkWeights refuses weights that no CG follows from.
func checkWeights(a Aircraft) error {
	if !(a.EmptyMass.Value > 0) {
		return fmt.Errorf("empty mass is %g kg; state the full-size empty mass and its centre of gravity", a.EmptyMass.Value)
	}
	for _, figure := range []Figure{a.EmptyMass, a.EmptyX, a.EmptyZ, a.Ix, a.Iy, a.Iz} {
		if !(figure.SD >= 0) || notFinite(figure.SD) || notFinite(figure.Value) {
			return fmt.Errorf("empty weight, centre of gravity or inertia: %g with standard deviation %g; write numbers, the deviation zero or more", figure.Value, figure.SD)
		}
	}
	for _, l := range a.Loadings {
		for _, item := range l.Items {
			if !(item.Mass >= 0) || notFinite(item.Mass) {
				return fmt.Errorf("loading %q: %s weighs %g kg; write zero or more", l.Name, item.What, item.Mass)
			}
			if notFinite(item.X) || notFinite(item.Z) {
				return fmt.Errorf("loading %q: %s sits at x %g m, z %g m; write numbers", l.Name, item.What, item.X, item.Z)
			}
		}
	}
	return nil
}
