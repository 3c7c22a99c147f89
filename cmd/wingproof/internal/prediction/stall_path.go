package prediction

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero/lattice"
)

// The angles of attack that are searched, and the steps between which everything runs straight, rad.
const (
	stallFrom = -10 * math.Pi / 180
	stallTo   = 30 * math.Pi / 180
	stallStep = math.Pi / 180
)

// path is how an aircraft with attached flow and its elevator held goes through the angles of attack.
type path struct {
	alpha   []float64
	lift    []float64   // coefficient
	moment  []float64   // nose up about the CG, body included, over the dynamic pressure, m³
	section [][]float64 // [angle][strip], section lift coefficients
}

// sectionForm holds the section lifts of a lattice, which are linear in cos α, sin α and, each, one deflection.
type sectionForm struct {
	still, turned [2][]float64 // [cos, sin][strip]; turned per rad of elevator
}

// newSectionForm takes the form from four states.
func newSectionForm(solution *lattice.Solution, elevator string) sectionForm {
	const a, d = 0.3, 0.1
	lifts := func(alpha, deflection float64) []float64 {
		strips := solution.Strips(lattice.State{Alpha: alpha, Controls: map[string]float64{elevator: deflection}})
		out := make([]float64, len(strips))
		for i, s := range strips {
			out[i] = s.SectionLift
		}
		return out
	}
	zero, up, zeroDown, upDown := lifts(0, 0), lifts(a, 0), lifts(0, d), lifts(a, d)
	sin, cos := math.Sincos(a)
	var f sectionForm
	n := len(zero)
	f.still, f.turned = [2][]float64{zero, make([]float64, n)}, [2][]float64{make([]float64, n), make([]float64, n)}
	for i := range n {
		f.still[1][i] = (up[i] - cos*zero[i]) / sin
		f.turned[0][i] = (zeroDown[i] - zero[i]) / d
		f.turned[1][i] = ((upDown[i]-up[i])/d - cos*f.turned[0][i]) / sin
	}
	return f
}

// at gives the section lift of every strip.
func (f sectionForm) at(alpha, deflection float64) []float64 {
	sin, cos := math.Sincos(alpha)
	out := make([]float64, len(f.still[0]))
	for i := range out {
		out[i] = cos*(f.still[0][i]+deflection*f.turned[0][i]) + sin*(f.still[1][i]+deflection*f.turned[1][i])
	}
	return out
}

// newPath samples the attached aircraft with its elevator held.
func newPath(a *Analysis, form sectionForm, elevator string, deflection float64, cg r3.Vec) path {
	var p path
	r := a.Solution.Reference()
	steps := int(math.Round((stallTo - stallFrom) / stallStep))
	for k := range steps + 1 {
		alpha := stallFrom + float64(k)*(stallTo-stallFrom)/float64(steps)
		c := a.Solution.Coefficients(lattice.State{Alpha: alpha, Controls: map[string]float64{elevator: deflection}}, cg)
		p.alpha, p.lift = append(p.alpha, alpha), append(p.lift, c.Lift)
		p.moment = append(p.moment, c.Pitch*r.Area*r.MeanChord+a.Body.Pitch*alpha)
		p.section = append(p.section, form.at(alpha, deflection))
	}
	return p
}

// between reads rows that belong to the path's angles at any angle by straight lines.
func (p path) between(rows [][]float64, alpha float64) []float64 {
	k, share := p.step(alpha)
	out := make([]float64, len(rows[k]))
	for i := range out {
		low, high := rows[k][i], rows[k+1][i]
		if low == high { // also where both are infinite
			out[i] = low
			continue
		}
		out[i] = low + share*(high-low)
	}
	return out
}

// value reads one column in the same way.
func (p path) value(column []float64, alpha float64) float64 {
	k, share := p.step(alpha)
	return column[k] + share*(column[k+1]-column[k])
}

func (p path) step(alpha float64) (int, float64) {
	at := (alpha - p.alpha[0]) / (p.alpha[1] - p.alpha[0])
	k := min(max(int(at), 0), len(p.alpha)-2)
	return k, at - float64(k)
}
