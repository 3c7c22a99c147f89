package identify

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
)

// quoted is the road whose numbers are given.
type quoted struct {
	method            string
	weigh             whitener
	equations         *equations
	white, covariance [][]float64 // of the common parameters
	condition         float64
}

// quote gives the covariance of the present fit.
func (it *iteration) quote() (quoted, error) {
	p := it.p
	method, w, err := it.choose()
	if err != nil {
		return quoted{}, err
	}
	it.linearise(w)
	e := p.equate(it.sums, 0)
	c := e.covariance()
	if c == nil {
		return quoted{}, errors.New("the inputs tell nothing of the derivatives; fly doublets on each control")
	}
	q := quoted{method: method, weigh: w, equations: e, white: rowsOf(c), condition: e.condition(len(p.layout.names))}
	q.covariance = q.white
	if growth, limit := it.growth(it.whitened(w)); growth > limit && !it.exact() {
		q.covariance = it.coloured(e)
		q.method += ", standard deviations with the colour of its residuals"
	}
	return q, nil
}

// The names of the two roads.
const (
	outputErrorMethod = "output error"
	filterErrorMethod = "filter error, gusts of the air estimated with the derivatives"
)

// choose fits with gusts, and then decides by what is left over: when the motion that the model makes by itself leaves white residuals,
// there were no gusts to speak of, and output error is the plainer road to the same numbers.
func (it *iteration) choose() (string, whitener, error) {
	f, n, err := it.fitFilterError()
	if err != nil {
		err = it.fitPlainly(err)
		return outputErrorMethod, it.p.weights(), err
	}
	it.estimateNoise()
	w := it.p.weights()
	growth, limit := it.growth(it.whitened(w))
	if with, _ := it.growth(it.whitened(f)); growth > limit && growth > with && !it.exact() {
		return filterErrorMethod, f, nil
	}
	if err := it.fitOutputError(n.outputs); err != nil {
		return "", nil, err
	}
	return outputErrorMethod, it.p.weights(), nil
}

// fitPlainly is output error from where filter error came to grief.
func (it *iteration) fitPlainly(why error) error {
	if err := it.fitOutputError(it.p.quickNoise()); err != nil {
		return errors.Join(why, err)
	}
	return nil
}

func rowsOf(m *mat.SymDense) [][]float64 {
	n := m.SymmetricDim()
	out := zeros(n, n)
	for i := range n {
		for j := range n {
			out[i][j] = m.At(i, j)
		}
	}
	return out
}

// condition of the information of the first n parameters, everything else eliminated, scaled to a unit diagonal.
func (e *equations) condition(n int) float64 {
	c := e.covariance()
	var live []int
	for j := range n {
		if !e.dead[j] {
			live = append(live, j)
		}
	}
	if len(live) == 0 {
		return math.Inf(1)
	}
	part := mat.NewSymDense(len(live), nil)
	for a, i := range live {
		for b, j := range live {
			part.SetSym(a, b, c.At(i, j)/math.Sqrt(c.At(i, i)*c.At(j, j)))
		}
	}
	var eigen mat.EigenSym
	if !eigen.Factorize(part, false) {
		return math.Inf(1)
	}
	values := eigen.Values(nil)
	return values[len(values)-1] / math.Max(values[0], 1e-300)
}
