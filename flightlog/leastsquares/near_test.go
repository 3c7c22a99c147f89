package leastsquares

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// near fails when got leaves want ± tol, and names the source.
func near(t *testing.T, got, want, tol float64, source string) {
	t.Helper()
	require.InDelta(t, want, got, tol, "%s: %.1f digits agree", source, digits(got, want))
}

// digits counts agreeing significant digits.
func digits(got, want float64) float64 {
	if got == want {
		return 16
	}
	return -math.Log10(math.Abs(got-want) / math.Abs(want))
}

// atLeastDigits fails when fewer significant digits agree.
func atLeastDigits(t *testing.T, got, want, least float64, what string) {
	t.Helper()
	require.GreaterOrEqual(t, digits(got, want), least, "%s: %.15g, certified %.15g", what, got, want)
}

// readTable reads a data set of testdata: comment lines, a head, numbers.
func readTable(t *testing.T, name string) [][]float64 {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", name))
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	cells, err := r.ReadAll()
	require.NoError(t, err)
	var out [][]float64
	for _, row := range cells[1:] {
		var values []float64
		for _, cell := range row {
			v, err := strconv.ParseFloat(strings.TrimSpace(cell), 64)
			require.NoError(t, err)
			values = append(values, v)
		}
		out = append(out, values)
	}
	return out
}
