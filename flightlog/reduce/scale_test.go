package reduce

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog/identify"
	"wingproof/flightlog/rehearse"
)

// A flight whose tube reads 4 % too much gives, once that is taken off, what the same flight gives with a true tube.
func TestWithoutAirspeedScale(t *testing.T) {
	const scale = 0.04
	for _, s := range []sheet{slowSheets(rehearse.Stall{}, 1)[0], turningSheets(1)[0], inputSheet(3, rehearse.Weather{})} {
		ins := rehearse.DefaultInstruments()
		log := s.fly(t, ins)
		right := s.reduce(t, log)
		for i, q := range log.Quantities() { // the pilot flew by the true one
			if q == "airspeed" {
				for k := range log.Columns[i] {
					log.Columns[i][k] *= 1 + scale
				}
			}
		}
		wrong := s.reduce(t, log)
		got := wrong.WithoutAirspeedScale(scale)
		require.Equal(t, len(right.Segments), len(got.Segments))
		for i, one := range got.Segments {
			for k := range one.Airspeed {
				require.InEpsilon(t, right.Segments[i].Airspeed[k], one.Airspeed[k], 0.002)
			}
			require.NotEqual(t, one.Airspeed[0], wrong.Segments[i].Airspeed[0], "what was given stays as it is")
		}
		for i, p := range got.Stalls {
			require.InEpsilon(t, right.Stalls[i].Lift, p.Lift, 0.015)
			require.InEpsilon(t, right.Stalls[i].Airspeed, p.Airspeed, 0.01)
		}
		same := func(a, b float64) bool { return a-b < 0.2 && b-a < 0.2 }
		for _, p := range got.Slips {
			for _, q := range right.Slips {
				if p.Kept && q.Kept && same(p.Start, q.Start) && same(p.End, q.End) {
					require.InDelta(t, q.SideForce, p.SideForce, 0.002)
					require.InEpsilon(t, q.Lift, p.Lift, 0.01)
				}
			}
		}
		for _, p := range got.Loads {
			for _, q := range right.Loads {
				if p.Kept && q.Kept && same(p.Start, q.Start) && same(p.End, q.End) {
					require.InEpsilon(t, q.Lift, p.Lift, 0.01)
					require.InEpsilon(t, q.LoadFactor, p.LoadFactor, 0.005)
				}
			}
		}
	}
}

// By hand: 2 % less airspeed is 1.02² more lift coefficient.
func TestWithoutAirspeedScaleByHand(t *testing.T) {
	r := Reduction{
		Points:   []TestPoint{{Airspeed: 20.4, Lift: 0.5, DynamicPressure: 254.898}},
		Stalls:   []StallPoint{{Airspeed: 15.3, Lift: 1.25}},
		Segments: []identify.Segment{{Airspeed: []float64{20.4}}},
	}.WithoutAirspeedScale(0.02)
	require.InDelta(t, 20, r.Points[0].Airspeed, 1e-12)
	require.InDelta(t, 0.5202, r.Points[0].Lift, 1e-12)
	require.InDelta(t, 245, r.Points[0].DynamicPressure, 1e-9)
	require.InDelta(t, 15, r.Stalls[0].Airspeed, 1e-12)
	require.InDelta(t, 1.3005, r.Stalls[0].Lift, 1e-12)
	require.InDelta(t, 20, r.Segments[0].Airspeed[0], 1e-12)
}

// What flights lack is told with what to fly; what was dropped counts as lacking.
func TestMissingFlying(t *testing.T) {
	all := MissingFlying(nil)
	require.Len(t, all, 6)
	for _, what := range all {
		require.Contains(t, what, "; fly ")
	}
	whole := Reduction{
		Segments: []identify.Segment{{Control: "elevator"}, {Control: "aileron"}, {Control: "rudder_left"}},
		Slips:    []SlipPoint{{Rudder: 0.1, Kept: true}, {Rudder: -0.1, Kept: true}},
		Loads:    []LoadPoint{{Kept: true}}, Stalls: []StallPoint{{Kept: true}},
	}
	require.Empty(t, MissingFlying([]Reduction{{}, whole}))
	whole.Slips[1].Kept = false
	left := MissingFlying([]Reduction{whole})
	require.Len(t, left, 1)
	require.Contains(t, left[0], "1 and 0 can be used")
}
