package main

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/plots"
)

// envelopeFigures draw mass against CG at full size: the loadings that fly, how their CG moves as fuel burns, where the limits of the settled or
// baseline combination are reached, and neutral point and limits of every combination. Without a stated empty weight or a loading that flies there
// is nothing to draw.
func envelopeFigures(st *study.Study) ([]plots.Figure, error) {
	flying := prediction.FlyingLoadings(st.Program)
	if st.Program.FullSize.EmptyMass.Value <= 0 || len(flying) == 0 || len(st.Configurations) == 0 {
		return nil, nil
	}
	ref, base := st.Configurations[0].Airframe.Reference, evidence.Name(settledLevels(st))
	data := plots.EnvelopeData{Configuration: plainConfiguration(base), MeanChord: ref.MeanChord, MeanChordLeadingEdge: ref.MeanChordLeadingEdge,
		GrossMass: st.Program.FullSize.Mass.Value}
	for _, l := range flying {
		data.Loadings = append(data.Loadings, envelopeLoading(st.Program.FullSize, l))
		if burn, ok := fuelBurn(st.Program.FullSize, l); ok {
			data.Burns = append(data.Burns, burn)
		}
	}
	masses := envelopeMasses(data)
	limits, err := st.CGLimits(masses)
	if err != nil {
		return nil, err
	}
	for _, l := range limits {
		if l.Configuration == base {
			data.Limits = append(data.Limits, plots.EnvelopeLimit{Name: cgLimitName(l, limits), Aft: l.Aft, CG: l.CG, Mass: masses})
		}
	}
	data.Rows = envelopeRows(st, limits, masses)
	if len(limits) > 0 {
		data.RowMass = masses[len(masses)/2]
	}
	data.Note = envelopeNote(st, data, limits)
	figure, err := plots.Envelope(data)
	return []plots.Figure{figure}, err
}

// envelopeLoading is a loading with the error that the empty aircraft leaves it; what is carried is taken as stated.
func envelopeLoading(f program.FullSize, l program.Loading) plots.EnvelopeLoading {
	mass, x := prediction.LoadedCG(f, l)
	around := func(v, sd float64) plots.Interval {
		return plots.Interval{Value: v, Low: v - evidence.Normal95*sd, High: v + evidence.Normal95*sd}
	}
	return plots.EnvelopeLoading{Name: l.Name, CG: around(x, evidence.Total(0, prediction.LoadedCGErrors(f, l))), Mass: around(mass, f.EmptyMass.SD)}
}

// fuelBurn moves mass and CG of a loading from the fuel that it carries to none; false where its items name no fuel. An item is fuel that says so,
// or that states where its tank lies in the wing.
func fuelBurn(f program.FullSize, l program.Loading) (plots.EnvelopeBurn, bool) {
	out := plots.EnvelopeBurn{Loading: l.Name}
	isFuel := func(i program.Item) bool {
		return i.Mass > 0 && (i.SpanTo > 0 || slices.Contains(strings.FieldsFunc(strings.ToLower(i.What), func(r rune) bool { return !unicode.IsLetter(r) }), "fuel"))
	}
	if !slices.ContainsFunc(l.Items, isFuel) {
		return out, false
	}
	const steps = 8
	for k := range steps + 1 {
		left := l
		left.Items = slices.Clone(l.Items)
		for i := range left.Items {
			if isFuel(left.Items[i]) {
				left.Items[i].Mass *= 1 - float64(k)/steps
			}
		}
		mass, x := prediction.LoadedCG(f, left)
		out.Mass, out.CG = append(out.Mass, mass), append(out.CG, x)
	}
	return out, true
}

