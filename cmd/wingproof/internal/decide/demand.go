package decide

import (
	"fmt"
	"strings"
)

const (
	signoffPrefix = "signoff:"
	flutter       = "flutter_and_mass_balance"
	wordNone      = "none"
)

// demands are what a part asks of the choices, the limits and the people.
type demands struct {
	shapedBy []string
	limits   []int // indices of requirements
	signoffs []signature
}

// signature is a sign-off that a part needs; added tells that the list of parts did not ask for it.
type signature struct {
	name  string
	added bool
}

// demandsOf reads a part and refuses names that nothing in the program has.
//
// A part that a choice shapes, or whose name says winglet, foreplane, elevator, aileron or rudder, needs
// the sign-off for flutter and mass balance at every stage, fitted ones too. must_pass tells otherwise with
// a sign-off of its own or with the word none.
func (o *outcome) demandsOf(part Part) (demands, error) {
	var d demands
	if err := checkPart(part); err != nil {
		return d, err
	}
	if err := o.readChoices(part, &d); err != nil {
		return d, err
	}
	toldOtherwise := part.MustPassStated && len(part.MustPass) == 0
	for _, item := range part.MustPass {
		if item == wordNone {
			toldOtherwise = true
			continue
		}
		if name, ok := strings.CutPrefix(item, signoffPrefix); ok {
			toldOtherwise = true
			d.signoffs = append(d.signoffs, signature{name: strings.TrimSpace(name)})
			continue
		}
		r, err := o.requirementNamed(item)
		if err != nil {
			return d, err
		}
		d.limits = append(d.limits, r)
	}
	if !toldOtherwise && (len(d.shapedBy) > 0 || movesInFlow(part.Name)) {
		d.signoffs = append(d.signoffs, signature{name: flutter, added: true})
	}
	return d, nil
}

// readChoices checks the choices that a part names.
func (o *outcome) readChoices(part Part, d *demands) error {
	for _, name := range part.ShapedBy {
		if name == wordNone {
			continue
		}
		if _, ok := o.space.choice(name); !ok {
			return fmt.Errorf("shaped by %q, which is no choice; known are %s", name, list(o.space.names, "and"))
		}
		d.shapedBy = append(d.shapedBy, name)
	}
	for _, name := range sortedKeys(part.BuiltTo) {
		if _, ok := o.space.choice(name); !ok {
			return fmt.Errorf("built to %s=%s, but %q is no choice; known are %s", name, part.BuiltTo[name], name, list(o.space.names, "and"))
		}
	}
	return nil
}

// checkPart refuses stages that the trade does not know here.
func checkPart(part Part) error {
	switch part.Stage {
	case stageDrawn, stagePlug, stageMould, stageLaidUp, stageReady, stageFitted:
		return nil
	default:
		return fmt.Errorf("stage %q; write drawn, plug, mould, laid_up, ready or fitted", part.Stage)
	}
}

// requirementNamed finds a limit or a built part, as people write the name.
func (o *outcome) requirementNamed(name string) (int, error) {
	var known []string
	for r, requirement := range o.judgement.requirements {
		if sameName(requirement.Name, name) {
			return r, nil
		}
		known = append(known, requirement.Name)
	}
	return 0, fmt.Errorf("must pass %q, which is no limit; known are %s", name, list(known, "and"))
}

// movesInFlow tells parts that flutter concerns by their name.
func movesInFlow(name string) bool {
	name = strings.ToLower(name)
	for _, word := range []string{"winglet", "foreplane", "elevator", "aileron", "rudder"} {
		if strings.Contains(name, word) {
			return true
		}
	}
	return false
}
