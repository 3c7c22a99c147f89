package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"wingproof/aero"
	"wingproof/aero/similitude"
	"wingproof/aero/weighing"
	"wingproof/cmd/wingproof/internal/evidence"
)

// Weigh is what a weighing gave, for the table.
type Weigh struct {
	Result    weighing.Result
	Ratio     float64        // model length over full-size length
	Reference aero.Reference // full size
	Targets   []similitude.Row
	Places    []similitude.PlaceRow // targets of the CG
	NoTargets string                // why there are none
	Assumed   []string              // errors that the sheet does not state
	Missing   []string
	Warnings  []string
}

// Target is the model's target of a result; ok is false when there is none.
func (c Weigh) Target(q weighing.Quantity) (target float64, ok bool) {
	for _, r := range c.Targets {
		if strings.EqualFold(r.Quantity, string(q)) {
			return r.Target, true
		}
	}
	for _, r := range c.Places {
		if r.Quantity == string(q) {
			return r.Target, true
		}
	}
	return 0, false
}

// Write prints the results with their 95 % intervals, what spoils each and what would halve it, the swings, what is missing, and the
// cautions, as text no wider than width columns (100 when width is 0).
func (c Weigh) Write(w io.Writer, width int) error {
	steps := []func() error{
		func() error { return c.results(w, width) },
		func() error { return c.errors(w, width) },
		func() error { return c.swings(w, width) },
		func() error { return c.words(w, width) },
		func() error { return weighCautions(w, width) },
	}
	for _, step := range steps {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

func (c Weigh) results(w io.Writer, width int) error {
	if len(c.Result.Numbers) == 0 {
		return paragraph(w, "nothing follows from this sheet yet", width)
	}
	t := textTable{heads: []string{"quantity", "on the model, ± 95 %", "full size", "model target, departure from it"}, most: []int{24, 24, 26, 0}}
	for _, n := range c.Result.Numbers {
		target := ""
		if goal, ok := c.Target(n.Quantity); ok {
			target = inUnit(n.Quantity, goal, decimalsWeighed(n)) + c.departure(n, goal)
		}
		t.add(WeighedWords(n.Quantity), intervalWeighed(n), c.fullSize(n), target)
	}
	return t.write(w, width)
}

// fullSize is a CG at full size; masses and inertias have their targets instead.
func (c Weigh) fullSize(n weighing.Number) string {
	switch n.Quantity {
	case weighing.CGX:
		x := n.Value / c.Ratio
		return number(x, 3) + " m, " + number(c.Reference.Percent(x), 1) + " % of chord"
	case weighing.CGY, weighing.CGZ:
		return number(n.Value/c.Ratio, 3) + " m"
	}
	return ""
}

// departure is that from the target with its 95 %, in percent, of Ixz in percent of the target Iz; a CG's in millimetres of the model.
func (c Weigh) departure(n weighing.Number, goal float64) string {
	if isLength(n.Quantity) {
		d := decimalsWeighed(n)
		return ", " + signed(1000*(n.Value-goal), d) + " ± " + number(1000*evidence.Normal95*n.SD, d) + " mm"
	}
	base := goal
	if n.Quantity == weighing.Ixz {
		base, _ = c.Target(weighing.Iz)
	}
	if base == 0 {
		return ""
	}
	off, spread := 100*(n.Value-goal)/base, 100*evidence.Normal95*n.SD/base
	words := ", " + signed(off, 1) + " ± " + number(spread, 1) + " %"
	if n.Quantity == weighing.Ixz {
		words += " of Iz"
	}
	return words
}

func (c Weigh) errors(w io.Writer, width int) error {
	if len(c.Result.Numbers) == 0 {
		return nil
	}
	if _, err := fmt.Fprintln(w); err != nil {
		return err
	}
	t := textTable{heads: []string{"quantity", "most of its error comes from", "what would halve it (one standard deviation)"}, most: []int{26, 34, 0}}
	for _, n := range c.Result.Numbers {
		if len(n.Parts) > 0 {
			t.add(WeighedWords(n.Quantity), fmt.Sprintf("%s (%s %%)", plain(SourceWords(n.Parts[0].Source)), number(100*n.Share(n.Parts[0]), 0)), c.halving(n))
		}
	}
	return t.write(w, width)
}

func (c Weigh) swings(w io.Writer, width int) error {
	if len(c.Result.Swings) == 0 {
		return nil
	}
	if _, err := fmt.Fprintln(w); err != nil {
		return err
	}
	t := textTable{heads: []string{"swing", "period", "axis to CG", "inertia about its axis at the CG, ± 95 %", "air that swung along, taken off"}, most: []int{20, 9, 13, 30, 0}}
	air := false
	for _, s := range c.Result.Swings {
		arm, moved := "", "none"
		if s.Arm > 0 {
			arm = number(1000*s.Arm, 0) + " mm"
		}
		if s.Air > 0 {
			air = true
			moved = fmt.Sprintf("%s ± %s kg·m² (%s %%)", number(s.Air, 3), number(evidence.Normal95*airPart(s.Number), 3), number(100*s.Air/(s.Value+s.Air), 1))
		}
		n := s.Number
		n.Quantity = weighing.Ix // any inertia
		t.add(plain(s.Name), number(s.Period, 3)+" s", arm, intervalWeighed(n), moved)
	}
	if err := t.write(w, width); err != nil || !air {
		return err
	}
	return paragraph(w, "The air is that of flat strips in potential flow, over wing, foreplane, winglets and fins, ± 30 % (one standard deviation; common practice, no source), without the fuselage.", width)
}

// airPart is the standard deviation that the estimate of the air adds.
func airPart(n weighing.Number) float64 {
	for _, p := range n.Parts {
		if p.Source.Kind == weighing.AirEstimate {
			return math.Abs(p.SD)
		}
	}
	return 0
}

func (c Weigh) words(w io.Writer, width int) error {
	var lines []string
	if len(c.Assumed) > 0 {
		lines = append(lines, "not stated in the sheet, so taken (one standard deviation; common practice, no source): "+strings.Join(c.Assumed, ", "))
	}
	if c.NoTargets != "" {
		lines = append(lines, "no targets: "+c.NoTargets)
	}
	for _, m := range c.Missing {
		lines = append(lines, "missing: "+m)
	}
	for _, m := range c.Warnings {
		lines = append(lines, "LOOK AGAIN: "+m)
	}
	if len(lines) > 0 {
		if _, err := fmt.Fprintln(w); err != nil {
			return err
		}
	}
	for _, l := range lines {
		if err := paragraph(w, plain(l), width); err != nil {
			return err
		}
	}
	return nil
}

// weighCautions says what can hurt somebody.
func weighCautions(w io.Writer, width int) error {
	if _, err := fmt.Fprintln(w); err != nil {
		return err
	}
	return paragraph(w, "CAUTION: "+strings.Join(WeighCautions(), " "), width)
}

// WeighCautions are the cautions of scales and swings, a sentence each.
func WeighCautions() []string {
	return []string{
		"Battery and fuel lines disconnected and the propeller off before anybody touches the model.",
		"Two people lift; fingers stay out from under wheels, blocks and lines; nobody is below a hung model, and a slack safety line and a padded floor catch it.",
		"Every line and hook holds the model four times over (common practice, no source).",
		"A swing stays under 10° to a side, and must not touch anything, let a line go slack, or go on when it wanders into another motion.",
		"The CG of the day is measured again after every change of ballast.",
	}
}
