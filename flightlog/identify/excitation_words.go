package identify

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"wingproof/flightlog"
)

// Thresholds of collinearity: a condition index of 30 with two or more variance proportions above one half.
// Source: Belsley, Kuh and Welsch, Regression Diagnostics, section 3.2 (from memory).
const (
	strongIndex     = 30
	largeProportion = 0.5
)

// blurred is the standard deviation, over what is usual, from which a derivative is not worth quoting: its 95 % interval is then as wide as twice
// such a number. The value itself has no say, else those would be quoted that chance made large. Common practice, no source.
const blurred = 0.5

// tooLittle begins what is said of a derivative that drowns in noise.
const tooLittle = "the inputs moved the model too little against its noise"

// derivativesBy are the derivatives by one regressor, in the order of responses.
func derivativesBy(axis Axis, column int) []string {
	var out []string
	for _, e := range axisResponses(axis) {
		out = append(out, e.names[column])
	}
	return out
}

// spelled turns a list into words.
func spelled(names []string) string {
	plain := make([]string, len(names))
	for i, n := range names {
		plain[i] = strings.ReplaceAll(n, "_", " ")
	}
	if len(plain) < 2 {
		return strings.Join(plain, "")
	}
	return strings.Join(plain[:len(plain)-1], ", ") + " and " + plain[len(plain)-1]
}

func (x *Excitation) lack(derivatives []string, why string) {
	x.Lacks = append(x.Lacks, Lack{Derivatives: derivatives, Why: why})
	if !slices.Contains(x.Warnings, why) {
		x.Warnings = append(x.Warnings, why)
	}
}

// addUnmoved lists the surfaces that stood still.
func (x *Excitation) addUnmoved(samples []block, used []int, terms []regressor) {
	for j, t := range terms {
		if slices.Contains(used, j) {
			continue
		}
		by := derivativesBy(x.Axis, j)
		x.lack(by, fmt.Sprintf("%s %s not moved by as much as 0.2°: %s cannot be known; fly %s", t.words, were(t), spelled(by), doublet(t)))
	}
}

func were(t regressor) string {
	if t.control == flightlog.Aileron {
		return "were"
	}
	return "was"
}

// doublet is what to fly for a surface.
func doublet(t regressor) string {
	switch t.control {
	case flightlog.Elevator:
		return "an elevator doublet"
	case flightlog.Aileron:
		return "an aileron doublet"
	}
	return "a rudder doublet"
}

// addCollinear lists the groups of regressors that always moved together.
func (x *Excitation) addCollinear(samples []block, used []int, terms []regressor) {
	for k := len(x.Singular) - 1; k > 0; k-- {
		if x.Singular[0] < strongIndex*x.Singular[k] {
			return
		}
		var group []int
		for i, j := range used {
			if x.Proportions[k][i] > largeProportion {
				group = append(group, j)
			}
		}
		if len(group) < 2 {
			continue
		}
		x.lackTogether(samples, group, used, terms)
	}
}

// lackTogether says of one group what cannot be told apart and what to fly: each of its surfaces on its own, else the surfaces that were not
// moved, else other lengths.
func (x *Excitation) lackTogether(samples []block, group, used []int, terms []regressor) {
	var words, by, fly []string
	for _, j := range group {
		words = append(words, terms[j].words)
		by = append(by, derivativesBy(x.Axis, j)...)
		if terms[j].control != "" {
			fly = append(fly, doublet(terms[j])+" on its own")
		}
	}
	for j, t := range terms {
		if len(fly) == 0 && t.control != "" && !slices.Contains(used, j) {
			fly = append(fly, doublet(t)+" as well")
		}
	}
	if len(fly) == 0 || x.Axis == Longitudinal {
		fly = []string{"doublets of two different lengths, hands off after each until the motion has died out"}
	}
	why := fmt.Sprintf("%s always moved together: %s cannot be told apart; fly %s", spelled(words), spelled(by), spelled(fly))
	if c, one := oneFrequency(samples); one {
		why = fmt.Sprintf("the %s was moved at one frequency only, so that %s; sharp steps hold many frequencies", c, why)
	}
	x.lack(by, why)
}

