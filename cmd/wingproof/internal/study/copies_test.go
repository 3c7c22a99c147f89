package study

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/program"
)

// One log under two names, or named twice, is one flight; logs that only have one size are two.
func TestOneLogCountsOnce(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{"a.csv": "time,q\n0,1\n", "copy.csv": "time,q\n0,1\n", "b.csv": "time,q\n0,2\n"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
	}
	s := &Study{Program: &program.Program{Dir: dir}}
	for _, row := range [][2]string{{"F1", "a.csv"}, {"F2", "b.csv"}, {"F3", "copy.csv"}, {"F4", "a.csv"}, {"F5", "gone.csv"}} {
		s.Flights = append(s.Flights, Flight{Flight: program.Flight{Name: row[0], Log: row[1]}, Used: true})
	}
	s.leaveOutCopies()
	var used []bool
	for _, f := range s.Flights {
		used = append(used, f.Used)
	}
	require.Equal(t, []bool{true, true, false, false, true}, used)
	require.Contains(t, s.Flights[2].Why, "the same bytes as that of flight F1")
}
