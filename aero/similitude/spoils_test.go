package similitude

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A departure is clear when it lies outside 1.96 standard deviations of what the weighing could be wrong by.
func TestDeparturesCarryTheDoubtOfTheWeighing(t *testing.T) {
	full := FullSize{Mass: 960, Iy: 1840, Iz: 2880, Ixz: 40, CG: &Place{X: 3.64, Z: 0.2}, MeanChord: 1.2}
	w := Weighed{Mass: 15.3, MassSD: 0.1, Iy: 1.85, IySD: 0.05, Iz: 2.7, Ixz: 0.1, CG: &Place{X: 0.916, Z: 0.06}, ZKnown: true, XSD: 0.001, ZSD: 0.01}
	s, err := NewSheet(0.25, full, 0, 0, &w)
	require.NoError(t, err)
	mass, iy, ixz := s.Rows[0], s.Rows[1], s.Rows[3]
	require.InDelta(t, 2, *mass.Departure, 1e-9)
	require.InDelta(t, 100*0.1/15, *mass.DepartureSD, 1e-9)
	require.True(t, *mass.Clear, "2 %% over 1.96 × 0.667 %%")
	require.InDelta(t, 100*(1.85/1.796875-1), *iy.Departure, 1e-9)
	require.False(t, *iy.Clear, "2.96 %% under 1.96 × 2.78 %%")
	require.Equal(t, "Ixz", ixz.Quantity)
	require.InDelta(t, 100*(0.1-0.0390625)/2.8125, *ixz.Departure, 1e-9, "in percent of Iz")

	x, z := s.CG[0], s.CG[1]
	require.InDelta(t, 0.91, x.Target, 1e-12)
	require.InDelta(t, 0.006, *x.Departure, 1e-12)
	require.InDelta(t, 2, *x.OfChord, 1e-9, "6 mm of 300 mm")
	require.True(t, *x.Clear)
	require.False(t, *z.Clear, "10 mm under 1.96 × 10 mm")
	require.Contains(t, x.Spoils, "static margin is 2.0 % of the chord smaller")
}

func TestWhatADepartureSpoils(t *testing.T) {
	for _, c := range []struct {
		got, want string
	}{
		{Spoils("Iz", -10), "Dutch roll takes 5.1 % shorter"}, // √0.9 = 0.9487
		{Spoils("Iz", 10), "Dutch roll takes 4.9 % longer"},   // √1.1 = 1.0488
		{Spoils("Ix", 10), "roll time constant is 10.0 % longer"},
		{Spoils("mass", 10), "flies 4.9 % faster"},
		{Spoils("Ixz", 5), "roll and yaw mix"},
		{Spoils("Ix", 1.9), "nothing that matters"},
		{SpoilsCG("cg_x", 0.003, 0.3), "1.0 % of the chord smaller"},
		{SpoilsCG("cg_x", -0.003, 0.3), "1.0 % of the chord larger"},
		{SpoilsCG("cg_x", 0.001, 0.3), "nothing that matters"},
		{SpoilsCG("cg_x", 0.003, 0), "neutral point stays valid"},
		{SpoilsCG("cg_z", 0.012, 0.3), "turns the nose further up"}, // the thrust line lies lower against the CG
		{SpoilsCG("cg_z", -0.012, 0.3), "turns the nose further down"},
		{SpoilsCG("cg_z", 0.005, 0.3), "nothing that matters"},
	} {
		require.Contains(t, c.got, c.want)
	}
}
