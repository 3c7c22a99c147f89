package lattice

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// near fails with the published source and the digits that agree.
func near(t *testing.T, want, got, tolerance float64, source string) {
	t.Helper()
	require.InDelta(t, want, got, tolerance, "%s; %.1f digits agree", source, -math.Log10(math.Abs(got-want)/math.Abs(want)))
}
