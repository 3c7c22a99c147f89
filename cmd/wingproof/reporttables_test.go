package main

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog/reduce"
)

// A flight that is called after its day, or in a way that reads as a number, is a name in every table; numbers have six digits.
func TestNamesOfFlightsStayWholeInTables(t *testing.T) {
	for _, name := range []string{"20260314", "00000012", "infinity", "1234567e1"} {
		var f study.Flight
		f.Name = name
		f.Reduction.Points = []reduce.TestPoint{{Flight: name, Start: 1234.56789}}
		points := pointTable(&study.Study{Flights: []study.Flight{f}})
		require.Equal(t, []string{"flight", "start_s"}, points.heads[:2])
		require.Equal(t, []string{name, "1234.57"}, points.rows[0][:2])

		value := 0.123456789
		estimates := estimateTable("estimates", "numbers", []evidence.Estimate{{Configuration: name, Flights: []string{name}, Value: &value}})
		cells := map[string]string{}
		for i, head := range estimates.heads {
			cells[head] = estimates.rows[0][i]
		}
		require.Equal(t, name, cells["configuration"])
		require.Equal(t, name, cells["flights"])
		require.Equal(t, "0.123457", cells["value"])
	}
}
