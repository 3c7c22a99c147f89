package decide

import (
	"fmt"
	"math"
	"sync"
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
// when it is first asked for, by whoever asks first.
type weights struct {
	streams  *streams
	n        int
	aircraft Aircraft

	mu        sync.Mutex
	empties   []empty
	byLoading map[string]loadedDraws
	inertias  [3][]float64
}

// loadedDraws are mass [kg], CG station and height [m] of the aircraft at a loading in every draw.
type loadedDraws struct{ mass, x, z []float64 }

func newWeights(s *streams, a Aircraft) *weights {
	return &weights{streams: s, n: s.n, aircraft: a, byLoading: map[string]loadedDraws{}}
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

// loaded is the aircraft at a loading in every draw.
func (w *weights) loaded(l Loading) loadedDraws {
	w.mu.Lock()
	defer w.mu.Unlock()
	draws, ok := w.byLoading[l.Name]
	if !ok {
		draws = loadedDraws{make([]float64, w.n), make([]float64, w.n), make([]float64, w.n)}
		for i, e := range w.empty() {
			at := loaded(e, l)
			draws.mass[i], draws.x[i], draws.z[i] = at.mass, at.x, at.z
		}
		w.byLoading[l.Name] = draws
	}
	return draws
}

// inertia is the inertia about roll, pitch and yaw axis in every draw, never below a tenth of what is stated; zero where none is.
func (w *weights) inertia() [3][]float64 {
	w.mu.Lock()
	defer w.mu.Unlock()
	for k, f := range []Figure{w.aircraft.Ix, w.aircraft.Iy, w.aircraft.Iz} {
		if w.inertias[k] != nil {
			continue
		}
		w.inertias[k] = make([]float64, w.n)
		if f.Value == 0 {
			continue
		}
		for i, z := range w.streams.normals("weight", "inertia", string(rune('x'+k))) {
			w.inertias[k][i] = math.Max(0.1*f.Value, f.Value+f.SD*z)
		}
	}
	return w.inertias
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
