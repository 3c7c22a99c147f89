package decide

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
)

// requirement is a limit of the program, or a built part that must carry what is asked of it: bending
// over allowable at most 1.
type requirement struct {
	Limit
	unit     string
	built    *Built
	ratio    []float64 // of a built part, by configuration: nominal bending over allowable at the worst station
	station  []float64 // m, where that is
	loadings []Loading // that the limit is judged at
	beliefs  []int     // among the quantities of theory, that it rests on
}

// kind tells what a requirement rests on.
func (r requirement) kind() int {
	return judgedAs(r.Quantity).kind
}

// weighs tells whether a requirement is judged loading by loading.
func (r requirement) weighs() bool {
	switch r.kind() {
	case restsOnBoth, restsOnWeight, restsOnMotion:
		return true
	default:
		return false
	}
}

// onWheels tells whether a quantity needs the landing gear; such limits hold for loadings that only stand
// on the ground, too.
func onWheels(quantity string) bool { return judgedAs(quantity).wheels }

// belief is the quantity that flights inform a requirement through; empty when none does.
func (r requirement) belief() string {
	if beliefs := judgedAs(r.Quantity).beliefs; len(beliefs) > 0 {
		return beliefs[0]
	}
	return ""
}

// newRequirements checks limits and built parts, limits first, each in its order.
func newRequirements(p Problem, t *theory) ([]requirement, error) {
	var list []requirement
	for _, limit := range p.Limits {
		r := requirement{Limit: limit, unit: unitOf(limit.Quantity)}
		if err := r.check(p, t); err != nil {
			return nil, fmt.Errorf("limit %q: %w", limit.Name, err)
		}
		list = append(list, r)
	}
	for i := range p.Built {
		r, err := newBuiltRequirement(&p.Built[i], t)
		if err != nil {
			return nil, fmt.Errorf("built part %q: %w", p.Built[i].Part, err)
		}
		list = append(list, r)
	}
	for i, r := range list {
		for _, earlier := range list[:i] {
			if sameName(r.Name, earlier.Name) {
				return nil, fmt.Errorf("limit %q is stated twice; give each limit and each built part a name of its own", r.Name)
			}
		}
	}
	return list, nil
}

// check looks for everything that the limit needs to be judged.
func (r *requirement) check(p Problem, t *theory) error {
	if r.Name == "" || (r.AtLeast == nil && r.AtMost == nil) {
		return fmt.Errorf("a limit needs a name and a bound; write at_least or at_most")
	}
	for _, bound := range []*float64{r.AtLeast, r.AtMost} {
		if bound != nil && math.IsNaN(*bound) {
			return fmt.Errorf("the bound is not a number")
		}
	}
	if err := r.findBeliefs(t); err != nil {
		return err
	}
	if !r.weighs() {
		return nil
	}
	if err := r.checkAircraft(p); err != nil {
		return err
	}
	return r.selectLoadings(p.Aircraft.Loadings)
}

// findBeliefs looks up what the requirement rests on among the beliefs.
func (r *requirement) findBeliefs(t *theory) error {
	as := judgedAs(r.Quantity)
	for _, name := range as.beliefs {
		q := t.quantity(name)
		if q < 0 {
			return fmt.Errorf("%s needs %s predicted in every combination, with a stated error", r.Quantity, name)
		}
		r.beliefs = append(r.beliefs, q)
	}
	for _, name := range as.optional {
		if q := t.quantity(name); q >= 0 && !slices.Contains(r.beliefs, q) {
			r.beliefs = append(r.beliefs, q)
		}
	}
	if as.kind == restsOnMotion {
		slices.Sort(r.beliefs) // one order for all motions, so that they share a response
	}
	return nil
}

