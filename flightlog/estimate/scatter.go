package estimate

import (
	"fmt"
	"math"
	"slices"

	"wingproof/flightlog/leastsquares"
	"wingproof/flightlog/statistic"
)

// Scatter is how much flights disagree with one another, estimated over all configurations of a program.
// Every fit takes one; nil means that the configuration's own flights must tell.
type Scatter struct {
	elevator [][]line // one slice for each configuration and power state
	alpha    [][]line
	glides   []glideSet
	slips    [][]Slip
	stalls   stallScatter
	loads    loadScatter

	elevatorSlope, alphaSlope, zeroLiftAlpha component
	draws                                    glideScatter
}

// PoolScatter prepares the points of every configuration of a program (one slice a configuration, in a fixed
// order) for pooling. Within a configuration each power state keeps its own line, so nothing of the shapes is
// pooled, only the scatter about them. Degrees of freedom are flights minus parameters, summed.
func PoolScatter(configurations [][]Point) *Scatter {
	s := &Scatter{}
	for _, points := range configurations {
		for _, power := range powers(points) {
			these := slices.DeleteFunc(slices.Clone(points), func(p Point) bool { return p.Power != power })
			s.elevator = append(s.elevator, prepare(these, elevatorRelation()).lines)
			s.alpha = append(s.alpha, prepare(these, alphaRelation()).lines)
		}
		s.glides = append(s.glides, prepareGlides(points))
	}
	s.elevatorSlope = componentOf(s.elevator, slopeTarget)
	s.alphaSlope = componentOf(s.alpha, slopeTarget)
	s.zeroLiftAlpha = componentOf(s.alpha, valueTarget(0))
	s.glides, s.draws = playDownGlides(s.glides, 0)
	return s
}

// ElevatorSlope is the standard deviation of dδe/dCL between flights beyond what their points explain [rad per
// unit CL], with its degrees of freedom; NaN and 0 where no degree of freedom is left.
func (s *Scatter) ElevatorSlope() (sd, degrees float64) { return s.elevatorSlope.summary() }

// ZeroLiftAlpha is the same for the zero-lift angle of attack [rad].
func (s *Scatter) ZeroLiftAlpha() (sd, degrees float64) { return s.zeroLiftAlpha.summary() }

// orNone is an empty scatter for nil, so that fits need not ask.
func (s *Scatter) orNone() *Scatter {
	if s == nil {
		return &Scatter{}
	}
	return s
}

// componentOf estimates the scatter of a target over configurations.
func componentOf(configurations [][]line, t target) component {
	sigma2, _ := within(configurations)
	var asked [][]number
	for _, lines := range configurations {
		asked = append(asked, numbers(lines, t))
	}
	_, c := playDownNumbers(asked, sigma2)
	return c
}

// regress draws the line in CG through what the flights say, with the pooled scatter where there is one that the
// configuration does not contradict, else with the configuration's own. It returns leastsquares.ErrUndetermined (wrapped, with
// words for what would help) when no degree of freedom is left.
func regress(lines []line, t target, pooled component) (lineInCG, component, []string, error) {
	sigma2, _ := within([][]line{lines})
	return regressNumbers(numbers(lines, t), sigma2, pooled, "two speeds or more")
}

// regressNumbers is regress for numbers that are at hand: sigma2 is the variance inside their flights for k of one, need says what
// each flight must hold.
func regressNumbers(asked []number, sigma2 float64, pooled component, need string) (lineInCG, component, []string, error) {
	asked, used, words := chooseScatter(asked, sigma2, pooled)
	if used.degrees < 1 {
		return lineInCG{}, used, words, notEnough(asked, need)
	}
	l, err := fitInCG(asked, used.variance)
	if err != nil {
		return lineInCG{}, used, words, err
	}
	l.covariance = leastsquares.Scaled(l.unscaled, used.factor)
	return l, used, words, nil
}

// chooseScatter plays wild flights down and prefers the pool unless the configuration's residuals exceed it at the 99 % level.
func chooseScatter(asked []number, sigma2 float64, pooled component) ([]number, component, []string) {
	marked, own := playDownNumbers([][]number{asked}, sigma2)
	if pooled.degrees < 1 || pooled.degrees <= own.degrees {
		return marked[0], own, wildWords(marked[0])
	}
	under, few := playDownUnder(asked, pooled)
	l, err := fitInCG(under, pooled.variance)
	if err != nil || l.degrees < 1 || pooled.factor == 0 {
		return under, pooled, wildWords(under)
	}
	ratio := l.chiSquare / l.degrees / pooled.factor
	if !few || ratio > statistic.FisherQuantile(l.degrees, pooled.degrees) {
		return marked[0], own, append(wildWords(marked[0]), ownScatterWords(math.Sqrt(ratio)))
	}
	return under, pooled, wildWords(under)
}

// notEnough says how many flights would give a degree of freedom.
func notEnough(asked []number, need string) error {
	parameters := 2
	if len(asked) > 0 && oneCG(asked) {
		parameters = 1
	}
	if twoLevels(asked) {
		parameters++
	}
	missing := max(1, parameters+1-len(asked))
	return inWords(fmt.Sprintf("%s with %s cannot tell how much flights differ by chance: fly %s more, or other configurations, whose scatter is shared",
		count(len(asked), "flight"), need, count(missing, "flight")))
}

// inWords is leastsquares.ErrUndetermined in words for the crew.
type inWords string

func (w inWords) Error() string { return string(w) }

// Unwrap names the kind of error.
func (w inWords) Unwrap() error { return leastsquares.ErrUndetermined }

func (c component) summary() (sd, degrees float64) {
	if c.degrees < 1 {
		return math.NaN(), 0
	}
	return math.Sqrt(c.between * c.factor), c.degrees
}
