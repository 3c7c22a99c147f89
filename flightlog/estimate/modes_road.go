package estimate

import (
	"fmt"
	"math"
	"slices"

	"wingproof/aero/stability"
	"wingproof/flightlog/identify"
	"wingproof/flightlog/response"
	"wingproof/flightlog/source"
)

// Swing is a natural motion that the free response of one manoeuvre showed, with the model of that day.
type Swing struct {
	Flight   string
	Power    string
	Mode     response.Mode
	Aircraft ModeAircraft // Speed is taken from the mode where that has one
}

// modeRoad is a way from the frequency of a motion to the derivative that rules it.
type modeRoad struct {
	quantity string
	words    string // the motion
	name     string // of the road
	needed   []string
	sign     float64 // of the derivative in a stable aircraft
	guess    func(a ModeAircraft, frequency float64) float64
	read     func(in ModeInput, s modeState) (float64, bool)
	advice   string
}

func dutchRollRoad() modeRoad {
	return modeRoad{
		quantity: identify.DirectionalStiff, words: "Dutch roll", name: "Dutch roll in the free response", needed: neededAcross(), sign: 1,
		guess: func(a ModeAircraft, f float64) float64 {
			return f * f * a.Body.Iz / (a.pressureArea() * a.Reference.Span)
		},
		read: func(in ModeInput, s modeState) (float64, bool) {
			m, err := in.across(s)
			if err != nil || m.DutchRoll == nil {
				return 0, false
			}
			return m.DutchRoll.Frequency, true
		},
		advice: "fly rudder doublets in calm air and keep the hands off for 6 s",
	}
}

func shortPeriodRoad() modeRoad {
	return modeRoad{
		quantity: identify.PitchStiffness, words: "short period", name: "short period in the free response", needed: neededAlong(), sign: -1,
		guess: func(a ModeAircraft, f float64) float64 {
			return -f * f * a.Body.Iy / (a.pressureArea() * a.Reference.MeanChord)
		},
		read: func(in ModeInput, s modeState) (float64, bool) {
			m, err := in.along(s)
			return readSwingOf(m, err, func(m stability.Modes) *stability.Oscillation { return m.ShortPeriod })
		},
		advice: "it is mostly damped too heavily to be seen; rely on the doublets themselves",
	}
}

func readSwingOf(m stability.Modes, err error, pick func(stability.Modes) *stability.Oscillation) (float64, bool) {
	if err != nil {
		return 0, false
	}
	return readSwing(pick(m), false)
}

// pressureArea is ½ρV²S.
func (a ModeAircraft) pressureArea() float64 {
	return 0.5 * a.Density * a.Speed * a.Speed * a.Reference.Area
}

// DirectionalStiffnessFromDutchRoll is a road to Cn_β [1/rad], about the moment point of the input: the value with which the linear model has the
// Dutch-roll frequencies that free responses showed. Everything else that the frequency depends on is borrowed from the input, whose own
// Cn_β, if there is one, is not used; its Aircraft is replaced by that of each swing, its errors stay.
//
// Swings of one flight are averaged first, flights then as Derivatives does it; pooled is the scatter of that road alone, or nil. The errors of what was
// borrowed are in SDOwn, and their signs in Borrowed for Roads. Unlike derivatives from manoeuvres the frequency is the same whatever
// the rudder's servo does.
func DirectionalStiffnessFromDutchRoll(swings []Swing, in ModeInput, pooled *DerivativeScatter) Road {
	return dutchRollRoad().travel(swings, in, pooled)
}

// PitchStiffnessFromShortPeriod is the same road from the short period to Cm_α [1/rad]. The short period is mostly damped too heavily for it.
func PitchStiffnessFromShortPeriod(swings []Swing, in ModeInput, pooled *DerivativeScatter) Road {
	return shortPeriodRoad().travel(swings, in, pooled)
}

// solution is what one swing says.
type roadSolution struct {
	value, sd float64            // random error of the frequency alone
	borrowed  []float64          // change of the value by each derivative of the input
	common    map[string]float64 // by source
}

// travel takes every swing down the road and pools.
func (m modeRoad) travel(swings []Swing, in ModeInput, pooled *DerivativeScatter) Road {
	out := Road{Name: m.name, Borrowed: map[string]float64{}}
	out.Result = Result{Quantity: m.quantity, Unit: perRadian, Power: in.Power, Common: map[string]float64{}, Method: m.words + " frequency of free responses, other derivatives borrowed"}
	in = in.with(m.quantity)
	why := in.broken()
	if absent := in.missing(m.needed); why == "" && len(absent) > 0 {
		why = listed(absent) + " " + wasWere(len(absent)) + " not measured"
	}
	if why != "" {
		out.Result = undetermined(out.Result, fmt.Sprintf("no %s by way of the %s, because %s", spoken(m.quantity), m.words, why))
		return out
	}
	flights, warnings := m.solveAll(swings, in)
	out.Result.Warnings = warnings
	if len(flights) == 0 {
		out.Result = undetermined(out.Result, fmt.Sprintf("no free response shows the %s; %s", m.words, m.advice))
		return out
	}
	return m.pool(out, flights, in, pooled)
}

