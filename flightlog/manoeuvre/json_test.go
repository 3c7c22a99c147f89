package manoeuvre_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"
)

// Every number says its unit where it is written.
func TestWritten(t *testing.T) {
	text, err := json.Marshal(manoeuvre.Manoeuvre{
		Kind: manoeuvre.Doublet, Control: flightlog.Elevator, Start: 1, End: 6, Airspeed: 22, Bank: 0.01, Turned: 0.02,
		Size: 0.05, Amplitudes: []float64{0.05, -0.05}, Widths: []float64{0.5, 0.6}, HandsOff: 3.9,
		Slowing: 1, Lowest: 14, Break: 5, Detail: "in words",
	})
	require.NoError(t, err)
	require.JSONEq(t, `{"kind": "doublet", "control": "elevator", "start_s": 1, "end_s": 6, "airspeed_m_s": 22, "bank_rad": 0.01,
		"turned_rad": 0.02, "size_rad": 0.05, "amplitudes_rad": [0.05, -0.05], "widths_s": [0.5, 0.6], "hands_off_s": 3.9,
		"slowing_m_s2": 1, "lowest_airspeed_m_s": 14, "break_s": 5, "detail": "in words"}`, string(text))
}
