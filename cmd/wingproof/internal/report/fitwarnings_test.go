package report

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/evidence"
)

// What nobody measured is asked for once, with every number that waits for it, and not again as the reason of each flight.
func TestWhatIsWantingIsSaidOnce(t *testing.T) {
	const why = "the moment of inertia in pitch was not measured: swing the model"
	of := func(quantity, words string) evidence.Estimate {
		return evidence.Estimate{Quantity: quantity, Warnings: []string{
			"left out of " + words + ": flights F01 and F02: " + why,
			"no flight determines " + words + ": " + why + "; until then more flights do not help",
		}}
	}
	other := evidence.Estimate{Quantity: "side_force_slope", Warnings: []string{
		"left out of side force slope: flight F03: the rudder stuck", "no flight determines side force slope; fly rudder doublets", "it came out as -0.2"}}
	require.Equal(t, []string{
		"no flight determines pitch stiffness and pitch damping: " + why + "; until then more flights do not help",
		"side force slope CY_β: left out of side force slope: flight F03: the rudder stuck",
		"side force slope CY_β: no flight determines side force slope; fly rudder doublets",
		"side force slope CY_β: it came out as −0.2",
	}, warningLines([]evidence.Estimate{of("pitch_stiffness", "pitch stiffness"), of("pitch_damping", "pitch damping"), other}))
}
