package prediction

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
	"wingproof/aero/aerofoil"
	"wingproof/aero/lattice"
	"wingproof/aero/stall"
)

// steepest is the sweep of the quarter-chord line, rad, beyond which a strip has no section maximum: the flow off a leading edge
// swept so far rolls up and lifts on. Common practice, no source.
const steepest = 40 * deg

// prepare takes what all cases share and tells whether there is enough to judge any.
func (w *stallWork) prepare() bool {
	if !slices.ContainsFunc(w.analysis.Airframe.Surfaces, func(s aero.Surface) bool { return s.Role == aero.RoleForeplane }) {
		w.miss("no lifting surface has role = \"foreplane\": there is no stall order to find")
		return false
	}
	if _, aft, _ := loadedExtremes(w.program, w.setup.CG.X); !(aft.mass > 0) {
		w.miss("the gross mass is not stated: without full_size.mass_kg there is no stalling speed and no Reynolds number")
		return false
	}
	w.takeElevator()
	w.layout = layoutOf(w.analysis, w.analysis.Solution.Strips(lattice.State{}), w.setup.elevator())
	w.form = newSectionForm(w.analysis.Solution, w.setup.elevator())
	return w.judged(aerofoil.Clean)
}

// miss keeps a sentence, once.
func (w *stallWork) miss(what string) {
	if what != "" && !slices.Contains(w.missing, what) {
		w.missing = append(w.missing, what)
	}
}

// takeElevator finds the travel that every stretch of the elevator allows, and the end of it that raises the nose.
func (w *stallWork) takeElevator() {
	name := w.setup.elevator()
	low, high, found := math.Inf(-1), math.Inf(1), false
	for _, s := range w.analysis.Airframe.Surfaces {
		for _, h := range s.Hinges {
			if h.Control == name {
				low, high, found = math.Max(low, h.TravelMin), math.Min(high, h.TravelMax), true
			}
		}
	}
	if !found {
		w.miss(fmt.Sprintf("no surface has a hinge with control = %q: the stall order is that of the aircraft as drawn, and nothing is trimmed", name))
		return
	}
	w.moves, w.travel, w.stop = true, [2]float64{low, high}, high
	point := r3.Vec{X: w.setup.CG.X, Z: w.setup.CG.Z}
	if w.analysis.Solution.Derivatives(lattice.State{Alpha: stallWake}, point).ByControl[name].Pitch < 0 {
		w.stop = low
	}
}

// judged tells whether the polars suffice for foreplane and wing in a state, and says what lacks.
func (w *stallWork) judged(state string) bool {
	l := w.layout
	var foreplane, wing bool // something lacks on the foreplane; some wing station is known
	for i, s := range l.strips {
		what := w.sections.missing(l.at[i], state)
		switch {
		case what == "":
			wing = wing || s.Part == stall.Wing && math.Abs(l.sweep[i]) <= steepest
		case s.Part == stall.Foreplane:
			foreplane = true
			w.miss(fmt.Sprintf("%s, so that the stall order %s is not judged; it lies in surface %q", what, inState(state), s.Surface))
		case s.Part == stall.Wing:
			w.miss(fmt.Sprintf("%s: stations of surface %q that use it are left out %s, and the wing may let go earlier than said", what, s.Surface, inState(state)))
		case !l.others[i]:
			w.miss(fmt.Sprintf("%s: surface %q is taken as never letting go %s", what, s.Surface, inState(state)))
		}
	}
	if !foreplane && !wing {
		w.miss("no wing station has a section maximum " + inState(state) + ", so that the stall order is not judged")
	}
	return !foreplane && wing
}

func inState(state string) string {
	if state == aerofoil.Contaminated {
		return "contaminated"
	}
	return "clean"
}

// maximum is the largest lift coefficient of one strip, on the chord along the stream; infinite where it is not known.
func (w *stallWork) maximum(l layout, i int, state string, reynolds, deflection float64) (most float64, inside bool, err error) {
	if l.others[i] || math.Abs(l.sweep[i]) > steepest || w.sections.missing(l.at[i], state) != "" {
		return math.Inf(1), true, nil
	}
	if !l.elevator[i] {
		deflection = 0
	}
	most, inside, err = w.sections.maxLift(l.at[i], reynolds, deflection, state)
	cos := math.Cos(l.sweep[i])
	return most * cos * cos, inside, err
}

// maxima gives the largest section lift of every strip at every angle of a path; neither list of rows may be changed.
func (w *stallWork) maxima(l layout, p path, deflection float64, q question) (rows [][]float64, outside [][]bool, err error) {
	area := w.analysis.Solution.Reference().Area
	speed := math.NaN()
	for k := range p.alpha {
		before := speed
		if speed = q.size.speed(p.lift[k], q.mass(), area); speed == before { // hardly any lift: as at the angle before
			rows, outside = append(rows, rows[k-1]), append(outside, outside[k-1])
			continue
		}
		row, out := make([]float64, len(l.strips)), make([]bool, len(l.strips))
		for i, s := range l.strips {
			most, inside, err := w.maximum(l, i, stateOf(q.surfaces, s.Part), q.size.reynolds(speed, l.chord[i]), deflection)
			if err != nil {
				return nil, nil, fmt.Errorf("surface %q: %w", s.Surface, err)
			}
			row[i], out[i] = most*q.shift.of(s.Part), !inside
		}
		rows, outside = append(rows, row), append(outside, out)
	}
	return rows, outside, nil
}
