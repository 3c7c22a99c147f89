package response

import (
	"errors"
	"math"
)

// errLost says that the amplitudes of a trial cannot be told apart.
var errLost = errors.New("response: the amplitudes are not determined")

// problem is one signal of one stretch, thinned and divided by some unit.
type problem struct {
	values []float64
	step   float64
	trend  int // columns beside the motion: 1 for an offset, 2 for offset and drift
	space  *workspace
}

// workspace is the memory of one fit, which tries hundreds of poles one after the other.
type workspace struct {
	columns [][]float64
	weights []weight
}

// newProblem gives a problem its memory.
func newProblem(values []float64, step float64, trend int) problem {
	q := problem{values: values, step: step, trend: trend, space: &workspace{weights: make([]weight, len(values))}}
	for range q.linear() + 1 {
		q.space.columns = append(q.space.columns, make([]float64, len(values)))
	}
	return q
}

// gusts says how the motion is disturbed: how the signal sees it, and how strongly it is driven. The zero value is noise without memory.
type gusts struct {
	reach [2]float64
	drive float64
}

// trial is the fit at given poles and gusts.
type trial struct {
	residuals  []float64 // whitened, times a factor that turns their sum of squares into the restricted likelihood
	factor     float64   // that factor
	sum        float64   // Σ residuals²
	variance   float64   // of the whitened residuals without that factor
	amplitudes []float64 // cosine, sine, offset, drift
}

func (q problem) linear() int { return 2 + q.trend }

// columns are the two waves, offset, drift, and last the signal; the next call writes over them.
func (q problem) columns(p poles) [][]float64 {
	n := len(q.values)
	out := q.space.columns
	turn, s, c := p.transition(q.step), 0.0, 1.0
	for i := range n {
		row := [4]float64{c, s, 1, (float64(i) - float64(n-1)/2) * q.step}
		s, c = turn[0][0]*s+turn[0][1]*c, turn[1][0]*s+turn[1][1]*c
		for j := range q.linear() {
			out[j][i] = row[j]
		}
	}
	copy(out[q.linear()], q.values)
	return out
}

// try solves for the amplitudes at given poles.
func (q problem) try(p poles, g gusts) (trial, error) {
	columns := q.columns(p)
	logarithms := 0.0
	if g.drive > 0 {
		logarithms = swingDisturbed(p, q.step, g.reach, g.drive).whiten(columns, q.space.weights)
	}
	s, ok := leastSquares(columns)
	if !ok {
		return trial{}, errLost
	}
	return s.likely(logarithms), nil
}

// likely multiplies the residuals so that their sum of squares is lowest where the restricted likelihood is highest. logarithms is ln det V:
// −2·ln L = (n − m)·ln Σe² + ln det V + ln det XᵀV⁻¹X + const.
func (s solved) likely(logarithms float64) trial {
	degrees := float64(len(s.residuals) - len(s.coefficients))
	out := trial{residuals: s.residuals, amplitudes: s.coefficients, variance: dot(s.residuals, s.residuals) / degrees}
	out.factor = math.Exp((logarithms + s.logarithms) / (2 * degrees))
	for i := range out.residuals {
		out.residuals[i] *= out.factor
	}
	out.sum = dot(out.residuals, out.residuals)
	return out
}

// reach is how the signal sees the motion of unit amplitude: the cosine belongs to the second state.
func (t trial) reach() [2]float64 { return [2]float64{t.amplitudes[1], t.amplitudes[0]} }

// size is the amplitude of the motion at the start.
func (f found) size() float64 {
	h := f.trial.reach()
	return math.Hypot(h[1], h[0]/math.Sqrt(f.poles.frequency2()))
}
