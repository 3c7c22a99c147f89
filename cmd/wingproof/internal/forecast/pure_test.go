package forecast

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero"
	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog"
	"wingproof/flightlog/estimate"
	"wingproof/flightlog/identify"
	"wingproof/flightlog/rehearse"
)

// The aft end yields to the neutral point, and the range stays a tenth of the chord long.
func TestRangeOfCGs(t *testing.T) {
	low, high := bounded(3.5, 3.9, 3.8, 0.15)
	require.Equal(t, [2]float64{3.5, 3.8}, [2]float64{low, high})
	low, high = bounded(3.75, 3.9, 3.8, 0.15)
	require.InDelta(t, 3.65, low, 1e-12)
	require.InDelta(t, 3.8, high, 1e-12)
	require.InDelta(t, 0.1, nearest(3.6, []float64{3.9, 3.7}), 1e-12)
	require.True(t, math.IsInf(nearest(3.6, nil), 1))
}

// A recording of 49.6 and 10 and 4 samples a second is flown at 50, 10 and 50/13.
func TestRatesOfARecording(t *testing.T) {
	every := func(step float64) flightlog.Channel {
		var c flightlog.Channel
		for i := range 50 {
			c.Time, c.Value = append(c.Time, float64(i)*step), append(c.Value, 0)
		}
		return c
	}
	rec := &flightlog.Recording{Channels: map[flightlog.Quantity]flightlog.Channel{
		flightlog.PitchRate: every(1 / 49.6), flightlog.Airspeed: every(0.1), flightlog.GroundSpeed: every(0.25)}}
	r := ratesOf(rec)
	require.InDelta(t, 50, r.fast, 1e-9)
	require.InDelta(t, 10, r.air, 1e-9)
	require.InDelta(t, 50.0/13, r.satellite, 1e-9)
	require.Equal(t, usualRates(), ratesOf(&flightlog.Recording{}), "nothing there")
	rec.Channels[flightlog.PitchRate] = every(0.001)
	require.InDelta(t, fastest, ratesOf(rec).fast, 1e-9)
}

// Common effects of 3 and 4 are 5 together; more flights do not shrink that.
func TestWhatIsShared(t *testing.T) {
	total, sources := sharedBy([]map[string]float64{{"cg": -3, "mass": 4, "none": 0}, {"cg": -3, "mass": 4}})
	require.InDelta(t, 5*evidence.Normal95, *total, 1e-9)
	require.Equal(t, "mass", sources[0].Source)
	require.InDelta(t, 3*evidence.Normal95, sources[1].Half, 1e-9)
	require.Len(t, sources, 2, "what does nothing is not told")
	total, sources = sharedBy(nil)
	require.Nil(t, total)
	require.Empty(t, sources)
	after := 6.0 * evidence.Normal95
	five := 5 * evidence.Normal95
	require.True(t, Interval{After: &after, Shared: &five}.Ruled())
	four := 4 * evidence.Normal95
	require.False(t, Interval{After: &after, Shared: &four}.Ruled())
}

// Rehearsals that leave a number undetermined count as endless, so that a median does not flatter.
func TestMediansOfRehearsals(t *testing.T) {
	endless := math.Inf(1)
	w := widths{now: 12, after: []float64{4, endless, 6}}
	i, ok := w.result()
	require.True(t, ok)
	require.InDelta(t, 6, *i.After, 0)
	require.InDelta(t, 2, *i.Factor, 0)
	require.InDelta(t, 4, *i.Least, 0)
	require.Nil(t, i.Greatest)
	require.Equal(t, 2, i.Known)
	w = widths{now: endless, after: []float64{4, 6}}
	i, ok = w.result()
	require.True(t, ok)
	require.Nil(t, i.Now)
	require.Nil(t, i.Factor)
	require.InDelta(t, 5, *i.After, 0)
	w = widths{now: endless, after: []float64{endless, 4, endless}}
	i, _ = w.result()
	require.Nil(t, i.After)
	w = widths{now: endless, after: []float64{endless}}
	_, ok = w.result()
	require.False(t, ok, "neither now nor afterwards")
	w.interval = Interval{Origin: evidence.Measured, Quantity: evidence.NeutralPoint}
	require.True(t, w.missing())
}

