package stability

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"wingproof/aero"
)

// foreplane is an invented set about a CG ten percent of the chord ahead of the neutral point.
func foreplane() aero.Derivatives {
	return aero.Derivatives{
		Reference:   aero.Reference{Area: 12.6, Span: 8.6, MeanChord: 1.7, MeanChordLeadingEdge: 4.0},
		MomentPoint: 3.9, MomentZ: 0.05, Alpha: 0.05,
		At:          aero.Coefficients{Lift: 0.35, Drag: 0.03, Pitch: 0.01},
		ByAlpha:     aero.Coefficients{Lift: 4.4, Drag: 0.2, Pitch: -0.44},
		ByBeta:      aero.Coefficients{Side: -0.55, Roll: -0.09, Yaw: 0.06},
		ByRollRate:  aero.Coefficients{Side: -0.05, Roll: -0.45, Yaw: -0.04},
		ByPitchRate: aero.Coefficients{Lift: 3.2, Drag: 0.1, Pitch: -9.5},
		ByYawRate:   aero.Coefficients{Side: 0.25, Roll: 0.12, Yaw: -0.13},
		ByControl: map[string]aero.Coefficients{
			"elevator": {Lift: 0.45, Drag: 0.02, Pitch: 0.95},
			"aileron":  {Roll: 0.15, Yaw: -0.01},
			"rudder":   {Side: 0.12, Roll: 0.01, Yaw: -0.05},
		},
	}
}

func TestNeutralPointPublished(t *testing.T) {
	d := aero.Derivatives{Reference: aero.Reference{MeanChord: 1}, MomentPoint: 0.3}
	d.ByAlpha = aero.Coefficients{Lift: 4.76, Pitch: -0.116}
	x, err := NeutralPoint(d)
	require.NoError(t, err)
	require.InDelta(t, 0.324, x, 5e-4, "public worked question: CLα 4.76, Cmα −0.116 per rad, CG 0.3")

	d.ByAlpha = aero.Coefficients{Lift: 1, Pitch: -0.15}
	x, err = NeutralPoint(d)
	require.NoError(t, err)
	require.InDelta(t, 0.45, x, 1e-12, "Nelson, problem 2.1: dCm/dCL −0.15, CG 0.30; public worked solution")

	d.At = aero.Coefficients{Pitch: 0.08}
	d.ByControl = map[string]aero.Coefficients{"elevator": {Pitch: 1}}
	_, elevator, err := Trim(d, 0.533333)
	require.NoError(t, err)
	require.InDelta(t, 0, elevator, 1e-6, "Nelson, problem 2.1: trims at CL 0.53 with Cm0 0.08; public worked solution")
}

// The signs that a book with the elevator at the tail gets the other way round.
func TestForeplaneSigns(t *testing.T) {
	d := foreplane()
	margin, err := StaticMargin(d, d.MomentPoint)
	require.NoError(t, err)
	require.InDelta(t, 10, margin, 1e-9)
	slope, err := ElevatorPerLift(d)
	require.NoError(t, err)
	require.Positive(t, slope)
	trimmed, err := TrimmedLiftSlope(d)
	require.NoError(t, err)
	require.Greater(t, trimmed, d.ByAlpha.Lift)
	rate, err := ElevatorTrimRate(d)
	require.NoError(t, err)
	require.Negative(t, rate)

	aft := Moved(d, 4.3, d.MomentZ) // behind the neutral point: both reverse
	slope, err = ElevatorPerLift(aft)
	require.NoError(t, err)
	require.Negative(t, slope)
	trimmed, err = TrimmedLiftSlope(aft)
	require.NoError(t, err)
	require.Less(t, trimmed, aft.ByAlpha.Lift)
}

// Two roads: the trim slope at the moment point from the derivatives, and from rate and neutral point.
func TestTrimRateTimesDistanceIsTrimSlope(t *testing.T) {
	d := foreplane()
	rate, err := ElevatorTrimRate(d)
	require.NoError(t, err)
	neutral, err := NeutralPoint(d)
	require.NoError(t, err)
	slope, err := ElevatorPerLift(d)
	require.NoError(t, err)
	require.InEpsilon(t, slope, rate*(d.MomentPoint-neutral), 1e-12)

	// moved by 5 % of the chord with the true normal force, linear to first order in α
	moved := Moved(d, d.MomentPoint-0.05*d.Reference.MeanChord, d.MomentZ)
	slope, err = ElevatorPerLift(moved)
	require.NoError(t, err)
	require.InEpsilon(t, slope, rate*(moved.MomentPoint-neutral), 5e-3)

	// and exactly where moments move with lift alone: no angle of attack, no drag
	flat := d
	flat.Alpha, flat.At, flat.ByAlpha.Drag = 0, aero.Coefficients{}, 0
	moved = Moved(flat, 3.2, d.MomentZ)
	rate, err = ElevatorTrimRate(moved)
	require.NoError(t, err)
	slope, err = ElevatorPerLift(moved)
	require.NoError(t, err)
	require.InEpsilon(t, slope, rate*(3.2-neutral), 1e-12)
}

func TestTrimHoldsLiftAndMoment(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := foreplane()
		d.ByAlpha.Pitch = rapid.Float64Range(-1, 0.3).Draw(t, "Cm_α")
		d.At.Pitch = rapid.Float64Range(-0.05, 0.05).Draw(t, "Cm")
		lift := rapid.Float64Range(-0.2, 1.4).Draw(t, "CL")
		alpha, elevator, err := Trim(d, lift)
		require.NoError(t, err)
		e := d.ByControl["elevator"]
		require.InDelta(t, lift, d.At.Lift+d.ByAlpha.Lift*(alpha-d.Alpha)+e.Lift*elevator, 1e-12)
		require.InDelta(t, 0, d.At.Pitch+d.ByAlpha.Pitch*(alpha-d.Alpha)+e.Pitch*elevator, 1e-12)

		// slopes are the differences of two trims
		alpha2, elevator2, err := Trim(d, lift+0.1)
		require.NoError(t, err)
		perLift, err := ElevatorPerLift(d)
		require.NoError(t, err)
		slope, err := TrimmedLiftSlope(d)
		require.NoError(t, err)
		require.InDelta(t, perLift, (elevator2-elevator)/0.1, 1e-10)
		require.InDelta(t, slope, 0.1/(alpha2-alpha), 1e-9)
	})
}

func TestTrimRefuses(t *testing.T) {
	d := foreplane()
	d.ByControl = nil
	_, err := ElevatorPerLift(d)
	require.ErrorContains(t, err, `"elevator"`)
	_, err = TrimmedLiftSlope(d)
	require.ErrorContains(t, err, `"elevator"`)
	_, err = ElevatorTrimRate(d)
	require.ErrorContains(t, err, `"elevator"`)
	_, _, err = Trim(d, 0.5)
	require.ErrorContains(t, err, `"elevator"`)
	_, err = Trimmed(d, 0.5, 0.03)
	require.ErrorContains(t, err, `"elevator"`)
	d.ByAlpha.Lift = 0
	_, err = NeutralPoint(d)
	require.ErrorIs(t, err, ErrNoLiftSlope)
	_, err = StaticMargin(aero.Derivatives{}, 0)
	require.ErrorContains(t, err, "mean aerodynamic chord")
}

func TestTrimmedState(t *testing.T) {
	d, err := Trimmed(foreplane(), 0.6, 0.04)
	require.NoError(t, err)
	require.Equal(t, aero.Coefficients{Lift: 0.6, Drag: 0.04}, d.At)
	require.True(t, d.Alpha > 0.05 && !math.IsNaN(d.Alpha))
}
