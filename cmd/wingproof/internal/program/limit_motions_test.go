package program

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/evidence"
)

const inertias = `ix_kg_m2 = { value = 900, sd = 90, status = "estimated", source = "drawing weights" }
iy_kg_m2 = { value = 1100, sd = 90, status = "estimated", source = "drawing weights" }
iz_kg_m2 = { value = 1900, sd = 90, status = "estimated", source = "drawing weights" }
`

// withMotionLimit is the sound folder with inertias and one more limit.
func withMotionLimit(t *testing.T, quantity, bound string) map[string]string {
	t.Helper()
	files := sandreed()
	change(t, files, "program.toml", "limit_load_factor = 3.8\n", "limit_load_factor = 3.8\n"+inertias)
	change(t, files, "program.toml", "[[limit]]\nname = \"tip-back\"",
		"[[limit]]\nname = \"motion\"\nquantity = \""+quantity+"\"\n"+bound+"\nevidence = \"analysis\"\nsource = \"MIL-F-8785C, from memory\"\n\n[[limit]]\nname = \"tip-back\"")
	return files
}

func TestLimitsOnMotionsCarryTheirUnit(t *testing.T) {
	for _, one := range []struct {
		quantity, bound string
		most            bool
		want            float64
	}{
		{evidence.ShortPeriodDamping, "at_least = 0.3", false, 0.3},
		{evidence.PhugoidDamping, "at_least = 0.04", false, 0.04},
		{evidence.PhugoidDamping, "at_least = 0", false, 0},
		{evidence.DutchRollDamping, "at_least = 0.08", false, 0.08},
		{evidence.ControlAnticipation, "at_least_rad_s2_per_g = 0.085", false, 0.085},
		{evidence.ControlAnticipation, "at_most_deg_s2_per_g = 180", true, 3.141592653589793},
		{evidence.DutchRollFrequency, "at_least_rad_s = 0.4", false, 0.4},
		{evidence.DutchRollFrequency, "at_least_deg_s = 90", false, 1.5707963267948966},
		{evidence.RollTimeConstant, "at_most_s = 1.4", true, 1.4},
		{evidence.RollTimeConstant, "at_most_ms = 1400", true, 1.4},
		{evidence.SpiralTimeToDouble, "at_least_s = 20", false, 20},
	} {
		p, err := Load(build(t, withMotionLimit(t, one.quantity, one.bound)))
		require.NoError(t, err, one.bound)
		for _, l := range p.Limits {
			if l.Name != "motion" {
				continue
			}
			got := l.AtLeast
			if one.most {
				got = l.AtMost
			}
			require.NotNil(t, got, one.bound)
			require.InDelta(t, one.want, *got, 1e-12, one.bound)
		}
	}
}

func TestMistakesInLimitsOnMotions(t *testing.T) {
	roll := func() map[string]string { return withMotionLimit(t, evidence.RollTimeConstant, "at_most_s = 1.4") }
	for _, s := range []slip{
		{"no unit", "program.toml", "at_most_s = 1.4", "‸at_most = 1.4", `"at_most" does not say its unit; write at_most_s; units of time are h, min, ms, s, us`},
		{"another unit", "program.toml", "at_most_s = 1.4", "‸at_most_deg = 1.4", `the unit of "at_most_deg" is not one of time; write at_most_s; units of time are h, min, ms, s, us`},
		{"no time at all", "program.toml", "at_most_s = 1.4", "at_most_s = ‸0", `at_most_s = 0 is out of range; write more than 0 and at most 1000 s`},
	} {
		requireSlipIn(t, roll(), s)
	}
	files := roll()
	change(t, files, "program.toml", inertias, "")
	_, err := Load(build(t, files))
	require.ErrorContains(t, err, `limit "motion" on roll_time_constant needs the moments of inertia at full size, since motions follow from them; add ix_kg_m2, iy_kg_m2 and iz_kg_m2 to [full_size]`)
	files = withMotionLimit(t, evidence.DutchRollDamping, "at_least_s = 0.08")
	_, err = Load(build(t, files))
	require.ErrorContains(t, err, `"at_least_s" carries a unit, but it is a plain number; write at_least`)
}

// The derivatives' model errors may be overridden like those of other quantities.
func TestTheoryErrorsOfDerivatives(t *testing.T) {
	for _, quantity := range []string{evidence.PitchDamping, evidence.SideForceSlope, evidence.DihedralEffect, evidence.RollDamping,
		evidence.YawDamping, evidence.YawDueToRoll, evidence.RollDueToYaw} {
		require.Contains(t, theoryQuantities(), quantity)
	}
}
