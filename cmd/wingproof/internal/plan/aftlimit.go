package plan

import (
	"math"

	"wingproof/cmd/wingproof/internal/decide"
)

// limit of one configuration.
func (p Problem) limit(c Configuration) float64 {
	return decide.AftLimit(c.NeutralPoint, c.NeutralPointSD, p.Chord, c.Proven())
}

// grid is what a crew can set a CG to on the model: whole millimetres, tenths on a model whose steps would be shorter than two.
func (p Problem) grid() float64 {
	const coarse, fine = 1e-3, 1e-4
	if longestStep*p.Chord*p.LengthRatio < 2*coarse {
		return fine
	}
	return coarse
}

// settable is the station on the model's grid that lies at x or just ahead of it, full size.
func (p Problem) settable(x float64) float64 {
	const roundOff = 1e-6 // of a step of the grid
	g := p.grid()
	return math.Floor(x*p.LengthRatio/g+roundOff) * g / p.LengthRatio
}
