package aerofoil

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestNamesOfFourAndFiveDigits(t *testing.T) {
	for _, c := range []struct {
		written, name string
		thickness     float64
		flat          bool
	}{
		{"2412", "NACA 2412", 0.12, false},
		{" naca-0009 ", "NACA 0009", 0.09, true},
		{"NACA 23012", "NACA 23012", 0.12, false},
		{"naca23115", "NACA 23115", 0.15, false},
	} {
		section, err := ParseNACA(c.written)
		require.NoError(t, err)
		require.Equal(t, c.name, section.Name)
		require.InDelta(t, c.thickness, section.Thickness, 1e-15)
		require.Equal(t, c.flat, section.Line == nil)
		require.Empty(t, section.Doubt)
	}
	section, err := ParseNACA("64012")
	require.NoError(t, err)
	require.Contains(t, section.Doubt, "64-012")
	section, err = ParseNACA("62021")
	require.NoError(t, err)
	require.Empty(t, section.Doubt)
}

func TestMistakesInNames(t *testing.T) {
	for name, want := range map[string]string{
		"":        "there are no digits",
		"NACA":    "there are no digits",
		"241":     "not four or five digits",
		"230123":  "not four or five digits",
		"23o12":   "not four or five digits",
		"64-012":  "six-series",
		"0012-64": "modified",
		"64A010":  "six-series",
		"23212":   "third digit is 2",
		"03012":   "a symmetric section has four digits",
		"21112":   "not tabulated",
		"26012":   "tabulated for 1 to 5",
		"20012":   "tabulated for 1 to 5",
		"2012":    "cannot have its top at the leading edge",
	} {
		section, err := ParseNACA(name)
		require.ErrorContains(t, err, want, name)
		require.ErrorContains(t, err, `aerofoil "`+name+`"`)
		require.Zero(t, section)
	}
	_, err := ParseFiveDigit("2412")
	require.ErrorContains(t, err, "not a five-digit section")
}

func FuzzParseNACA(f *testing.F) {
	for _, name := range []string{"2412", "NACA 23012", "naca-23112", "64-012", "", "９９９９", "00000"} {
		f.Add(name)
	}
	f.Fuzz(func(t *testing.T, name string) {
		section, err := ParseNACA(name)
		if err != nil {
			require.Zero(t, section)
			return
		}
		again, err := ParseNACA(section.Name)
		require.NoError(t, err)
		require.Equal(t, section, again)
		require.True(t, section.Thickness >= 0 && section.Thickness < 1)
	})
}
