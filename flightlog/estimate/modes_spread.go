package estimate

import (
	"fmt"
	"math"
	"math/rand/v2"

	"wingproof/aero/stability"
	"wingproof/flightlog/statistic"
)

// modeSpread is what the quantities of one half of the motion do under the errors of the input.
type modeSpread struct {
	in      ModeInput
	nominal stability.Modes
	slopes  [][]float64          // for each quantity, by each derivative
	common  []map[string]float64 // for each quantity
	broken  []bool               // a motion vanished on the way: straight lines do not tell
	draws   [][]float64          // for each quantity, of the draws in which the motion shows itself
	drawn   int
	random  *rand.Rand
}

// Draws that check the straight lines, and draws that give the interval where those do not hold: then its ends are
// known to a tenth of a standard deviation and better.
const (
	checkDraws    = 600
	intervalDraws = 4000
)

func (in ModeInput) spread(quantities []modeQuantity, find func(modeState) (stability.Modes, error)) (*modeSpread, error) {
	s := &modeSpread{in: in}
	var err error
	if s.nominal, err = find(in.reported()); err != nil {
		return nil, err
	}
	n := len(quantities)
	s.slopes, s.common, s.broken = make([][]float64, n), make([]map[string]float64, n), make([]bool, n)
	for i := range quantities {
		s.slopes[i], s.common[i] = make([]float64, len(in.Derivatives)), map[string]float64{}
	}
	for j := range in.Derivatives {
		h := 0.25*in.sd(j) + 1e-5*math.Abs(in.Derivatives[j].Value) + 1e-9
		up, down := in.reported(), in.reported()
		up.values[j] += h
		down.values[j] -= h
		s.between(quantities, find, up, down, func(i int, difference float64) { s.slopes[i][j] = difference / (2 * h) })
	}
	for _, name := range in.sources() {
		up, down := in.withSource(in.reported(), name, 0.5), in.withSource(in.reported(), name, -0.5)
		s.between(quantities, find, up, down, func(i int, difference float64) { s.common[i][name] = difference })
	}
	s.random = rand.New(rand.NewPCG(in.Seed, 0x6d6f646573)) // the second word spells the name of this file
	s.draws = make([][]float64, n)
	s.draw(quantities, find, checkDraws)
	if s.bent(quantities) {
		s.draw(quantities, find, intervalDraws-checkDraws) // those of the check are among them
	}
	return s, nil
}

// between takes the difference of every quantity between two states.
func (s *modeSpread) between(quantities []modeQuantity, find func(modeState) (stability.Modes, error), up, down modeState, keep func(i int, difference float64)) {
	above, errAbove := find(up)
	below, errBelow := find(down)
	for i, q := range quantities {
		if errAbove != nil || errBelow != nil {
			s.broken[i] = true
			continue
		}
		high, ok := q.read(&above)
		low, ok2 := q.read(&below)
		if !ok || !ok2 {
			s.broken[i] = true
			continue
		}
		keep(i, high-low)
	}
}

// sd is the random standard deviation of a derivative.
func (in ModeInput) sd(j int) float64 {
	if in.Covariance != nil {
		return math.Sqrt(math.Max(0, in.Covariance[j][j]))
	}
	return in.Derivatives[j].SD
}

func (in ModeInput) quantile() float64 {
	if in.Degrees <= 0 {
		return statistic.Normal975
	}
	return statistic.StudentQuantile(in.Degrees)
}

func (in ModeInput) covariance() [][]float64 {
	if in.Covariance != nil {
		return in.Covariance
	}
	out := make([][]float64, len(in.Derivatives))
	for i, d := range in.Derivatives {
		out[i] = make([]float64, len(in.Derivatives))
		out[i][i] = d.SD * d.SD
	}
	return out
}

