package decide

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"

	"wingproof/cmd/wingproof/internal/evidence"
)

// near holds a number against a hand-worked one: half of the last digit written.
func near(t *testing.T, got, want, tolerance float64, source string) {
	t.Helper()
	require.InDeltaf(t, want, got, tolerance, "%s: %g, got %g (%.1f digits agree)", source, want, got, -math.Log10(math.Abs(got/want-1)+1e-17))
}

// twoWinglets is a space with one choice of two levels and one predicted quantity or more.
func twoWinglets(t *testing.T, values map[string]float64, errors []TheoryError) *theory {
	t.Helper()
	p := Problem{Choices: []Choice{{Name: "winglet", Levels: []string{"small", "tall"}}}}
	for _, level := range []string{"small", "tall"} {
		p.Predictions = append(p.Predictions, Prediction{Levels: map[string]string{"winglet": level}, Values: values})
	}
	s, err := newSpace(p)
	require.NoError(t, err)
	th, err := newTheory(s, errors, nil)
	require.NoError(t, err)
	return th
}

func anchored(t *testing.T, th *theory, slopes []TrimSlopes, direct []Direct) *belief {
	t.Helper()
	o, err := newObservations(th, slopes, direct)
	require.NoError(t, err)
	b, err := anchor(th, o)
	require.NoError(t, err)
	return b
}

var (
	smallWinglet = map[string]string{"winglet": "small"}
	tallWinglet  = map[string]string{"winglet": "tall"}
)

// By hand: bias sd 0.15 and measurement sd 0.20 have precisions 44.444 and 25; the mean is
// (5.0·44.444 + 5.2·25)/69.444 = 5.072, the sd 1/√69.444 = 0.12. The other level shares the bias in full.
func TestAnchorBiasByHand(t *testing.T) {
	th := twoWinglets(t, map[string]float64{evidence.LiftCurveSlope: 5}, []TheoryError{{Quantity: evidence.LiftCurveSlope, Relative: true, Bias: 0.03}})
	b := anchored(t, th, nil, []Direct{{Levels: smallWinglet, Quantity: evidence.LiftCurveSlope, Value: 5.2, SDOwn: 0.2, Degrees: math.Inf(1)}})
	for c := range 2 {
		near(t, b.mean[0][c], 5.072, 1e-9, "normal update by hand")
		near(t, b.sd(0, c), 0.12, 1e-9, "normal update by hand")
	}
}

// By hand: bias variance 0.09, level variance 0.16, noise variance 0.25. Flown: gain 0.25/0.5 = 0.5, so
// mean +0.1 of an innovation of 0.2, variance 0.25 − 0.125. Not flown: gain 0.09/0.5 = 0.18, mean +0.036,
// variance 0.25 − 0.0081/0.5 = 0.2338.
func TestAnchorTeachesOtherLevelByHand(t *testing.T) {
	th := twoWinglets(t, map[string]float64{evidence.LiftCurveSlope: 5}, []TheoryError{{Quantity: evidence.LiftCurveSlope, Bias: 0.3, Level: map[string]float64{"winglet": 0.4}}})
	b := anchored(t, th, nil, []Direct{{Levels: smallWinglet, Quantity: evidence.LiftCurveSlope, Value: 5.2, SDOwn: 0.5, Degrees: math.Inf(1)}})
	near(t, b.mean[0][0], 5.1, 1e-9, "flown level by hand")
	near(t, b.sd(0, 0), math.Sqrt(0.125), 1e-9, "flown level by hand")
	near(t, b.mean[0][1], 5.036, 1e-9, "other level by hand")
	near(t, b.sd(0, 1), math.Sqrt(0.2338), 1e-9, "other level by hand")
}

// By hand: both levels measured with own sd 0.1 and one shared source of sd 0.3. The difference does not
// see the source: prior variance 2·0.16, noise 2·0.01, posterior 0.32·0.02/0.34 = 0.0188235. The mean of
// both does: prior 0.09 + 0.08, noise 0.09 + 0.005, posterior 0.17·0.095/0.265 = 0.0609434.
func TestAnchorSharedSourceByHand(t *testing.T) {
	th := twoWinglets(t, map[string]float64{evidence.LiftCurveSlope: 5}, []TheoryError{{Quantity: evidence.LiftCurveSlope, Bias: 0.3, Level: map[string]float64{"winglet": 0.4}}})
	measured := func(levels map[string]string, value float64) Direct {
		return Direct{Levels: levels, Quantity: evidence.LiftCurveSlope, Value: value, SDOwn: 0.1, Degrees: math.Inf(1), Common: map[string]float64{"airspeed": 0.3}}
	}
	b := anchored(t, th, nil, []Direct{measured(smallWinglet, 5.1), measured(tallWinglet, 5.3)})
	v, w := b.covariance(0, 0, 0, 0), b.covariance(0, 0, 0, 1)
	near(t, 2*v-2*w, 0.0188235, 5e-8, "difference by hand")
	near(t, (v+w)/2, 0.0609434, 5e-8, "mean by hand")
}

