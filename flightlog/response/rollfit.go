package response

import (
	"math"

	"wingproof/flightlog/leastsquares"
)

// settled is a root with its standard deviation and its change per second of surface lag.
type settled struct{ root, sd, lag float64 }

// settling is the fit of one input. Its parameter is ln(−root).
type settling struct {
	rate, surface []float64 // divided by the noise of the gyro, rad
	step          float64
	swing         poles
	fixed         [][]float64 // columns that do not depend on the root
	drive         float64     // intensity of gusts
}

// settle finds the root: first as if noise had no memory, then with the gusts that make the whole most likely.
func (in Input) settle(swing poles) (settled, error) {
	s := settling{rate: in.RollRate, surface: in.Aileron, step: in.Step, swing: swing, fixed: fixedColumns(in.Aileron, in.Step, swing)}
	at := s.net()
	noise := 0.0
	if t, err := s.try(at); err == nil {
		noise = noiseOf(t.residuals) / t.factor
	}
	noise = math.Max(noise, quietest*sizeOf(in.RollRate))
	s.rate = make([]float64, len(in.RollRate))
	for i, v := range in.RollRate {
		s.rate[i] = v / noise
	}
	at, best, err := s.search(at)
	if err != nil {
		return settled{}, err
	}
	calm := s
	golden(func(logarithm float64) float64 {
		gusty := calm
		gusty.drive = math.Exp(logarithm)
		x, t, err := gusty.search(at)
		if err != nil {
			return math.Inf(1)
		}
		if t.sum < best.sum {
			s, at, best = gusty, x, t
		}
		return t.sum
	}, math.Log(leastRollDrive), math.Log(mostRollDrive), 9)
	return s.conclude(at, best)
}

// Gusts are looked for between a drive that leaves no trace in the gyro's noise and one that hides the input, in squares of that noise a second.
const (
	leastRollDrive = 1e-3
	mostRollDrive  = 1e9
)

// net is the best of a net over the logarithm of the root.
func (s settling) net() float64 {
	const lines = 24
	low, high := math.Log(1/slowestRoll), math.Log(1/quickestRoll)
	best, least := low, math.Inf(1)
	for i := range lines + 1 {
		at := low + (high-low)*float64(i)/lines
		if t, err := s.try(at); err == nil && t.sum < least {
			best, least = at, t.sum
		}
	}
	return best
}

// search lowers the sum of squares from a start.
func (s settling) search(from float64) (float64, trial, error) {
	residuals := func(x, r []float64) error {
		t, err := s.try(x[0])
		if err != nil || math.Abs(x[0]) > 10 {
			for i := range r {
				r[i] = math.NaN()
			}
			return nil
		}
		copy(r, t.residuals)
		return nil
	}
	jacobian := func(x []float64, j [][]float64) error {
		slope, err := s.slope(x[0])
		for i, v := range slope {
			j[i][0] = v
		}
		return err
	}
	found, err := leastsquares.Nonlinear(leastsquares.Problem{Rows: len(s.rate), Residuals: residuals, Jacobian: jacobian}, []float64{from},
		leastsquares.Options{Tolerance: coarse, Iterations: 30})
	if err != nil {
		return 0, trial{}, err
	}
	t, err := s.try(found.Parameters[0])
	return found.Parameters[0], t, err
}

// try solves for the amplitudes at a root.
func (s settling) try(logarithm float64) (trial, error) {
	root := -math.Exp(logarithm)
	n := len(s.surface)
	driven, fading := make([]float64, n), make([]float64, n)
	fading[0] = 1
	keep := math.Exp(root * s.step)
	for i := 1; i < n; i++ { // exact for a surface that moves along straight lines between samples
		slope := (s.surface[i] - s.surface[i-1]) / s.step
		driven[i] = keep*driven[i-1] + (keep-1)/root*s.surface[i-1] + ((keep-1)/root-s.step)/root*slope
		fading[i] = keep * fading[i-1]
	}
	columns := [][]float64{driven, fading}
	for _, c := range append(s.fixed[:len(s.fixed):len(s.fixed)], s.rate) {
		columns = append(columns, append([]float64(nil), c...))
	}
	logarithms := 0.0
	if s.drive > 0 {
		logarithms = rollDisturbed(root, s.swing, s.step, s.drive).whiten(columns, make([]weight, n))
	}
	solution, ok := leastSquares(columns)
	if !ok {
		return trial{}, errLost
	}
	return solution.likely(logarithms), nil
}

// fixedColumns are those that do not depend on the root: what the surface makes of the Dutch roll and the spiral, the Dutch roll that was there before,
// and an offset.
func fixedColumns(surface []float64, step float64, swing poles) [][]float64 {
	n := len(surface)
	first, second, whole, one := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	sine, cosine := make([]float64, n), make([]float64, n)
	turn, half := swing.transition(step), swing.transition(step/2)
	var x [2]float64
	one[0], cosine[0] = 1, 1
	for i := 1; i < n; i++ {
		push := (surface[i-1] + surface[i]) / 2 * step
		x = [2]float64{turn[0][0]*x[0] + turn[0][1]*x[1] + half[0][1]*push, turn[1][0]*x[0] + turn[1][1]*x[1] + half[1][1]*push}
		first[i], second[i], whole[i], one[i] = x[0], x[1], whole[i-1]+push, 1
		sine[i], cosine[i] = turn[0][0]*sine[i-1]+turn[0][1]*cosine[i-1], turn[1][0]*sine[i-1]+turn[1][1]*cosine[i-1]
	}
	return [][]float64{first, second, whole, one, sine, cosine}
}

// slope differentiates the residuals by central differences.
func (s settling) slope(at float64) ([]float64, error) {
	const h = 1e-4
	up, err := s.try(at + h)
	if err != nil {
		return nil, err
	}
	down, err := s.try(at - h)
	if err != nil {
		return nil, err
	}
	for i := range up.residuals {
		up.residuals[i] = (up.residuals[i] - down.residuals[i]) / (2 * h)
	}
	return up.residuals, nil
}

// conclude gives the root with its standard deviation and what an unknown lag would do.
func (s settling) conclude(at float64, t trial) (settled, error) {
	slope, err := s.slope(at)
	if err != nil {
		return settled{}, err
	}
	root := -math.Exp(at)
	out := settled{root: root, sd: -root * deviation(slope, t.residuals, len(t.residuals)-len(t.amplitudes)-1)}
	late := s
	late.surface = delayed(s.surface, lateSurface/s.step)
	late.fixed = fixedColumns(late.surface, s.step, s.swing)
	if x, _, err := late.search(at); err == nil {
		out.lag = (-math.Exp(x) - root) / lateSurface
	}
	return out, nil
}

// deviation is the standard deviation of the only parameter, widened by what colour the residuals have left.
func deviation(slope, r []float64, degrees int) float64 {
	information, n := dot(slope, slope), len(r)
	meat := 0.0
	for lag := range n / 5 { // longer lags are mostly chance: common practice, no source
		pair := lagged(slope, slope, lag)
		if lag > 0 {
			pair *= 2
		}
		meat += float64(lagged(r, r, lag) / float64(n) * pair)
	}
	white := dot(r, r) / float64(degrees) / information
	return math.Sqrt(math.Max(white, meat/(information*information)))
}

// delayed shifts a history to later by a number of samples, along straight lines.
func delayed(values []float64, by float64) []float64 {
	out := make([]float64, len(values))
	for i := range out {
		at := math.Max(0, float64(i)-by)
		k := min(int(at), len(values)-2)
		out[i] = values[k] + float64((at-float64(k))*(values[k+1]-values[k]))
	}
	return out
}
