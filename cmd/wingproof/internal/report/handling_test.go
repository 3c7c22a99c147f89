package report

import (
	"io"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/evidence"
)

// fullSizeMotions are invented: Dutch roll ζω = 0.05·2 = 0.1 is below the 0.15 of Level 1 and ζ 0.05 below 0.08; control anticipation is
// 3²/(4.4/0.4) = 0.818.
func fullSizeMotions() []evidence.Estimate {
	c := "winglet=mid"
	of := func(quantity, unit string, v float64) evidence.Estimate {
		e := estimateOf(c, quantity, unit, evidence.FullSize, evidence.Measured, v, v-0.01, v+0.01)
		e.At.LiftCoefficient = evidence.Pointer(0.4)
		return e
	}
	slope := estimateOf(c, evidence.LiftCurveSlope, "1/rad", evidence.ModelScale, evidence.Measured, 4.4, 4.3, 4.5)
	return []evidence.Estimate{slope, of("short_period_frequency", "rad/s", 3), of("short_period_damping", "1", 0.6), of("phugoid_frequency", "rad/s", 0.2),
		of("phugoid_damping", "1", 0.05), of("dutch_roll_frequency", "rad/s", 2), of("dutch_roll_damping", "1", 0.05), of("roll_time_constant", "s", 0.25), of("spiral_root", "1/s", 0.02)}
}

func TestLevelsOfFullSizeMotions(t *testing.T) {
	all := fullSizeMotions()
	n := handlingNumbers(all, "winglet=mid")
	require.InDelta(t, 9/(4.4/0.4), n.ControlAnticipation, 1e-12)
	require.InDelta(t, 34.657, n.SpiralTimeToDouble, 1e-3, "ln 2/0.02")
	require.Equal(t, "Level 2: Dutch roll", handlingWords(all, "winglet=mid"))
	*all[6].Value = 0.09
	require.Equal(t, "Level 1", handlingWords(all, "winglet=mid"))
	*all[8].Value = -0.02
	require.Equal(t, "Level 1", handlingWords(all, "winglet=mid"), "the spiral dies out")
	*all[7].Value, *all[8].Value = 2, 0.05
	require.Equal(t, "Level 2: roll, spiral", handlingWords(all, "winglet=mid"))
	*all[4].Value = -0.2 // doubles in ln 2/0.04 = 17 s
	require.Equal(t, "worse than Level 3: phugoid", handlingWords(all, "winglet=mid"))
	require.Empty(t, handlingWords(all, "winglet=tall"))
}

// A motion of which one number is missing gets no level: a frequency alone would say Level 1.
func TestLevelsNameWhatIsNotKnown(t *testing.T) {
	all := fullSizeMotions()
	all[6].State, all[6].Value = evidence.NotDetermined, nil
	require.Equal(t, "Level 1 (Dutch roll not known)", handlingWords(all, "winglet=mid"))
	require.Equal(t, "Level 1 (short period, Dutch roll not known)", handlingWords(all[1:], "winglet=mid"), "without a lift slope there is no control anticipation")
}

func TestFitTableShowsLevels(t *testing.T) {
	text := printed(t, func(w io.Writer) error { return FitTable(w, fullSizeMotions(), nil, 0.25, 100) })
	require.Contains(t, text, "MIL-F-8785C Class I, cat. B")
	require.Contains(t, text, "Level 2: Dutch roll")
	model := estimateOf("winglet=mid", evidence.DutchRollFrequency, "rad/s", evidence.ModelScale, evidence.Measured, 4, 3.9, 4.1)
	rows := motionRows(append(fullSizeMotions(), model), "winglet=mid")
	require.NotEmpty(t, rows)
	last := rows[len(rows)-1]
	require.Equal(t, handlingRow, last.Quantity)
	require.Equal(t, "Level 2: Dutch roll", last.FullSize.Text)
}
