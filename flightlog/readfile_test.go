package flightlog

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func write(t *testing.T, path, text string) string {
	t.Helper()
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}

func TestReadFile(t *testing.T) {
	path := write(t, filepath.Join(t.TempDir(), "a.csv"), "time,wy,speed\n0,1,36\n1,2,36\n")
	rec, err := ReadFile(path, fieldBox())
	require.NoError(t, err)
	require.Equal(t, path, rec.Source)
	require.Equal(t, []float64{10, 10}, rec.Channels[Airspeed].Value)
	require.Empty(t, rec.Findings)
}

// What is no log is named in a sentence; what the system refuses stays the system's error.
func TestReadFileRefuses(t *testing.T) {
	dir := t.TempDir()
	_, err := ReadFile(dir, fieldBox())
	require.EqualError(t, err, dir+": this is a folder, not a log; name a file inside it")
	for name, c := range map[string]struct{ text, want string }{
		"empty.csv":  {"", ": the file is empty; give a log with a line of column heads and rows of numbers"},
		"binary.bin": {"\x7f\x00\x01\x02\x00\x00\x03", ": the file is binary, not a text table; export the log as CSV from the logger's own software"},
		"book.csv":   {"PK\x03\x04\x00\x00\x00\x00\x00", ": the file is a packed archive or a spreadsheet workbook, not a text table; unpack it, or save the sheet as CSV"},
		"heads.csv":  {"time,wy,speed", ":1: there is no row of samples below the heads; give a log with samples"},
	} {
		path := write(t, filepath.Join(dir, name), c.text)
		_, err := ReadFile(path, fieldBox())
		require.EqualError(t, err, path+c.want)
		require.Len(t, Mistakes(err), 1)
	}
	_, err = ReadFile(filepath.Join(dir, "none.csv"), fieldBox())
	require.ErrorIs(t, err, os.ErrNotExist)
	_, err = ReadFile(filepath.Join(dir, "heads.csv", "a.csv"), fieldBox()) // a file where a folder should be
	require.ErrorContains(t, err, "read log: ")
	require.Empty(t, Mistakes(err))
}

// Half a file is read as far as it goes, and the cut line is told.
func TestReadHalfAFile(t *testing.T) {
	whole := "time,wy,speed\n" + strings.Repeat("0,1,36\n", 1) + "0.02,1,36\n0.04,1,72\n"
	path := write(t, filepath.Join(t.TempDir(), "half.csv"), whole[:len(whole)-2])
	rec, err := ReadFile(path, fieldBox())
	require.NoError(t, err)
	require.Equal(t, []float64{0, 0.02, 0.04}, rec.Channels[PitchRate].Time)
	require.Equal(t, []float64{0, 0.02}, rec.Channels[Airspeed].Time)
	require.Len(t, rec.Findings, 1)
	require.Equal(t, "the last line has no end", rec.Findings[0].What)
}

// A logger writes on while its file is read: what the file held when it was opened is the log.
func TestReadFileThatGrows(t *testing.T) {
	path := write(t, filepath.Join(t.TempDir(), "a.csv"), "time,wy,speed\n0,1,36\n0.02,1,36\n0.04,1,3")
	f, err := os.OpenFile(path, os.O_RDWR|os.O_APPEND, 0)
	require.NoError(t, err)
	defer f.Close()
	r, err := asOpened(f)
	require.NoError(t, err)
	_, err = f.WriteString("6\n0.06,1,36\n")
	require.NoError(t, err)
	rec, err := Read(r, path, fieldBox())
	require.NoError(t, err)
	require.Equal(t, []float64{0, 0.02, 0.04}, rec.Channels[PitchRate].Time)
	require.Equal(t, []float64{0, 0.02}, rec.Channels[Airspeed].Time)
	require.Equal(t, "the last line has no end", rec.Findings[0].What)
	rec, err = ReadFile(path, fieldBox())
	require.NoError(t, err)
	require.Len(t, rec.Channels[Airspeed].Time, 4)
}

// A file that has shrunk since it was opened is half a file.
func TestReadFileThatShrinks(t *testing.T) {
	path := write(t, filepath.Join(t.TempDir(), "a.csv"), "time,wy,speed\n0,1,36\n0.02,1,36\n")
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	require.NoError(t, err)
	defer f.Close()
	r, err := asOpened(f)
	require.NoError(t, err)
	require.NoError(t, f.Truncate(25))
	rec, err := Read(r, path, fieldBox())
	require.NoError(t, err)
	require.Equal(t, []float64{0}, rec.Channels[Airspeed].Time)
}
