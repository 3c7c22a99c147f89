package plots

import (
	"fmt"
	"math"
	"strings"
)

// words says of each loading where it lies and how far from the limits, and of each configuration its neutral point.
func (d EnvelopeData) words() string {
	var b strings.Builder
	for _, l := range d.Loadings {
		fmt.Fprintf(&b, "%s: %s kg at %s m aft of datum%s", l.Name, l.Mass.words(0), l.CG.words(3), d.percentWords(l.CG))
		for _, limit := range d.Limits {
			room := limit.room(l.CG.Value, l.Mass.Value)
			if math.IsNaN(room) {
				continue
			}
			side := map[bool]string{true: "ahead of", false: "behind"}[limit.Aft == (room >= 0)]
			fmt.Fprintf(&b, "; %s m %s %s", number(math.Abs(room), 3), side, limit.Name)
			if room < 0 {
				b.WriteString(", outside it")
			}
		}
		b.WriteString(". ")
	}
	for _, r := range d.Rows {
		fmt.Fprintf(&b, "%s: neutral point %s m", r.Configuration, r.NeutralPoint.words(3))
		if finite(r.Forward) {
			fmt.Fprintf(&b, ", forward limit %s m", number(r.Forward, 3))
		}
		if finite(r.Aft) {
			fmt.Fprintf(&b, ", aft limit %s m", number(r.Aft, 3))
		}
		b.WriteString(". ")
	}
	return strings.TrimSpace(sentenceOf(d.Note) + b.String())
}

func (d EnvelopeData) percentWords(x Interval) string {
	if !(d.MeanChord > 0) {
		return ""
	}
	return ", " + number(d.percent(x.Value), 1) + " % of the mean chord"
}

// rowsHeading heads the rows of the configurations.
func (d EnvelopeData) rowsHeading() string {
	if !(d.RowMass > 0) {
		return "Neutral point, by combination"
	}
	return "Neutral point, and limits at " + number(d.RowMass, 0) + " kg"
}

func (d EnvelopeData) percent(x float64) float64 {
	return 100 * (x - d.MeanChordLeadingEdge) / d.MeanChord
}

// at is the station of the limit at a mass, straight between those given; NaN outside them.
func (l EnvelopeLimit) at(mass float64) float64 {
	for i := 1; i < len(l.Mass); i++ {
		a, b := l.Mass[i-1], l.Mass[i]
		if mass >= math.Min(a, b) && mass <= math.Max(a, b) && a != b {
			return l.CG[i-1] + (l.CG[i]-l.CG[i-1])*(mass-a)/(b-a)
		}
	}
	return math.NaN()
}

// room is how far a CG lies on the allowed side of the limit at a mass, m; negative beyond it, NaN where the limit is not known.
func (l EnvelopeLimit) room(cg, mass float64) float64 {
	if l.Aft {
		return l.at(mass) - cg
	}
	return cg - l.at(mass)
}
