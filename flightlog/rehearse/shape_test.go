package rehearse

import (
	"maps"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/stability"
)

// What is put in comes out by the relations of stability, about any moment point, and the derivatives given are left alone.
func TestShapeComesOut(t *testing.T) {
	d := ExampleAircraft().Derivatives
	before := maps.Clone(d.ByControl)
	s := Shape{NeutralPoint: d.MomentPoint + 0.31, LiftSlope: 4.4, TrimRate: -0.9, MoreStiffness: 0.012}
	got := s.Of(d)
	x, err := stability.NeutralPoint(got)
	require.NoError(t, err)
	require.InDelta(t, s.NeutralPoint, x, 1e-12)
	rate, err := stability.ElevatorTrimRate(got)
	require.NoError(t, err)
	require.InDelta(t, s.TrimRate, rate, 1e-12)
	for _, cg := range []float64{d.MomentPoint, d.MomentPoint + 0.4} {
		change := stability.Moved(got, cg, d.MomentZ).ByBeta.Yaw - stability.Moved(d, cg, d.MomentZ).ByBeta.Yaw
		require.InDelta(t, s.MoreStiffness, change, 1e-12)
	}
	require.Equal(t, before, d.ByControl)
}

func TestStreamsAreNamed(t *testing.T) {
	require.Equal(t, Stream(1, "a", "b").Uint64(), Stream(1, "a", "b").Uint64())
	require.NotEqual(t, Stream(1, "a", "b").Uint64(), Stream(1, "ab").Uint64())
	require.NotEqual(t, Stream(1, "a").Uint64(), Stream(2, "a").Uint64())
}

// Every kind and control has a usual card that the pilot takes, the next one to the other side.
func TestUsualCards(t *testing.T) {
	for _, kind := range []Kind{Climb, Level, Glide, Turn, Circle, Sideslip, PullUp, Deceleration} {
		c, err := Usual(kind, "", 25, 0, 0)
		require.NoError(t, err, kind)
		require.NoError(t, c.check(), kind)
		require.Equal(t, kind, c.Kind)
	}
	for _, kind := range []Kind{Doublet, Multistep} {
		for _, control := range []string{"elevator", "aileron", "rudder"} {
			first, err := Usual(kind, control, 25, 0, 0)
			require.NoError(t, err)
			second, err := Usual(kind, control, 25, 0, 1)
			require.NoError(t, err)
			require.InDelta(t, 0, first.Size+second.Size, 1e-15)
			require.NotZero(t, first.Size)
		}
	}
	turn, err := Usual(Turn, "", 25, -0.3, 0)
	require.NoError(t, err)
	require.InDelta(t, -0.3, turn.Bank, 0)
	_, err = Usual(Doublet, "flap", 25, 0, 0)
	require.ErrorContains(t, err, "elevator, aileron or rudder")
	_, err = Usual("loop", "", 25, 0, 0)
	require.ErrorContains(t, err, "loop")
}

// A climb comes first, before what begins high, and where four cards have used up the height; those that are there already count.
func TestClimbsBetweenCards(t *testing.T) {
	of := func(kinds ...Kind) (out []Card) {
		for _, k := range kinds {
			out = append(out, Card{Kind: k})
		}
		return out
	}
	var kinds []Kind
	for _, c := range WithClimbs(of(Glide, Level, Turn, Turn, Turn, Level, Deceleration, Climb, Level), 16) {
		kinds = append(kinds, c.Kind)
	}
	require.Equal(t, []Kind{Climb, Glide, Climb, Level, Turn, Turn, Turn, Climb, Level, Climb, Deceleration, Climb, Level}, kinds)
}