// rootOf is a lower triangle L with L·Lᵀ the matrix; rows without variance stay zero.
func rootOf(m [][]float64) [][]float64 {
	out := make([][]float64, len(m))
	for i := range m {
		out[i] = make([]float64, len(m))
		for j := range i + 1 {
			sum := m[i][j]
			for k := range j {
				sum -= float64(out[i][k] * out[j][k])
			}
			switch {
			case i == j && sum > 0:
				out[i][i] = math.Sqrt(sum)
			case i != j && out[j][j] > 0:
				out[i][j] = sum / out[j][j]
			}
		}
	}
	return out
}

// ownSD is the random standard deviation of a quantity along straight lines.
func (s *modeSpread) ownSD(i int) float64 {
	cov, sum := s.in.covariance(), 0.0
	for a, x := range s.slopes[i] {
		for b, y := range s.slopes[i] {
			sum += float64(x * y * cov[a][b])
		}
	}
	return math.Sqrt(math.Max(0, sum))
}

// straight is the interval along straight lines.
func (s *modeSpread) straight(r Result, q modeQuantity, i int) Result {
	value, _ := q.read(&s.nominal)
	own := s.ownSD(i)
	reach := s.in.quantile() * own
	return fill(r, value, own, value-reach, value+reach, s.common[i])
}

// Shares of draws in which a motion has another character.
const (
	worthTelling = 0.005 // is told
	tooMany      = 0.05  // makes the result weak
)

// bendAllowed is by how much an end of the interval of draws may differ from that of straight lines, over half its width: three
// times what chance does to the ends with checkDraws.
const bendAllowed = 0.2

// bent tells whether straight lines fail for some quantity.
func (s *modeSpread) bent(quantities []modeQuantity) bool {
	for i, q := range quantities {
		if _, ok := q.read(&s.nominal); ok && s.bends(s.straight(Result{}, q, i), i) {
			return true
		}
	}
	return false
}

func (s *modeSpread) bends(r Result, i int) bool {
	if s.broken[i] || r.Low == nil {
		return true
	}
	if len(s.draws[i]) == 0 {
		return true
	}
	low, high := statistic.Quantile(s.draws[i], 0.025), statistic.Quantile(s.draws[i], 0.975)
	half := (*r.High - *r.Low) / 2
	return math.Max(math.Abs(low-*r.Low), math.Abs(high-*r.High)) > bendAllowed*half+1e-12
}

// result words and bounds one quantity.
func (s *modeSpread) result(r Result, q modeQuantity, i int) Result {
	other := 1 - float64(len(s.draws[i]))/float64(s.drawn)
	if _, ok := q.read(&s.nominal); !ok {
		why := q.words + " not determined, because the values as measured do not show it"
		for _, note := range s.nominal.Notes {
			why += "; " + note
		}
		return undetermined(r, fmt.Sprintf("%s; within the errors it shows in %.0f %% of draws", why, 100*(1-other)))
	}
	r = s.straight(r, q, i)
	if r.State == NotDetermined {
		return r
	}
	if s.bends(r, i) {
		r = s.fromDraws(r, i)
	}
	switch {
	case other > tooMany:
		r = weaken(r, fmt.Sprintf("%s: within the errors it takes another character, without swinging or merged with another motion, in %.0f %% of draws; "+
			"the interval is that of the others", q.words, 100*other))
	case other > worthTelling:
		r.Warnings = append(r.Warnings, fmt.Sprintf("%s: within the errors it takes another character in %.1f %% of draws", q.words, 100*other))
	}
	return r
}

// fromDraws takes the interval from the draws. The standard deviation stays that of straight lines where those exist.
func (s *modeSpread) fromDraws(r Result, i int) Result {
	if len(s.draws[i]) == 0 {
		return undetermined(r, "no draw from the errors shows the motion")
	}
	low, high := statistic.Quantile(s.draws[i], 0.025), statistic.Quantile(s.draws[i], 0.975)
	r.Low, r.High = &low, &high
	if s.broken[i] {
		own := math.Max(0, (high-low)/(2*statistic.Normal975))
		r.SDOwn, r.SD, r.Common = &own, &own, map[string]float64{}
	}
	r.Warnings = append(r.Warnings, "errors are too large for straight lines; the interval comes from draws")
	return r
}
