package identify

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog/rehearse"
)

// Without vanes gusts flatten the slopes. In calm air the standard deviation holds it; in a breeze the slope is refused, in words.
func TestGustsFlattenSlopes(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	setup := setupOf(ac)
	want := truths(ac, setup)
	fly := func(w rehearse.Weather, seed uint64) Fit {
		f := flownCards(t, ac, inputCards(ac, "elevator", 0.05), w, rehearse.DefaultInstruments(), seed)
		segments := f.withoutVanes(f.segments())
		for i := range segments {
			segments[i].Gusts = w.Turbulence * w.WindSpeed
		}
		fit, err := EquationError(segments, Longitudinal, setup)
		require.NoError(t, err)
		return fit
	}
	tallies := make([]tally, 6)
	var names []string
	for seed := range uint64(16) {
		fit := fly(rehearse.DefaultWeather(), 1+seed)
		names = nil
		for i, d := range fit.Derivatives {
			tallies[i].add(d.Value, d.SD, want[d.Quantity])
			names = append(names, d.Quantity)
			if i == 0 || i >= 3 { // the small effects on lift drown
				require.True(t, d.Determined, d.Why)
			}
		}
	}
	for i, name := range names {
		mean, sd, covered, bias, width := tallies[i].figures()
		t.Logf("%-20s bias %7.3f sd %6.3f (value − truth)/sd %5.2f ± %4.2f covered %3.0f %%", name, bias, width, mean, sd, 100*covered)
		require.GreaterOrEqual(t, covered, 0.75, name)
	}
	for seed := range uint64(4) {
		fit := fly(gusty(), 1+seed)
		for _, at := range []int{0, 3} {
			d := fit.Derivatives[at]
			require.False(t, d.Determined, "%s %g ± %g", d.Quantity, d.Value, d.SD)
			require.Contains(t, d.Why, "gusts hide too much of the angle of attack")
		}
	}
}