// envelopeMasses are the masses that limits are worked out at: from below the lightest to above the heaviest that is drawn.
func envelopeMasses(d plots.EnvelopeData) []float64 {
	low, high := math.Inf(1), d.GrossMass
	for _, l := range d.Loadings {
		low, high = math.Min(low, l.Mass.Low), math.Max(high, l.Mass.High)
	}
	for _, b := range d.Burns {
		low = math.Min(low, slices.Min(b.Mass))
	}
	const beyond, count = 0.1, 15
	low, high = low-beyond*(high-low)-1, high+beyond*(high-low)+1
	out := make([]float64, count)
	for i := range out {
		out[i] = low + (high-low)*float64(i)/(count-1)
	}
	return out
}

// cgLimitName is the name of a limit, with its side where it bounds the CG on both.
func cgLimitName(l decide.CGLimit, all []decide.CGLimit) string {
	for _, other := range all {
		if other.Limit == l.Limit && other.Aft != l.Aft {
			return l.Limit + map[bool]string{true: " (aft)", false: " (forward)"}[l.Aft]
		}
	}
	return l.Limit
}

// envelopeRows are the neutral point at full size, limits at the middling mass and CGs flown of each combination.
func envelopeRows(st *study.Study, limits []decide.CGLimit, masses []float64) []plots.EnvelopeRow {
	middle := len(masses) / 2
	var out []plots.EnvelopeRow
	for _, c := range st.Configurations {
		np := neutralPointOf(st, c.Name)
		if np == nil {
			continue
		}
		row := plots.EnvelopeRow{Configuration: plainConfiguration(c.Name), NeutralPoint: *np, Forward: math.NaN(), Aft: math.NaN()}
		for _, l := range limits {
			switch {
			case l.Configuration != c.Name:
			case l.Aft && !(l.CG[middle] >= row.Aft): // the foremost of several
				row.Aft = l.CG[middle]
			case !l.Aft && !(l.CG[middle] <= row.Forward):
				row.Forward = l.CG[middle]
			}
		}
		for _, f := range st.Flights {
			if f.Used && evidence.Name(f.Levels) == c.Name && !slices.Contains(row.Flown, f.CG) {
				row.Flown = append(row.Flown, f.CG)
			}
		}
		out = append(out, row)
	}
	return out
}

// neutralPointOf is the belief on the neutral point at full size; nil where there is none.
func neutralPointOf(st *study.Study, configuration string) *plots.Interval {
	for _, e := range st.Verdict.Anchored {
		if e.Configuration == configuration && e.Quantity == evidence.NeutralPoint && e.Scale == evidence.FullSize {
			return intervalOf(e)
		}
	}
	return nil
}

// envelopeNote says whose limits are drawn, what is not computed, and what is not drawn.
func envelopeNote(st *study.Study, d plots.EnvelopeData, limits []decide.CGLimit) string {
	p := st.Program
	note := "Limits are those of " + d.Configuration + ", " + restingOn(st) + "; a CG between them keeps each with 95 %, if it is known exactly."
	has := func(aft bool) bool {
		return slices.ContainsFunc(limits, func(l decide.CGLimit) bool { return l.Aft == aft })
	}
	if !has(true) {
		note += " No aft limit is computed: program.toml asks for no least static margin."
	}
	if !has(false) {
		note += " No forward limit is computed: program.toml asks for no trim room, rotation or greatest static margin."
	}
	if !asksFor(p, evidence.ElevatorRoom) && !asksFor(p, evidence.RotationSpeed) && has(false) {
		note += " Trim room at the approach and rotation are not asked for, so the forward limit leaves them out."
	}
	if len(d.Burns) > 0 {
		note += " Tanks that run empty on the way are not judged."
	}
	var ground []string
	for _, l := range p.Loadings {
		if !l.Flies {
			ground = append(ground, l.Name)
		}
	}
	if len(ground) > 0 {
		note += fmt.Sprintf(" Not drawn, on the ground only: %s.", strings.Join(ground, "; "))
	}
	return note
}

// asksFor tells whether some limit is put on a quantity.
func asksFor(p *program.Program, quantity string) bool {
	return slices.ContainsFunc(p.Limits, func(l program.Limit) bool { return l.Quantity == quantity })
}
