package demo

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/floats/scalar"

	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
)

// An interrupted demo leaves nothing behind, so that it can be begun again.
func TestInterruptedDemoLeavesNothing(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "demo")
	ctx, cancel := context.WithCancel(context.Background())
	stop := func(int, int, string) { cancel() }
	require.ErrorIs(t, Write(ctx, dir, dir+"-truth.json", 1, stop), context.Canceled)
	require.NoDirExists(t, dir)
	require.NoFileExists(t, dir+"-truth.json")

	require.NoError(t, os.Mkdir(dir, 0o755)) // a folder that was there stays, empty
	require.ErrorIs(t, Write(ctx, dir, dir+"-truth.json", 1, nil), context.Canceled)
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Empty(t, entries)
}

func TestSeedIsWrittenIntoTheScenario(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, writeScenario(dir, 4711))
	p, err := program.Load(dir)
	require.NoError(t, err)
	require.Equal(t, uint64(4711), p.Seed)
}

// The derivatives that the model flies with have neutral point, trim rate and directional stiffness as drawn.
func TestTruthIsWhatIsFlown(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, writeScenario(dir, 5))
	p, err := program.Load(dir)
	require.NoError(t, err)
	st, err := predicted(context.Background(), p)
	require.NoError(t, err)
	errors := study.TheoryErrors(p, st.Configurations[0].Airframe.Reference.MeanChord)
	for _, c := range st.Configurations {
		truth := truthOf(5, c, errors)
		d := truth.derivatives
		x, err := stability.NeutralPoint(d)
		require.NoError(t, err)
		rate, err := stability.ElevatorTrimRate(d)
		require.NoError(t, err)
		yaw := stability.Moved(d, truth.StiffnessCG, d.MomentZ).ByBeta.Yaw
		require.True(t, scalar.EqualWithinRel(truth.NeutralPoint, x, 1e-12))
		require.True(t, scalar.EqualWithinRel(truth.ElevatorTrimRate, rate, 1e-12))
		require.True(t, scalar.EqualWithinRel(truth.DirectionalStiffness, yaw, 1e-12))
		require.NotEqual(t, c.NeutralPoint, x)
		require.NotEqual(t, c.Derivatives.ByControl[stability.Elevator], d.ByControl[stability.Elevator], "the study's own map stays as it is")
	}
}