// By hand: with the rate known, a slope at one CG is a linear measurement of the neutral point with sd
// 0.007/0.35 = 0.02. Prior 4.30 ± 0.03, measured 4.32: precisions 1111.11 and 2500, mean 4.313846,
// sd 0.0166410.
func TestAnchorTrimSlopeByHand(t *testing.T) {
	th := twoWinglets(t, map[string]float64{evidence.NeutralPoint: 4.3, evidence.ElevatorTrimRate: testRate},
		[]TheoryError{{Quantity: evidence.NeutralPoint, Bias: 0.03}, {Quantity: evidence.ElevatorTrimRate}})
	b := anchored(t, th, []TrimSlopes{slopesAt(smallWinglet, 4.32, testRate, 0.007, []float64{4.1}, "one")}, nil)
	q := th.quantity(evidence.NeutralPoint)
	near(t, b.mean[q][0], 4.313846, 5e-7, "normal update by hand")
	near(t, b.sd(q, 0), 0.0166410, 5e-8, "normal update by hand")
}

// Student's t at 97.5 % over the normal 1.959964; t as printed in tables of percentage points.
func TestFewDegreesWiden(t *testing.T) {
	for _, row := range []struct{ degrees, student float64 }{{1, 12.706205}, {2, 4.302653}, {5, 2.570582}, {10, 2.228139}, {30, 2.042272}} {
		near(t, widening(row.degrees), row.student/1.959964, 2e-6, "table of Student's t")
	}
	require.Equal(t, widening(1), widening(0), "below one degree counts as one")
	require.Equal(t, 1.0, widening(math.Inf(1)))
}

// reference is the posterior by weighting a great many prior draws with the likelihood: no linearisation.
type reference struct{ mean, sd []float64 }

func weighted(th *theory, o *observations, n int) reference {
	d := newDrawer(newStreams(99, n), &belief{theory: th, observed: &observations{}, mean: th.mean})
	prior := make([][][]float64, len(th.quantities))
	for q := range prior {
		for c := range th.space.configs {
			prior[q] = append(prior[q], d.prior(q, c))
		}
	}
	weights := make([]float64, n)
	for i := range weights {
		weights[i] = likelihood(o, func(q, c int) float64 { return prior[q][c][i] })
	}
	var r reference
	for q := range prior {
		for c := range prior[q] {
			mean, variance := stat.MeanVariance(prior[q][c], weights)
			r.mean, r.sd = append(r.mean, mean), append(r.sd, math.Sqrt(variance))
		}
	}
	return r
}

// likelihood of independent slopes and measurements under one state of the world.
func likelihood(o *observations, truth func(q, c int) float64) float64 {
	sum := 0.0
	for j, row := range o.rows {
		expected := 0.0
		if row.trim {
			expected = truth(o.rate, row.config) * (row.cg - truth(o.neutral, row.config))
		} else {
			expected = truth(row.quantity, row.config)
		}
		sum += (row.value - expected) * (row.value - expected) / o.noise.At(j, j)
	}
	return math.Exp(-sum / 2)
}

// Closed form and brute force must agree within the curvature that the linearisation leaves out: a
// twentieth of the sd in the mean and a twentieth of the sd itself.
func TestClosedFormAgainstBruteForce(t *testing.T) {
	values := map[string]float64{evidence.NeutralPoint: 4.3, evidence.ElevatorTrimRate: testRate, evidence.LiftCurveSlope: 5}
	errors := []TheoryError{
		{Quantity: evidence.NeutralPoint, Bias: 0.024, Level: map[string]float64{"winglet": 0.010}, Interaction: 0.003},
		{Quantity: evidence.ElevatorTrimRate, Relative: true, Bias: 0.15, Level: map[string]float64{"winglet": 0.02}},
		{Quantity: evidence.LiftCurveSlope, Relative: true, Bias: 0.03},
	}
	cases := map[string][]TrimSlopes{
		"one CG":    {slopesAt(smallWinglet, 4.315, -0.37, 0.006, []float64{4.1}, "a")},
		"two CGs":   {slopesAt(smallWinglet, 4.315, -0.37, 0.006, []float64{4.0, 4.2}, "a", "b")},
		"two sizes": {slopesAt(smallWinglet, 4.29, -0.32, 0.008, []float64{4.0, 4.2}, "a", "b"), slopesAt(tallWinglet, 4.31, -0.32, 0.008, []float64{4.1}, "c")},
	}
	for name, slopes := range cases {
		t.Run(name, func(t *testing.T) {
			th := twoWinglets(t, values, errors)
			b := anchored(t, th, slopes, []Direct{{Levels: tallWinglet, Quantity: evidence.LiftCurveSlope, Value: 4.9, SDOwn: 0.1, Degrees: math.Inf(1)}})
			want := weighted(th, b.observed, 400000)
			for q := range th.quantities {
				for c := range 2 {
					i := b.at(q, c)
					label := fmt.Sprintf("%s, configuration %d", th.quantities[q], c)
					require.InDelta(t, want.mean[i], b.mean[q][c], want.sd[i]/20, label)
					require.InEpsilon(t, want.sd[i], b.sd(q, c), 0.05, label)
				}
			}
		})
	}
}