// with has the quantity that is asked for, once, without errors.
func (in ModeInput) with(quantity string) ModeInput {
	out := in
	out.Derivatives = slices.Clone(in.Derivatives)
	out.Covariance = in.covariance()
	for i, d := range out.Derivatives {
		if d.Quantity == quantity {
			out.Derivatives[i] = ModeDerivative{Quantity: quantity}
			out.Covariance = without(out.Covariance, i)
			return out
		}
	}
	out.Derivatives = append(out.Derivatives, ModeDerivative{Quantity: quantity})
	out.Covariance = append(widened(out.Covariance), make([]float64, len(out.Derivatives)))
	return out
}

// without clears a row and a column.
func without(m [][]float64, i int) [][]float64 {
	out := make([][]float64, len(m))
	for a, row := range m {
		out[a] = slices.Clone(row)
		out[a][i] = 0
		if a == i {
			clear(out[a])
		}
	}
	return out
}

// widened adds a zero to every row.
func widened(m [][]float64) [][]float64 {
	out := make([][]float64, len(m))
	for a, row := range m {
		out[a] = append(slices.Clone(row), 0)
	}
	return out
}

// linearSwing is one standard deviation of the frequency of a swing as flown, in a bank and a dive that change, over that of the linear model of level
// flight: rehearsed flights of four aircraft without any noise differ by −1.1 to +0.6 %.
const linearSwing = 0.007

// solve finds the derivative of one swing and what it depends on.
func (m modeRoad) solve(swing Swing, in ModeInput) (roadSolution, bool) {
	at := slices.IndexFunc(in.Derivatives, func(d ModeDerivative) bool { return d.Quantity == m.quantity })
	errors := in.Aircraft.Errors
	in.Aircraft = swing.Aircraft
	in.Aircraft.Errors = errors
	if swing.Mode.Airspeed > 0 {
		in.Aircraft.Speed = swing.Mode.Airspeed
	}
	if in.broken() != "" {
		return roadSolution{}, false
	}
	state := in.reported()
	x, ok := m.root(in, state, at, swing.Mode.Frequency)
	if !ok {
		return roadSolution{}, false
	}
	state.values[at] = x
	out := roadSolution{value: x, borrowed: make([]float64, len(in.Derivatives)), common: map[string]float64{}}
	rate, ok := m.difference(in, nudged(state, at, 0.02*x), nudged(state, at, -0.02*x))
	if !ok || rate == 0 {
		return roadSolution{}, false
	}
	rate /= 0.04 * x
	out.sd = math.Abs(swing.Mode.FrequencySD / rate)
	for j, d := range in.Derivatives {
		if j == at {
			continue
		}
		h := 0.25*in.sd(j) + 1e-4*math.Abs(d.Value) + 1e-9
		if by, ok := m.difference(in, nudged(state, j, h), nudged(state, j, -h)); ok {
			out.borrowed[j] = -by / (2 * h) / rate
		}
	}
	for _, name := range in.sources() {
		if by, ok := m.difference(in, in.withSource(state, name, 0.5), in.withSource(state, name, -0.5)); ok {
			out.common[name] = -by / rate
		}
	}
	out.common[source.LinearSwing] = linearSwing * swing.Mode.Frequency / rate
	return out, true
}

func nudged(s modeState, j int, by float64) modeState {
	out := modeState{values: slices.Clone(s.values), aircraft: s.aircraft}
	out.values[j] += by
	return out
}

func (m modeRoad) difference(in ModeInput, up, down modeState) (float64, bool) {
	high, ok := m.read(in, up)
	low, ok2 := m.read(in, down)
	return high - low, ok && ok2
}

// root brackets the derivative and halves the bracket. Below the bracket the motion is slower or does not swing.
func (m modeRoad) root(in ModeInput, state modeState, at int, frequency float64) (float64, bool) {
	guess := m.guess(in.Aircraft, frequency)
	fast := func(k float64) bool {
		state.values[at] = k * guess
		f, ok := m.read(in, state)
		return ok && f >= frequency
	}
	low, high := math.NaN(), math.NaN()
	for k := -2.0; k < 4; k += 0.25 { // coupling with other motions moves the derivative by a part of the guess
		if fast(k) {
			high = k
			break
		}
		low = k
	}
	if math.IsNaN(low) || math.IsNaN(high) {
		return 0, false
	}
	for range 60 {
		middle := (low + high) / 2
		if fast(middle) {
			high = middle
		} else {
			low = middle
		}
	}
	state.values[at] = high * guess
	f, ok := m.read(in, state)
	return high * guess, ok && math.Abs(f-frequency) < 1e-6*frequency
}
