package response

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/stability"
	"wingproof/flightlog/statistic"
)

// tally counts how estimates depart from the truth.
type tally struct {
	frequency, damping []float64 // relative, and absolute
	z, zDamping        []float64
	sd, sdDamping      []float64
	not                int
}

func (s *tally) add(m Mode, truth *stability.Oscillation) {
	if !m.Determined {
		s.not++
		return
	}
	s.frequency = append(s.frequency, m.Frequency/truth.Frequency-1)
	s.damping = append(s.damping, m.Damping-truth.Damping)
	s.z = append(s.z, (m.Frequency-truth.Frequency)/m.FrequencySD)
	s.zDamping = append(s.zDamping, (m.Damping-truth.Damping)/m.DampingSD)
	s.sd = append(s.sd, m.FrequencySD/m.Frequency)
	s.sdDamping = append(s.sdDamping, m.DampingSD)
}

// covered is the share within 1.96 standard deviations.
func covered(z []float64) float64 {
	n := 0.0
	for _, v := range z {
		if math.Abs(v) <= statistic.Normal975 {
			n++
		}
	}
	return n / float64(len(z))
}

func meanSD(v []float64) (mean, sd float64) {
	mean = meanOf(v)
	for _, x := range v {
		sd += (x - mean) * (x - mean) / float64(len(v)-1)
	}
	return mean, math.Sqrt(sd)
}

func (s *tally) words() string {
	bf, sf := meanSD(s.frequency)
	bd, sd := meanSD(s.damping)
	return fmt.Sprintf("%d, not %d | frequency bias %+.2f %% sd %.2f %% (stated %.2f %%) cover %.3f | damping bias %+.4f sd %.4f (stated %.4f) cover %.3f",
		len(s.z), s.not, 100*bf, 100*sf, 100*statistic.Median(s.sd), covered(s.z), bd, sd, statistic.Median(s.sdDamping), covered(s.zDamping))
}

// requireHonest asks that intervals of 95 % hold nine times in ten at least, within what chance does to so many, and that neither number is
// biased by more than a third of its own scatter, chance added. Over long runs frequency comes to 92 %, damping to 94 %: one stretch tells the
// strength of its gusts from a few swings only. Whoever pools flights takes the scatter between them as well.
func (s *tally) requireHonest(t *testing.T) {
	t.Helper()
	n := float64(len(s.z))
	require.GreaterOrEqual(t, n, float64(s.not), "most must be determined")
	slack := 2.6 * math.Sqrt(0.95*0.05/n)
	require.GreaterOrEqual(t, covered(s.z), 0.9-slack)
	require.GreaterOrEqual(t, covered(s.zDamping), 0.9-slack)
	for _, v := range [][]float64{s.frequency, s.damping} {
		bias, sd := meanSD(v)
		require.Less(t, math.Abs(bias), sd*(1.0/3+2.6/math.Sqrt(n)))
	}
	_, scatter := meanSD(s.frequency)
	require.Less(t, statistic.Median(s.sd), 2*scatter, "nor are intervals bought by width")
}
