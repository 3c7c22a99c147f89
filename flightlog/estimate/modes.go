package estimate

import (
	"fmt"
	"math"
	"strings"

	"wingproof/aero/stability"
	"wingproof/flightlog/identify"
)

// modeQuantity reads one number off the modes. ok is false when the motion does not show itself, such as an
// overdamped short period.
type modeQuantity struct {
	name, unit string
	words      string // the motion, as a crew would call it
	read       func(m *stability.Modes) (value float64, ok bool)
}

func longitudinalQuantities() []modeQuantity {
	swing := func(pick func(m *stability.Modes) *stability.Oscillation, damping bool) func(m *stability.Modes) (float64, bool) {
		return func(m *stability.Modes) (float64, bool) { return readSwing(pick(m), damping) }
	}
	short := func(m *stability.Modes) *stability.Oscillation { return m.ShortPeriod }
	long := func(m *stability.Modes) *stability.Oscillation { return m.Phugoid }
	return []modeQuantity{
		{ShortPeriodFrequency, "rad/s", "short period", swing(short, false)},
		{ShortPeriodDamping, "1", "short period", swing(short, true)},
		{PhugoidFrequency, "rad/s", "phugoid", swing(long, false)},
		{PhugoidDamping, "1", "phugoid", swing(long, true)},
	}
}

func lateralQuantities() []modeQuantity {
	return []modeQuantity{
		{DutchRollFrequency, "rad/s", "Dutch roll", func(m *stability.Modes) (float64, bool) { return readSwing(m.DutchRoll, false) }},
		{DutchRollDamping, "1", "Dutch roll", func(m *stability.Modes) (float64, bool) { return readSwing(m.DutchRoll, true) }},
		{RollTimeConstant, "s", "roll", func(m *stability.Modes) (float64, bool) {
			if m.Roll == nil || m.Roll.Root >= 0 {
				return 0, false
			}
			return m.Roll.TimeConstant(), true
		}},
		{SpiralRoot, "1/s", "spiral", func(m *stability.Modes) (float64, bool) {
			if m.Spiral == nil {
				return 0, false
			}
			return m.Spiral.Root, true
		}},
	}
}

func readSwing(o *stability.Oscillation, damping bool) (float64, bool) {
	switch {
	case o == nil:
		return 0, false
	case damping:
		return o.Damping, true
	}
	return o.Frequency, true
}

// Modes gives frequency and damping of short period, phugoid and Dutch roll, the time constant of the roll, and root and time to double of the
// spiral, each with its interval, for the aircraft of the input.
//
// Errors are carried over along straight lines: random ones through the covariance of the derivatives, each shared source by moving
// at once all that it touches. Draws from the same errors check that; where the intervals differ, or where a motion changes
// its character in some draws, the draws give the interval and the words.
func Modes(in ModeInput) []Result {
	if why := in.broken(); why != "" {
		return in.refuseAll(why)
	}
	out := in.half(longitudinalQuantities(), neededAlong(), helpfulAlong(), in.along)
	across := in.half(lateralQuantities(), neededAcross(), helpfulAcross(), in.across)
	out = append(out, across...)
	return append(out, timeToDouble(across[len(across)-1]))
}

// NominalModes are the motions of the values as they stand, without errors, with all roots; halves whose derivatives are missing stay empty.
func NominalModes(in ModeInput) (stability.Modes, error) {
	if why := in.broken(); why != "" {
		return stability.Modes{}, fmt.Errorf("modes: %s", why)
	}
	var m stability.Modes
	if len(in.missing(neededAlong())) == 0 {
		along, err := in.along(in.reported())
		if err != nil {
			return m, err
		}
		m = along
	}
	if len(in.missing(neededAcross())) == 0 {
		across, err := in.across(in.reported())
		if err != nil {
			return m, err
		}
		m.DutchRoll, m.Roll, m.Spiral, m.LateralRoots = across.DutchRoll, across.Roll, across.Spiral, across.LateralRoots
		m.Notes = append(m.Notes, across.Notes...)
	}
	return m, nil
}