// checkAircraft looks for the figures of the full-size aircraft that the quantity needs.
func (r *requirement) checkAircraft(p Problem) error {
	a := p.Aircraft
	if err := checkWeights(a); err != nil {
		return err
	}
	if onWheels(r.Quantity) || r.Quantity == evidence.RotationSpeed {
		if err := a.Gear.check(); err != nil {
			return err
		}
	}
	switch {
	case !onWheels(r.Quantity) && !(a.MeanChord > 0):
		return fmt.Errorf("mean aerodynamic chord is %g m; it must be above zero", a.MeanChord)
	case slices.Contains([]string{evidence.StallingSpeed, evidence.RotationSpeed, evidence.ElevatorRoom}, r.Quantity) && !(a.WingArea > 0):
		return fmt.Errorf("wing area is %g m²; it must be above zero", a.WingArea)
	case r.Quantity == evidence.ElevatorRoom && !(a.ApproachSpeed > 0):
		return fmt.Errorf("%s needs the approach speed; state it", r.Quantity)
	case r.Quantity == evidence.ElevatorRoom && slices.ContainsFunc(p.Predictions, func(x Prediction) bool { return x.NoseUpStop == 0 }):
		return fmt.Errorf("%s needs the travel of the elevator in every combination; state it", r.Quantity)
	case r.kind() == restsOnMotion && p.Motions == nil:
		return fmt.Errorf("%s needs somebody who computes motions", r.Quantity)
	case r.kind() == restsOnMotion && !(a.Ix.Value > 0 && a.Iy.Value > 0 && a.Iz.Value > 0):
		return fmt.Errorf("%s needs the inertias Ix, Iy and Iz; state them", r.Quantity)
	}
	return nil
}

// selectLoadings picks the loadings that the limit names, or every one that the quantity applies to:
// those that fly, and for the wheels those that only stand on the ground, too.
func (r *requirement) selectLoadings(all []Loading) error {
	for _, name := range r.Loadings {
		if !hasLoading(all, name) {
			return fmt.Errorf("loading %q is not stated", name)
		}
	}
	for _, l := range all {
		named := contains(r.Loadings, l.Name)
		applies := l.Flies || onWheels(r.Quantity)
		if named && !applies {
			return fmt.Errorf("loading %q does not fly; %s is judged in flight", l.Name, r.Quantity)
		}
		if named || (len(r.Loadings) == 0 && applies) {
			r.loadings = append(r.loadings, l)
		}
	}
	if len(r.loadings) == 0 {
		return fmt.Errorf("no loading to judge it at; state one that flies")
	}
	return nil
}

func hasLoading(all []Loading, name string) bool {
	for _, l := range all {
		if l.Name == name {
			return true
		}
	}
	return false
}

// newBuiltRequirement compares a built part with the bending of every configuration.
func newBuiltRequirement(b *Built, t *theory) (requirement, error) {
	one := 1.0
	r := requirement{built: b, unit: "-", Limit: Limit{
		Name: b.Part, Quantity: evidence.BendingRatio, AtMost: &one, Evidence: "analysis",
		Source: "the part's allowable as stated",
	}}
	if t.quantity(evidence.RootBendingMoment) < 0 {
		return r, fmt.Errorf("no theory error is stated for %s", evidence.RootBendingMoment)
	}
	r.beliefs = []int{t.quantity(evidence.RootBendingMoment)}
	if !(b.SD >= 0) {
		return r, fmt.Errorf("standard deviation of the allowable is %g; write a fraction of zero or more", b.SD)
	}
	for _, config := range t.space.configs {
		ratio, at, err := worstRatio(config.bending[b.Surface], b.Allowable)
		if err != nil {
			return r, fmt.Errorf("bending of %q with %s: %w", b.Surface, config.name, err)
		}
		r.ratio, r.station = append(r.ratio, ratio), append(r.station, at)
	}
	return r, nil
}

// sameName compares names as people write them: case, spaces, hyphens and underscores do not count.
func sameName(a, b string) bool { return plainName(a) == plainName(b) }

func plainName(name string) string {
	return strings.NewReplacer("-", " ", "_", " ").Replace(strings.ToLower(strings.TrimSpace(name)))
}
