package aerofoil

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestStripsAddByHand(t *testing.T) {
	p, err := NewPolar(inventedRows())
	require.NoError(t, err)
	sum, err := StripDrag([]Strip{
		{Surface: "wing", Area: 4, Chord: 1, Reynolds: 3e6, Thickness: 0.15, Polar: &p},
		{Surface: "winglet", Area: 0.5, Chord: 0.4, Reynolds: 1.2e6, Thickness: 0.12, Transition: TransitionAt(0.3)},
		{Surface: "wing", Area: 2, Chord: 0.5, Reynolds: 1.5e6, Thickness: 0.12},
		{Surface: "foreplane", Area: 1, Chord: 0.35, Reynolds: 1e6, Polar: &p, Flap: 20 * degree, State: Contaminated},
	})
	require.NoError(t, err)
	wingPolar, wingFriction := 4*0.008, 2*ProfileDrag(1.5e6, 0.12, Transition{})
	winglet, foreplane := 0.5*ProfileDrag(1.2e6, 0.12, TransitionAt(0.3)), 1.5*0.025
	require.Equal(t, []string{"wing", "winglet", "foreplane"}, []string{sum.Surfaces[0].Surface, sum.Surfaces[1].Surface, sum.Surfaces[2].Surface})
	require.InDelta(t, wingPolar+wingFriction, sum.Surfaces[0].Drag, 1e-12)
	require.InDelta(t, wingPolar, sum.Surfaces[0].FromPolar, 1e-12)
	require.InDelta(t, 6, sum.Surfaces[0].PlanArea, 1e-12)
	require.InDelta(t, winglet, sum.Surfaces[1].Drag, 1e-12)
	require.InDelta(t, foreplane, sum.Surfaces[2].Drag, 1e-12)
	require.InDelta(t, wingPolar+wingFriction+winglet+foreplane, sum.Drag, 1e-12)
	// One polar is wrong as a whole, and so is the friction estimate; the two do not know each other.
	require.InDelta(t, math.Hypot(0.07*wingPolar, 0.10*wingFriction), sum.Surfaces[0].Deviation, 1e-12)
	require.InDelta(t, math.Hypot(0.07*(wingPolar+foreplane), 0.10*(wingFriction+winglet)), sum.Deviation, 1e-12)
	require.Empty(t, sum.Warnings)
}

func TestStripDragOfAWholeAircraftIsPlausible(t *testing.T) {
	// Common practice, no source: the lifting surfaces of a clean light aircraft add 0.006 to 0.012 to the drag
	// coefficient on their own plan area at Reynolds numbers of some millions.
	sum, err := StripDrag([]Strip{{Surface: "wing", Area: 10, Chord: 1.1, Reynolds: 4e6, Thickness: 0.15, Transition: TransitionAt(0.2)}})
	require.NoError(t, err)
	require.Greater(t, sum.Drag/10, 0.006)
	require.Less(t, sum.Drag/10, 0.012)
}

func TestAContaminatedStripIsTurbulent(t *testing.T) {
	strip := Strip{Surface: "wing", Area: 1, Chord: 1, Reynolds: 3e6, Thickness: 0.12, Transition: TransitionAt(0.5)}
	clean, err := StripDrag([]Strip{strip})
	require.NoError(t, err)
	strip.State = Contaminated
	dirty, err := StripDrag([]Strip{strip})
	require.NoError(t, err)
	require.InDelta(t, ProfileDrag(3e6, 0.12, TransitionAt(0.5)), clean.Drag, 1e-15)
	require.InDelta(t, ProfileDrag(3e6, 0.12, Transition{}), dirty.Drag, 1e-15)
}

