package lattice

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero"
)

// TestForeplaneAircraft compares nine combinations of winglet and foreplane of an invented aircraft
// with an independent program of the same theory, extrapolated to zero panel size
// (testdata/canard-truth.json), at the default density.
//
// Tolerances are relative, neutral points in chords; a few quantities near zero are absolute.
func TestForeplaneAircraft(t *testing.T) {
	tolerance := map[string]float64{
		"lift_curve_slope": 0.003, "neutral_point_m": 0.002, "induced_drag_far": 0.01,
		"lift_due_to_pitch_rate": 0.01, "pitch_damping": 0.005, "span_efficiency_far": 0.01,
		"side_force_slope": 0.02, "directional_stiffness": 0.02, "dihedral_effect": 0.02, "roll_damping": 0.02,
		"yaw_damping": 0.02, "yaw_due_to_roll": 0.02, "roll_due_to_yaw": 0.02,
		"root_bending_coefficient": 0.005, "root_bending_moment": 0.005, "lift_far": 0.001,
		"CL": 0.01, "alpha": 0.005, "pitch_due_to_foreplane_incidence": 0.005, "lift_due_to_foreplane_incidence": 0.02,
	}
	absolute := map[string]float64{"Cm": 0.003, "pitch_stiffness": 0.009} // of the moment coefficient itself
	var c caseFile
	var all truthFile
	readJSON(t, "canard-case.json", &c)
	readJSON(t, "canard-truth.json", &all)
	require.Len(t, all.Combinations, 9)
	for _, k := range all.Combinations {
		t.Run(k.Winglet+" "+k.Foreplane, func(t *testing.T) {
			s, err := Solve(c.airframe(k.Winglet, k.Foreplane), Options{})
			require.NoError(t, err)
			require.Empty(t, s.Warnings())
			got := c.computed(t, s)
			compared := 0
			for name, v := range got {
				want, ok := k.Quantities[name]
				if !ok || name == "root_bending_share_of_winglet_at_CL0.5" { // converges too slowly in both programs
					continue
				}
				compared++
				allowed := longestPrefix(tolerance, name) * math.Abs(want.Value)
				switch {
				case allowed == 0:
					allowed = longestPrefix(absolute, name)
				case name[:7] == "neutral":
					allowed = tolerance["neutral_point_m"] * c.Reference.Chord
				}
				require.InDelta(t, want.Value, v, allowed, name)
			}
			require.Equal(t, len(k.Quantities)-2, compared) // all but near-field drag and the winglet's share
			compareSections(t, k, s, got["alpha_at_CL0.5_rad"])
		})
	}
}

// longestPrefix looks a name up by the longest key that begins it.
func longestPrefix(table map[string]float64, name string) float64 {
	for n := len(name); n > 0; n-- {
		if v, ok := table[name[:n]]; ok {
			return v
		}
	}
	return 0
}

// compareSections checks section lift at CL 0.5 within 0.01.
func compareSections(t *testing.T, k truth, s *Solution, alpha float64) {
	t.Helper()
	strips := s.Strips(State{Alpha: alpha})
	for surface, list := range k.SectionCl {
		for _, want := range list {
			got, ok := sectionLift(strips, surface, want.Y, want.Z)
			if ok {
				require.InDelta(t, want.Cl, got, 0.01, "%s at %.2f of its span", surface, want.Fraction)
			}
		}
	}
}

// sectionLift interpolates between strip middles, along z on a winglet and along y elsewhere.
func sectionLift(strips []aero.StripLoad, surface string, y, z float64) (float64, bool) {
	place := func(s aero.StripLoad) float64 {
		if surface == "winglet" {
			return s.Centre.Z
		}
		return s.Centre.Y
	}
	at := y
	if surface == "winglet" {
		at = z
	}
	for i := 1; i < len(strips); i++ {
		a, b := strips[i-1], strips[i]
		if a.Surface == surface && b.Surface == surface && place(a) <= at && at <= place(b) {
			return a.SectionLift + (b.SectionLift-a.SectionLift)*(at-place(a))/(place(b)-place(a)), true
		}
	}
	return 0, false
}
