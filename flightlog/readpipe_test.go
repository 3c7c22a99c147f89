//go:build unix

package flightlog

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// A pipe and a device have no size: they are read to their end.
func TestReadPipe(t *testing.T) {
	path := filepath.Join(t.TempDir(), "pipe")
	require.NoError(t, syscall.Mkfifo(path, 0o600))
	written := make(chan error, 1)
	go func() {
		f, err := os.OpenFile(path, os.O_WRONLY, 0)
		if err == nil {
			for _, piece := range []string{"time,w", "y,speed\n0,1,36\n0.0", "2,1,36\n"} {
				_, _ = f.WriteString(piece)
			}
			err = f.Close()
		}
		written <- err
	}()
	rec, err := ReadFile(path, fieldBox())
	require.NoError(t, err)
	require.NoError(t, <-written)
	require.Equal(t, []float64{0, 0.02}, rec.Channels[Airspeed].Time)
}

func TestReadDevice(t *testing.T) {
	_, err := ReadFile(os.DevNull, fieldBox())
	require.EqualError(t, err, os.DevNull+": the file is empty; give a log with a line of column heads and rows of numbers")
	_, err = ReadFile("/dev/zero", fieldBox()) // has no end, but its beginning tells
	require.EqualError(t, err, "/dev/zero: the file is binary, not a text table; export the log as CSV from the logger's own software")
}
