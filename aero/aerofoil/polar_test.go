package aerofoil

import (
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// inventedRows is an invented table: three Reynolds numbers, two deflections, both states.
func inventedRows() []PolarRow {
	var rows []PolarRow
	for i, reynolds := range []float64{3e5, 1e6, 3e6} {
		for j, flap := range []float64{0, 20 * degree} {
			lift, drag := 1.2+0.2*float64(i)+0.5*float64(j), 0.012-0.002*float64(i)+0.015*float64(j)
			rows = append(rows,
				PolarRow{reynolds, flap, Clean, lift, drag, "invented tunnel"},
				PolarRow{reynolds, flap, Contaminated, 0.8 * lift, 1.5 * drag, "invented rain"})
		}
	}
	return rows
}

func TestPolarGivesBackItsRows(t *testing.T) {
	rows := inventedRows()
	slices.Reverse(rows)
	p, err := NewPolar(rows)
	require.NoError(t, err)
	for _, r := range rows {
		lift, inside, err := p.MaxLift(r.Reynolds, r.Flap, r.State)
		require.NoError(t, err)
		require.True(t, inside)
		require.Equal(t, r.MaxLift, lift)
		drag, inside, err := p.ProfileDrag(r.Reynolds, r.Flap, r.State)
		require.NoError(t, err)
		require.True(t, inside)
		require.Equal(t, r.ProfileDrag, drag)
	}
	require.Equal(t, []string{Clean, Contaminated}, p.States())
	require.Equal(t, []string{"invented rain", "invented tunnel"}, p.Sources())
	reynolds, flap, ok := p.Range(Clean)
	require.True(t, ok)
	require.Equal(t, [2]float64{3e5, 3e6}, reynolds)
	require.Equal(t, [2]float64{0, 20 * degree}, flap)
}

func TestPolarIsBilinearInTheLogarithmOfReynolds(t *testing.T) {
	p, err := NewPolar(inventedRows())
	require.NoError(t, err)
	lift, inside, err := p.MaxLift(math.Sqrt(1e6*3e6), 5*degree, Clean) // half a step up, a quarter of the flap
	require.NoError(t, err)
	require.True(t, inside)
	require.InDelta(t, 1.5+0.125, lift, 1e-12)
}

func TestPolarHoldsItsEnds(t *testing.T) {
	p, err := NewPolar(inventedRows())
	require.NoError(t, err)
	for _, c := range []struct{ reynolds, flap, want float64 }{
		{1e5, 0, 1.2}, {1e8, 0, 1.6}, {3e5, -10 * degree, 1.2}, {3e5, 40 * degree, 1.7}, {1e9, 1, 2.1},
	} {
		lift, inside, err := p.MaxLift(c.reynolds, c.flap, Clean)
		require.NoError(t, err)
		require.False(t, inside)
		require.InDelta(t, c.want, lift, 1e-12)
	}
	// Rounding of degrees does not push a query off the table.
	_, inside, err := p.MaxLift(3e5*(1-1e-12), 20*degree+1e-9, Clean)
	require.NoError(t, err)
	require.True(t, inside)
}

func TestPolarWithoutAState(t *testing.T) {
	p, err := NewPolar(inventedRows()[:1])
	require.NoError(t, err)
	_, _, err = p.MaxLift(1e6, 0, Contaminated)
	require.ErrorContains(t, err, `no rows for the state "contaminated", only for clean`)
	_, _, err = p.ProfileDrag(1e6, 0, "wet")
	require.ErrorContains(t, err, `no rows for the state "wet"`)
	_, _, err = p.ProfileDrag(-1, 0, Clean)
	require.ErrorContains(t, err, "cannot look up Reynolds number -1")
	_, _, err = Polar{}.MaxLift(1e6, 0, Clean)
	require.ErrorContains(t, err, "no data")
	_, _, ok := p.Range(Contaminated)
	require.False(t, ok)
}

func TestPolarMistakesAllAtOnce(t *testing.T) {
	_, err := NewPolar(nil)
	require.ErrorContains(t, err, "there are no rows")
	_, err = NewPolar([]PolarRow{
		{0, 0, Clean, 1.2, 0.01, ""},
		{1e6, 20, Clean, -1, math.NaN(), ""},
		{1e6, math.Inf(1), "dirty", 1, 0.01, ""},
	})
	for _, want := range []string{
		"polar row 1: the Reynolds number is 0 and must be positive",
		"polar row 2: the maximum lift is -1 and must be positive",
		"polar row 2: the profile drag is not a number",
		"polar row 2: a flap deflection of 20 rad is more than a right angle; were degrees taken for radians?",
		"polar row 3: the flap deflection is not a number",
		`polar row 3: the state is "dirty"; write clean or contaminated`,
	} {
		require.ErrorContains(t, err, want)
	}
	var first *TableError
	require.True(t, errors.As(err, &first))
	require.Equal(t, TableError{1, "reynolds", first.What, first.Right}, *first)
}

func TestPolarMissingAndDoubleRows(t *testing.T) {
	rows := inventedRows()
	_, err := NewPolar(append(slices.Clone(rows), rows[4]))
	require.ErrorContains(t, err, "polar row 13: Reynolds number 1e+06 with flap 0° (clean) is there already, in row 5; leave one of the two out")
	_, err = NewPolar(slices.Delete(slices.Clone(rows), 6, 8))
	require.ErrorContains(t, err, "polar: Reynolds number 1e+06 with flap 20° (clean) is missing")
	require.ErrorContains(t, err, "polar: Reynolds number 1e+06 with flap 20° (contaminated) is missing")
	// Each state has its own table: contaminated at one Reynolds number only is complete.
	_, err = NewPolar(append(slices.Clone(rows[:1]), PolarRow{5e5, 0, Contaminated, 1, 0.02, ""}))
	require.NoError(t, err)
}

// risingPolar draws a table whose maximum lift rises with Reynolds number and deflection while its drag falls and rises.
func risingPolar(t *rapid.T) Polar {
	n, m := rapid.IntRange(1, 4).Draw(t, "Reynolds numbers"), rapid.IntRange(1, 4).Draw(t, "deflections")
	step := rapid.Float64Range(0.01, 1)
	logs, flaps := []float64{5}, []float64{-0.3}
	lift, drag := []float64{1}, []float64{0.02} // each the sum of a rise by row and one by column
	liftFlap, dragFlap := []float64{0}, []float64{0}
	for i := range n - 1 {
		logs, lift = append(logs, logs[i]+step.Draw(t, "decades")), append(lift, lift[i]+step.Draw(t, "lift"))
		drag = append(drag, drag[i]*(1-0.5*step.Draw(t, "drag")))
	}
	for j := range m - 1 {
		flaps, liftFlap = append(flaps, flaps[j]+0.2*step.Draw(t, "flap")), append(liftFlap, liftFlap[j]+step.Draw(t, "flap lift"))
		dragFlap = append(dragFlap, dragFlap[j]+0.01*step.Draw(t, "flap drag"))
	}
	var rows []PolarRow
	for i := range n {
		for j := range m {
			rows = append(rows, PolarRow{math.Pow(10, logs[i]), flaps[j], Clean, lift[i] + liftFlap[j], drag[i] + dragFlap[j], ""})
		}
	}
	p, err := NewPolar(rapid.Permutation(rows).Draw(t, "order"))
	require.NoError(t, err)
	return p
}

func TestPolarIsMonotonicWhereItsRowsAre(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := risingPolar(t)
		log, flap := rapid.Float64Range(4, 9).Draw(t, "log R"), rapid.Float64Range(-0.5, 0.5).Draw(t, "at flap")
		more, further := rapid.Float64Range(0, 2).Draw(t, "more R"), rapid.Float64Range(0, 0.5).Draw(t, "more flap")
		at := func(log, flap float64) (lift, drag float64) {
			lift, _, err := p.MaxLift(math.Pow(10, log), flap, Clean)
			require.NoError(t, err)
			drag, _, err = p.ProfileDrag(math.Pow(10, log), flap, Clean)
			require.NoError(t, err)
			return lift, drag
		}
		lift, drag := at(log, flap)
		liftUp, dragUp := at(log+more, flap)
		require.GreaterOrEqual(t, liftUp, lift-1e-12)
		require.LessOrEqual(t, dragUp, drag+1e-14)
		liftDown, dragDown := at(log, flap+further)
		require.GreaterOrEqual(t, liftDown, lift-1e-12)
		require.GreaterOrEqual(t, dragDown, drag-1e-14)
	})
}

func TestPolarIsContinuous(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := risingPolar(t)
		log, flap := rapid.Float64Range(4, 9).Draw(t, "log R"), rapid.Float64Range(-0.5, 0.5).Draw(t, "at flap")
		reynolds, flaps, _ := p.Range(Clean)
		if rapid.Bool().Draw(t, "at a corner") { // where pieces meet
			log, flap = math.Log10(reynolds[1]), flaps[0]
		}
		here, _, err := p.MaxLift(math.Pow(10, log), flap, Clean)
		require.NoError(t, err)
		const step = 1e-7 // the steepest rise drawn is 1 in 0.01 decades and 1 in 0.002 rad
		for _, d := range [][2]float64{{step, 0}, {-step, 0}, {0, step}, {0, -step}} {
			there, _, err := p.MaxLift(math.Pow(10, log+d[0]), flap+d[1], Clean)
			require.NoError(t, err)
			require.InDelta(t, here, there, 501*step)
		}
	})
}