func TestStripWarnings(t *testing.T) {
	p, err := NewPolar(inventedRows())
	require.NoError(t, err)
	far := Strip{Surface: "wing", Area: 1, Chord: 1, Reynolds: 9e6, Polar: &p}
	sum, err := StripDrag([]Strip{far, far,
		{Surface: "fin", Area: 1, Chord: 1, Reynolds: 9e6},
		{Surface: "foreplane", Area: 1, Chord: 1, Reynolds: 9e6, Thickness: 0.12, Flap: 0.1}})
	require.NoError(t, err)
	require.Len(t, sum.Warnings, 3)
	require.Contains(t, sum.Warnings[0].String(), `surface "wing": its polar does not reach`)
	require.Contains(t, sum.Warnings[1].String(), `surface "fin": the thickness is not known`)
	require.Contains(t, sum.Warnings[2].String(), "deflected flap")
	require.InDelta(t, 0.25*2*0.008, sum.Surfaces[0].Deviation, 1e-12)
}

func TestStripMistakesAllAtOnce(t *testing.T) {
	clean, err := NewPolar(inventedRows()[:1])
	require.NoError(t, err)
	good := Strip{Surface: "wing", Area: 1, Chord: 1, Reynolds: 3e6, Thickness: 0.12}
	broken := func(change func(s *Strip)) Strip {
		s := good
		change(&s)
		return s
	}
	_, err = StripDrag([]Strip{
		broken(func(s *Strip) { s.Chord = 0 }),
		good,
		broken(func(s *Strip) { s.Area = -1 }),
		broken(func(s *Strip) { s.Reynolds = math.NaN() }),
		broken(func(s *Strip) { s.Thickness = 12 }),
		broken(func(s *Strip) { s.Flap = 20 }),
		broken(func(s *Strip) { s.State = "wet" }),
		broken(func(s *Strip) { s.Polar, s.State = &clean, Contaminated }),
		broken(func(s *Strip) { s.Reynolds = 4e5 }),
	})
	for _, want := range []string{
		`strip 1 of surface "wing": its chord is 0`,
		`strip 3 of surface "wing": its area is -1`,
		`strip 4 of surface "wing": its Reynolds number is NaN`,
		`strip 5 of surface "wing": its thickness is 12; give a fraction of the chord`,
		`strip 6 of surface "wing": its flap deflection is 20 rad`,
		`strip 7 of surface "wing": its state is "wet"`,
		`strip 8 of surface "wing": polar: there are no rows for the state "contaminated"`,
		`strip 9 of surface "wing": Reynolds number 4e+05 at a chord of 1 m is 0.133 times`,
	} {
		require.ErrorContains(t, err, want)
	}
	require.NotContains(t, err.Error(), "strip 2")
	empty, err := StripDrag(nil)
	require.NoError(t, err)
	require.Zero(t, empty)
}

func TestDifferenceOfTwoLevelsSharesItsErrors(t *testing.T) {
	wing := Strip{Surface: "wing", Area: 8, Chord: 1, Reynolds: 3e6, Thickness: 0.15}
	winglet := func(area float64) Strip {
		return Strip{Surface: "winglet", Area: area, Chord: 0.4, Reynolds: 1.2e6, Thickness: 0.12}
	}
	small, err := StripDrag([]Strip{wing, winglet(0.4)})
	require.NoError(t, err)
	tall, err := StripDrag([]Strip{wing, winglet(0.7)})
	require.NoError(t, err)
	more, deviation := tall.Minus(small)
	require.InDelta(t, 0.3*ProfileDrag(1.2e6, 0.12, Transition{}), more, 1e-12)
	require.InDelta(t, 0.10*more, deviation, 1e-12, "the wing's error cancels")
}

func TestCuttingStripsFinerChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pieces := rapid.IntRange(1, 20).Draw(t, "pieces")
		strip := Strip{Surface: "wing", Area: rapid.Float64Range(0.1, 10).Draw(t, "area"), Chord: 0.8, Reynolds: 2e6, Thickness: 0.14}
		whole, err := StripDrag([]Strip{strip})
		require.NoError(t, err)
		strip.Area /= float64(pieces)
		var cut []Strip
		for range pieces {
			cut = append(cut, strip)
		}
		sum, err := StripDrag(cut)
		require.NoError(t, err)
		require.InEpsilon(t, whole.Drag, sum.Drag, 1e-12)
		require.InEpsilon(t, whole.Deviation, sum.Deviation, 1e-12)
	})
}