// Draws must have the mean and the covariance of the closed form, correlations of quantities, shared
// sources and full-size errors included.
func TestDrawsHaveClosedFormMoments(t *testing.T) {
	p := testProblem()
	p.Correlations = []Correlation{{A: evidence.NeutralPoint, B: evidence.LiftCurveSlope, Rho: 0.5}}
	s, err := newSpace(p)
	require.NoError(t, err)
	th, err := newTheory(s, p.Errors, p.Correlations)
	require.NoError(t, err)
	slopes := slopesAt(levelsOf("winglet=mid foreplane=long"), 4.17, -0.36, 0.004, []float64{3.95, 4.05}, "a", "b")
	slopes.Common = map[string][]float64{"elevator scale": {0.002, 0.001}}
	b := anchored(t, th, []TrimSlopes{slopes}, nil)
	d := newDrawer(newStreams(5, 40000), b)
	np, lift := th.quantity(evidence.NeutralPoint), th.quantity(evidence.LiftCurveSlope)
	pairs := [][4]int{{np, 0, np, 0}, {np, 3, np, 3}, {np, 0, np, 3}, {np, 3, lift, 3}, {np, 1, lift, 4}}
	for _, k := range pairs {
		x, y := d.model(k[0], k[1]), d.model(k[2], k[3])
		sx, sy := b.sd(k[0], k[1]), b.sd(k[2], k[3])
		require.InDelta(t, b.mean[k[0]][k[1]], stat.Mean(x, nil), 4*sx/200, "mean, four standard errors")
		require.InDelta(t, b.covariance(k[0], k[1], k[2], k[3]), stat.Covariance(x, y, nil), 4*sx*sy*math.Sqrt2/200, "covariance, four standard errors")
	}
	require.InEpsilon(t, b.fullSD(np, 2), stat.StdDev(d.full(np, 2), nil), 0.015, "full size, four standard errors")
}

// Slopes flown under power are looser than slopes flown at idle, and level power less so than full.
func TestPowerLoosensTrimSlopes(t *testing.T) {
	p := testProblem()
	s, err := newSpace(p)
	require.NoError(t, err)
	th, err := newTheory(s, p.Errors, nil)
	require.NoError(t, err)
	sd := map[string]float64{}
	for _, power := range []string{"idle", "level", "full"} {
		slopes := slopesAt(levelsOf("winglet=mid foreplane=long"), 4.16, testRate, 0.002, []float64{3.95, 4.05}, "a")
		slopes.Power = power
		sd[power] = anchored(t, th, []TrimSlopes{slopes}, nil).sd(th.quantity(evidence.NeutralPoint), 3)
	}
	require.Less(t, sd["idle"], sd["level"])
	require.Less(t, sd["level"], sd["full"])
}

func TestEvidenceThatIsRefused(t *testing.T) {
	th := twoWinglets(t, map[string]float64{evidence.NeutralPoint: 4.3, evidence.ElevatorTrimRate: testRate},
		[]TheoryError{{Quantity: evidence.NeutralPoint, Bias: 0.03}, {Quantity: evidence.ElevatorTrimRate, Bias: 0.03}})
	good := slopesAt(smallWinglet, 4.3, testRate, 0.01, []float64{4.0, 4.1}, "a")
	cases := map[string]func(*TrimSlopes){
		"is no combination":         func(s *TrimSlopes) { s.Levels = levelsOf("winglet=huge") },
		"give as many of each":      func(s *TrimSlopes) { s.CG = s.CG[:1] },
		"not symmetric":             func(s *TrimSlopes) { s.Covariance = [][]float64{{1, 0.5}, {0, 1}} },
		"not positive semidefinite": func(s *TrimSlopes) { s.Covariance = [][]float64{{1, 2}, {2, 1}} },
		"is not a number":           func(s *TrimSlopes) { s.Slope = []float64{math.NaN(), 0} },
		"are not a number":          func(s *TrimSlopes) { s.Degrees = math.NaN() },
		"has 1 effects":             func(s *TrimSlopes) { s.Common = map[string][]float64{"airspeed": {0.1}} },
	}
	for message, spoil := range cases {
		s := good
		spoil(&s)
		_, err := newObservations(th, []TrimSlopes{s}, nil)
		require.ErrorContains(t, err, message)
	}
	_, err := newObservations(th, nil, []Direct{{Levels: smallWinglet, Quantity: evidence.NeutralPoint, Value: 4.3, SDOwn: 0.01, Degrees: 5}})
	require.ErrorContains(t, err, "hand on the trim slopes")
	o, err := newObservations(th, nil, []Direct{{Levels: smallWinglet, Quantity: evidence.ZeroLiftDrag, Value: 0.02, SDOwn: 0.001, Degrees: 5}})
	require.NoError(t, err)
	require.Len(t, o.unused, 1)
}
