package program

import (
	"errors"
	"io/fs"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
)

// largestFuzz keeps inputs small: size finds nothing here that shape does not.
const largestFuzz = 1 << 16

// inMemory is the folder as a file system, with one file exchanged.
func inMemory(files map[string]string, name string, raw []byte) fs.FS {
	out := fstest.MapFS{}
	for n, text := range files {
		out[n] = &fstest.MapFile{Data: []byte(text)}
	}
	out[name] = &fstest.MapFile{Data: raw}
	return out
}

// requirePositions checks that every mistake points into a file that is there.
func requirePositions(t *testing.T, err error, files fs.FS) {
	t.Helper()
	var mistakes Mistakes
	require.True(t, errors.As(err, &mistakes), "%v", err)
	require.NotEmpty(t, mistakes)
	for _, m := range mistakes {
		raw, err := fs.ReadFile(files, m.File)
		require.NoError(t, err, "%v", m)
		text, _ := decode(raw)
		whole := string(text)
		if !strings.Contains(whole, "\n") && m.File != ProgramFile {
			whole = strings.ReplaceAll(whole, "\r", "\n")
		}
		lines := strings.Split(whole, "\n")
		require.GreaterOrEqual(t, m.Line, 1, "%v", m)
		require.LessOrEqual(t, m.Line, len(lines), "%v", m)
		require.GreaterOrEqual(t, m.Column, 1, "%v", m)
		require.LessOrEqual(t, m.Column, len(lines[m.Line-1])+1, "%v", m)
		require.NotEmpty(t, m.What)
		require.NotContains(t, m.Error(), "\n")
	}
}

func fuzzFile(f *testing.F, name string, seeds ...string) {
	sound := furnished(f)
	if text, ok := sound[name]; ok {
		f.Add([]byte(text))
		f.Add([]byte(strings.ReplaceAll(text, ",", ";")))
		f.Add([]byte("\xff\xfe" + text))
	}
	for _, s := range seeds {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		if len(raw) > largestFuzz {
			return
		}
		files := inMemory(sound, name, raw)
		p, err := load(files, "folder")
		if err != nil {
			requirePositions(t, err, files)
			return
		}
		again, err := load(files, "folder")
		require.NoError(t, err)
		require.Equal(t, p, again)
		for _, levels := range p.Configurations() {
			require.Len(t, levels, len(p.Choices))
		}
	})
}

func FuzzProgramFile(f *testing.F) {
	fuzzFile(f, ProgramFile,
		"[logger.x]\nsensors = { inertial = { x_mm = 1, y_mm = 0, z_in = 2 }, tube = { x_m = 99 }, wing = 3 }\ntime = { column = 't', unit = 's' }\nchannels = [{ column = 'a', is = 'altitude', unit = 'm', delay_ms = 200 }]\n", "format = 9", "a.b = 1\na = 2", "[a]\n[[a]]\n", "x = [[1, {y = []}], 2026-01-02]", "[choice]\nlevel = 1", "\"\" = 1", "format = 1\r\n[model]\r\nlength_ratio = 1e999",
		"[[lifting_surface]]\nname = 'a'\nrole = 'wing'\nstations = 'flights.csv'",
		"[fuselage]\nstations = 'shape/wing.csv'\n[full_size]\nnegative_limit_load_factor = 2\ndive_speed_kt = 10\nmanoeuvre_speed_kt = 20\ngust_dive_m_s = 3\n",
		"[[aerofoil]]\nname = 'a'\nmean_line = 'shape/bent.csv'\nnaca = 23012\nthickness_percent = 12\npolar = 'shape/bent.csv'\n",
		"[[loading]]\nname = 'a'\nitems = [{ what = 'tank', mass_kg = 1, x_m = 1, y_m = 1, z_m = 0, span_from_m = 2, span_to_m = 1 }]\n")
}

func FuzzFlights(f *testing.F) {
	fuzzFile(f, FlightsFile, "flight\n\"", "sep=;\nflight;use\na;yes\n", "a,\"b\nc\",d\n1,2,3,4\n")
}

func FuzzWeighings(f *testing.F) {
	fuzzFile(f, weighingsFile, "weighing;mass_kg;cg_x_mm\nw1;1.250;1,5\n")
}

func FuzzMarks(f *testing.F) {
	fuzzFile(f, MarksFile, "flight\tstart_s\tend_s\tmanoeuvre\nf01\t1\t\tx\n")
}

func FuzzCards(f *testing.F) {
	fuzzFile(f, CardsFile, "card,flight,manoeuvre,control,speed_kt,speed_tolerance_percent,bank_deg,repeats,winglet,notes\nslow,f01,glide,,40,10,,2,mid,\n",
		"card;manoeuvre;control;bank_rad\na;doublet;Elevator;0,5\na;doublet;;\n", "card,manoeuvre,speed_furlongs\nx,y,z\n", "card,flight,manoeuvre,winglet\na,f02,level,tall\n")
}

func FuzzParts(f *testing.F) {
	fuzzFile(f, PartsFile, "part,stage\nspar,laid_up\n", "part,stage,built_to\nspar,plug,winglet=mid and foreplane=large; =\n")
}

func FuzzDecisions(f *testing.F) {
	fuzzFile(f, DecisionsFile, strings.Join(decisionHeads(), ",")+"\n1,settle,2026-03-19,winglet,mid,ab,so,,\n2,void,2026-03-20,1,,ab,no,,\n")
}

func FuzzStations(f *testing.F) { fuzzFile(f, "shape/wing.csv") }

func FuzzOutline(f *testing.F) { fuzzFile(f, "shape/thin-12.csv", "x_mm,y_mm\n100,0\n0,1\n0,0\n") }

func FuzzMeanLine(f *testing.F) { fuzzFile(f, "shape/bent.csv", "x_mm,y_mm\n0,0\n100,0\n") }

func FuzzPolar(f *testing.F) {
	fuzzFile(f, "shape/fore-polar.csv", "reynolds;flap_rad;state;max_lift;source\n1e6;0,1;Clean;1,5;x\n1e6;0,1;clean;1,5;\n", "state\n")
}

func FuzzFuselage(f *testing.F) {
	fuzzFile(f, "shape/fuselage.csv", "station,x_m,width_m,height_m,z_m\n1,0,0,1,0\n2,0,0,0,0\n3,1,1,1,1\n")
}

// A name of a size is read or refused in words; what was read makes an edit that program.toml would take too.
func FuzzEditOf(f *testing.F) {
	for _, s := range []string{"winglet.height_m", "fore.plane.span_ft", "x.cant", "x.chord_scale_m", ".toe_deg", "", "x.\xff_m"} {
		f.Add(s, 1.0)
	}
	f.Fuzz(func(t *testing.T, key string, written float64) {
		size, err := EditOf(key)
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		again, err := EditOf(size.Key)
		require.NoError(t, err)
		require.Equal(t, size.Key, again.Key)
		e, err := size.Edit(written)
		if err != nil {
			return
		}
		v := *size.size.field(&e)
		require.NotNil(t, v)
		require.InDelta(t, written, size.unit.From(*v), 1e-9*math.Max(1, math.Abs(written)))
	})
}

func FuzzAllowable(f *testing.F) { fuzzFile(f, "shape/spar-allowable.csv") }