// addBlurred lists what a fit refused to quote beyond the groups above.
func (x *Excitation) addBlurred(derivatives []Derivative) {
	for _, d := range derivatives {
		if d.Determined || d.Why == "" || x.lacking(d.Quantity) != "" {
			continue
		}
		x.lack([]string{d.Quantity}, d.Why)
	}
}

// lacking is why a derivative cannot be known, or empty.
func (x *Excitation) lacking(quantity string) string {
	for _, l := range x.Lacks {
		if slices.Contains(l.Derivatives, quantity) {
			return l.Why
		}
	}
	return ""
}

// summary says in one line what is wrong.
func (x *Excitation) summary() string {
	if len(x.Lacks) > 0 {
		return x.Lacks[len(x.Lacks)-1].Why
	}
	return "the inputs moved too little to tell the derivatives apart; fly doublets on each control"
}

// judge marks what is not determined, with the reason.
func (g *gathered) judge(derivatives []Derivative, x *Excitation) {
	terms, i := axisTerms(g.axis), 0
	for _, e := range axisResponses(g.axis) {
		for j := range e.names {
			d := &derivatives[i]
			why := x.lacking(d.Quantity)
			if w := g.unmeasured(e); w != "" {
				why = w
			} else if w := g.unknownLag(terms[j], e); why == "" && w != "" {
				why = w
			} else if why == "" && !(d.SD <= blurred*e.usual[j]) {
				why = fmt.Sprintf(tooLittle+": %s comes out as %.2g ± %.2g; fly larger inputs in calmer air, or more of them",
					spelled([]string{d.Quantity}), d.Value, d.SD)
			}
			d.Determined, d.Why = why == "", why
			i++
		}
	}
	for ; i < len(derivatives); i++ {
		g.judgeTurning(&derivatives[i])
	}
}

// usualAlphaRate is the size that Cm_α̇ has on light aircraft with a tail; from memory.
const usualAlphaRate = 4.0

// judgeTurning tells whether Cm_α̇ is worth quoting.
func (g *gathered) judgeTurning(d *Derivative) {
	if d.Why = g.unmeasured(axisResponses(Longitudinal)[1]); d.Why == "" && !(d.SD <= blurred*usualAlphaRate) {
		d.Why = fmt.Sprintf("the speed of the model changed too little: %s comes out as %.2g ± %.2g; fly inputs with the stick left alone for longer behind them, or more of them",
			spelled([]string{d.Quantity}), d.Value, d.SD)
	}
	d.Determined = d.Why == ""
}

// What only a bench can do about a derivative that no flight determines; a reason that asks for it ends so.
const (
	SwingModel = "swing the model"
	TimeServo  = "measure it on the bench"
)

// unmeasured is why a moment is not known: an inertia of zero was not measured.
func (g *gathered) unmeasured(e explained) string {
	for _, about := range e.inertia {
		for i := range g.segments {
			b := g.segments[i].segment.Body
			if inertia := map[string]float64{"roll": b.Ix, "pitch": b.Iy, "yaw": b.Iz}[about]; !(inertia > 0) {
				return fmt.Sprintf("the moment of inertia in %s was not measured: %s", about, SwingModel)
			}
		}
	}
	return ""
}

// unknownLag is why a damping is not known: some surface that was moved follows its command by an unknown time.
func (g *gathered) unknownLag(t regressor, e explained) string {
	if !t.rate || !e.moment {
		return ""
	}
	for _, c := range axisTerms(g.axis) {
		if _, known := g.setup.Servos[c.control]; c.control != "" && !known && g.movedBy(c) {
			return fmt.Sprintf("it is not known by what time %s follow%s the command, and 50 to 80 ms of it pass for damping; %s",
				c.words, third(c), TimeServo)
		}
	}
	return ""
}

func third(t regressor) string {
	if t.control == flightlog.Aileron {
		return ""
	}
	return "s"
}

// movedBy tells whether any segment moves a surface at all.
func (g *gathered) movedBy(t regressor) bool {
	for i := range g.segments {
		low, high := math.Inf(1), math.Inf(-1)
		for _, v := range g.segments[i].segment.command(t.control) {
			low, high = math.Min(low, v), math.Max(high, v)
		}
		if high-low >= leastStroke {
			return true
		}
	}
	return false
}