// half works out the quantities of one half of the motion.
func (in ModeInput) half(quantities []modeQuantity, needed, helpful []string, find func(modeState) (stability.Modes, error)) []Result {
	var out []Result
	absent := in.missing(needed)
	for _, q := range quantities {
		if len(absent) > 0 {
			out = append(out, undetermined(in.label(q), fmt.Sprintf("%s not determined, because %s %s not measured; "+
				"what is said of each tells what to do", q.words, listed(absent), wasWere(len(absent)))))
		}
	}
	if len(absent) > 0 {
		return out
	}
	s, err := in.spread(quantities, find)
	for i, q := range quantities {
		if err != nil {
			out = append(out, undetermined(in.label(q), q.words+" not determined, because "+strings.TrimPrefix(err.Error(), "stability: ")))
			continue
		}
		r := in.label(q)
		r.Warnings = append(r.Warnings, in.borrowedWords(needed, helpful)...)
		r = s.result(r, q, i)
		if (q.name == PhugoidFrequency || q.name == PhugoidDamping) && len(in.missing([]string{identify.PitchByAlphaRate})) > 0 {
			r = weaken(r, "pitch by alpha rate was not measured and counted as zero: the phugoid may be a fifth slower or quicker than its interval says")
		}
		out = append(out, r)
	}
	return out
}

// label starts a result with what is known of the input.
func (in ModeInput) label(q modeQuantity) Result {
	a := in.Aircraft
	r := Result{Quantity: q.name, Unit: q.unit, Power: in.Power, Flights: in.Flights, Points: in.Points, Degrees: in.Degrees,
		Method: "linear model of the derivatives, " + strings.ReplaceAll(a.Scale, "_", " ") + " mass and inertia", Common: map[string]float64{}}
	ratio := a.LengthRatio
	if ratio == 0 {
		ratio = 1
	}
	r.CG, r.HasCG = a.CGX/ratio, true
	if a.Speed > 0 && a.Density > 0 && a.Reference.Area > 0 {
		r.Lift = a.lift()
	}
	return r
}

// broken says what of the input makes no sense, or nothing.
func (in ModeInput) broken() string {
	n := len(in.Derivatives)
	if in.Covariance != nil && len(in.Covariance) != n {
		return fmt.Sprintf("there are %d derivatives and a covariance of %d", n, len(in.Covariance))
	}
	for i, d := range in.Derivatives {
		if in.Covariance != nil && (len(in.Covariance[i]) != n || !allFinite(in.Covariance[i]...)) {
			return "the covariance of " + d.Quantity + " is not complete"
		}
		if !allFinite(d.Value, d.SD) || d.SD < 0 {
			return d.Quantity + " is not a number with a standard deviation"
		}
		for _, other := range in.Derivatives[:i] {
			if other.Quantity == d.Quantity {
				return d.Quantity + " is given twice"
			}
		}
	}
	if !(in.Reference.MeanChord > 0 && in.Aircraft.Reference.MeanChord > 0 && in.Aircraft.Reference.Area > 0) {
		return "reference area and mean aerodynamic chord must be positive"
	}
	if !(in.Aircraft.Speed > 0 && in.Aircraft.Density > 0 && in.Aircraft.Body.Mass > 0) {
		return "speed, density and mass must be positive"
	}
	return ""
}

func (in ModeInput) refuseAll(why string) []Result {
	var out []Result
	for _, q := range append(longitudinalQuantities(), lateralQuantities()...) {
		out = append(out, undetermined(in.label(q), q.words+" not determined, because "+why))
	}
	return append(out, timeToDouble(out[len(out)-1]))
}

// missing lists the quantities that nobody gave.
func (in ModeInput) missing(names []string) []string {
	var out []string
	for _, name := range names {
		found := false
		for _, d := range in.Derivatives {
			found = found || d.Quantity == name
		}
		if !found {
			out = append(out, name)
		}
	}
	return out
}

// borrowedWords names what was not measured.
func (in ModeInput) borrowedWords(needed, helpful []string) []string {
	var out []string
	for _, d := range in.Derivatives {
		for _, name := range append(append([]string(nil), needed...), helpful...) {
			if d.Quantity == name && d.From != "" {
				out = append(out, spoken(name)+" was not measured; taken from "+d.From)
			}
		}
	}
	if absent := in.missing(helpful); len(absent) > 0 {
		out = append(out, listed(absent)+" "+wasWere(len(absent))+" not measured and counted as zero; of little weight")
	}
	if a := in.Aircraft; in.Lift != 0 && math.Abs(a.lift()-in.Lift) > liftApart {
		out = append(out, fmt.Sprintf("the derivatives were measured at a lift coefficient of %.2f, this flight needs %.2f: "+
			"derivatives that change with lift may be off", in.Lift, a.lift()))
	}
	return out
}

// liftApart is the difference of lift coefficients that is worth a warning. Common practice, no source.
const liftApart = 0.15

func wasWere(n int) string {
	if n == 1 {
		return "was"
	}
	return "were"
}

// listed joins names as one says them.
func listed(names []string) string {
	words := make([]string, len(names))
	for i, n := range names {
		words[i] = spoken(n)
	}
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