func TestHalfOfAnInterval(t *testing.T) {
	low, high := 3.0, 7.0
	require.InDelta(t, 2, half(&evidence.Estimate{State: evidence.Determined, Low: &low, High: &high}), 0)
	require.True(t, math.IsInf(half(&evidence.Estimate{State: evidence.Determined, Low: &low}), 1))
	require.True(t, math.IsInf(half(&evidence.Estimate{State: evidence.NotDetermined, Low: &low, High: &high}), 1))
	require.True(t, math.IsInf(half(nil), 1))
}

// toy is a foreplane aircraft by hand about x = 3.7 m.
func toy() aero.Derivatives {
	return aero.Derivatives{
		Reference: aero.Reference{Area: 12, Span: 8.4, MeanChord: 1.5}, MomentPoint: 3.7,
		At: aero.Coefficients{Lift: 0.3, Pitch: 0.02}, ByAlpha: aero.Coefficients{Lift: 4.5, Pitch: -0.9}, ByBeta: aero.Coefficients{Side: -0.3, Roll: -0.1, Yaw: 0.05},
		ByControl: map[string]aero.Coefficients{stability.Elevator: {Lift: 0.2, Pitch: 0.4}, "aileron": {Roll: 0.2}, "rudder": {Side: 0.1, Yaw: -0.03}},
	}
}

// What the points show beyond the trim of the derivatives is put into them: then they trim at the points.
func TestTrimOfTheTestPoints(t *testing.T) {
	d := toy()
	alpha, elevator, err := stability.Trim(stability.Moved(d, 3.8, 0), 0.6)
	require.NoError(t, err)
	o, ok := offsetOf(d, []estimate.Point{{CG: 3.8, Lift: 0.6, Alpha: alpha + 0.01, Elevator: elevator - 0.02, Power: "idle"}, {CG: 3.8, Lift: 0.6, Alpha: 9, Power: "level"}})
	require.True(t, ok)
	require.InDelta(t, 0.01, o.alpha, 1e-12)
	require.InDelta(t, -0.02, o.elevator, 1e-12)
	moved, shifted, err := stability.Trim(stability.Moved(o.on(d), 3.8, 0), 0.6)
	require.NoError(t, err)
	require.InDelta(t, alpha+0.01, moved, 1e-4, "forces turn with the angle of attack when the CG moves, a hundredth of the offset")
	require.InDelta(t, elevator-0.02, shifted, 3e-4)
	_, ok = offsetOf(d, nil)
	require.False(t, ok)
}

// Rudder power is stated for one rudder of two; the map of the study is left as it is.
func TestDerivativesThatFlightsDetermined(t *testing.T) {
	st := &study.Study{}
	add := func(origin, quantity string, v float64) {
		st.Estimates = append(st.Estimates, evidence.Estimate{Origin: origin, Scale: evidence.ModelScale, State: evidence.Determined, Configuration: "a", Quantity: quantity,
			Value: &v, SDOwn: evidence.Pointer(0.05 * math.Abs(v)), Flights: []string{"f"}, At: evidence.At{CG: evidence.Pointer(3.7)}})
	}
	add(evidence.Measured, identify.RudderPower, -0.02)
	add(evidence.Measured, identify.RollDamping, -0.4)
	add(evidence.Anchored, identify.RollDamping, -0.45)
	add(evidence.Measured, identify.LiftCurveSlope, 9)
	d := toy()
	got := withMeasured(d, st, "a")
	require.InDelta(t, -0.04, got.ByControl["rudder"].Yaw, 1e-12)
	require.InDelta(t, -0.45, got.ByRollRate.Roll, 1e-12, "the belief comes before the measurement")
	require.InDelta(t, 4.5, got.ByAlpha.Lift, 1e-12, "the lift slope is for the shape")
	require.InDelta(t, -0.03, d.ByControl["rudder"].Yaw, 0)
	require.Equal(t, toy(), withMeasured(toy(), st, "another"))
}

// Two flights at two CGs draw the trim slopes to theirs, hardly against a sure belief and all but wholly against a vague one. The figures of the vague
// one by hand: slopes 0.36 and 0.18 at 3.56 and 3.82 m are rate −0.6923 and neutral point 4.08 m.
func TestFlightsThatDetermineNothingCountForTheModel(t *testing.T) {
	var points []estimate.Point
	for _, f := range []line{{3.56, 0.36, 0.2}, {3.82, 0.18, 0.21}} {
		for _, lift := range []float64{0.3, 0.5, 0.8} {
			points = append(points, estimate.Point{Flight: "f" + strconv.Itoa(int(100*f.cg)), CG: f.cg, Lift: lift, Elevator: f.elevator * lift, Alpha: 0.02 + f.alpha*lift, Power: "idle"})
		}
	}
	lines := linesOf(points)
	require.Len(t, lines, 2)
	require.InDelta(t, 0.18, lines[1].elevator, 1e-12)
	require.InDelta(t, 0.21, lines[1].alpha, 1e-12)
	vague := belief{Shape: rehearse.Shape{NeutralPoint: 4.0, LiftSlope: 4.4, TrimRate: -0.9}, neutralPointSD: 1, liftSlopeSD: 10, trimRateSD: 1}
	got := vague.withLines(lines, 0.2)
	require.InDelta(t, 4.08, got.NeutralPoint, 0.005)
	require.InDelta(t, -0.6923, got.TrimRate, 0.005)
	require.InDelta(t, ((1-0.072)/0.2+(1-0.036)/0.21)/2, got.LiftSlope, 0.001)
	sure := vague
	sure.neutralPointSD, sure.liftSlopeSD, sure.trimRateSD = 1e-5, 1e-5, 1e-5
	got = sure.withLines(lines, 0.2)
	require.InDelta(t, 4.0, got.NeutralPoint, 1e-4)
	require.InDelta(t, -0.9, got.TrimRate, 1e-4)
	require.InDelta(t, 4.4, got.LiftSlope, 1e-4)
	require.Equal(t, vague, vague.withLines(nil, 0.2))
	require.Empty(t, linesOf(points[:2]), "two points are no line")
}

func TestCardsOfASheet(t *testing.T) {
	sheet, err := Sheet([]string{"glide", "level", "doublet", "sideslip", "deceleration", "turn", "circle", "multistep", "climb", "pull_up"})
	require.NoError(t, err)
	require.Len(t, sheet, 5+2+3+2+2+2+1+3+1+1)
	cards, err := cardsFor(sheet, 16)
	require.NoError(t, err)
	require.Equal(t, rehearse.Climb, cards[0].Kind, "a flight begins on the ground")
	var speeds, slips []float64
	for i, c := range cards {
		switch c.Kind {
		case rehearse.Glide:
			speeds = append(speeds, c.Speed)
			require.Equal(t, rehearse.Climb, cards[i-1].Kind, "a glide begins high")
		case rehearse.Sideslip:
			slips = append(slips, c.Size)
		}
	}
	require.InDeltaSlice(t, []float64{27.2, 20, 35.2, 23.2, 31.2}, speeds, 1e-9)
	require.InDelta(t, 0, slips[0]+slips[1], 1e-12, "one to either side")
	_, err = Sheet([]string{"loop"})
	require.ErrorContains(t, err, "loop")
	_, err = cardsFor([]Card{{Kind: rehearse.Glide, Speed: 17}}, 16)
	var refused *study.InputError
	require.ErrorAs(t, err, &refused)
	require.Equal(t, "a glide at 17.0 m/s is too slow: the model is believed to stall at 16.0 m/s; plan it at 17.6 m/s or faster", err.Error())
}
