package forecast_test

import (
	"context"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/demo"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/forecast"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog"
)

var season struct {
	once sync.Once
	dir  string
	err  error
}

// flownSeason is a demo programme: flights of an aircraft whose truth the forecast does not know, flown with another seed.
func flownSeason(t *testing.T) string {
	t.Helper()
	season.once.Do(func() {
		if season.dir, season.err = os.MkdirTemp("", "forecast"); season.err == nil {
			season.err = demo.Write(context.Background(), filepath.Join(season.dir, "program"), filepath.Join(season.dir, "truth.json"), 5, nil)
		}
	})
	require.NoError(t, season.err)
	return filepath.Join(season.dir, "program")
}

func TestMain(m *testing.M) {
	code := m.Run()
	os.RemoveAll(season.dir)
	os.Exit(code)
}

// judged is the study of a few flights of the season.
func judged(t *testing.T, flights ...string) *study.Study {
	t.Helper()
	p, err := program.Load(flownSeason(t))
	require.NoError(t, err)
	p.Flights = slices.DeleteFunc(p.Flights, func(f program.Flight) bool { return !slices.Contains(flights, f.Name) })
	st, err := study.Run(context.Background(), p, study.Options{Until: study.Judged})
	require.NoError(t, err)
	return st
}

// halfWidth of what the flights of a configuration measured.
func halfWidth(st *study.Study, configuration, quantity string) float64 {
	for _, e := range st.Estimates {
		if e.Origin == evidence.Measured && e.Scale == evidence.ModelScale && e.Configuration == configuration && e.Quantity == quantity && e.Low != nil && e.High != nil {
			return (*e.High - *e.Low) / 2
		}
	}
	return math.NaN()
}

func planned(t *testing.T, winglet, logger string, cgs ...float64) []forecast.Planned {
	t.Helper()
	cards, err := forecast.Sheet([]string{"glide", "level", "doublet", "multistep", "sideslip"})
	require.NoError(t, err)
	var out []forecast.Planned
	for _, cg := range cgs {
		out = append(out, forecast.Planned{Levels: map[string]string{"winglet": winglet, "foreplane": "long"}, CG: cg, Cards: cards, Logger: logger})
	}
	return out
}

// A season is cut short, its other flights are forecast, and then they are flown: intervals come out as wide as was said. Single ones scatter, since a
// scatter between three to five flights is itself known by half only.
func TestWidthsAreReached(t *testing.T) {
	quantities := []string{"neutral_point", "trimmed_lift_curve_slope", "directional_stiffness", "dihedral_effect", "pitch_stiffness", "pitch_damping", "elevator_power",
		"roll_damping", "aileron_power", "rudder_power", "dutch_roll_frequency", "short_period_frequency"}
	for _, c := range []struct {
		winglet, logger string
		before, after   []string
		cgs             []float64
	}{
		{"mid", "field-box", []string{"F01", "F03"}, []string{"F01", "F02", "F03", "F04", "F05"}, []float64{3.69, 3.56, 3.82}},
		{"tall", "spare-box", []string{"F01", "F03"}, []string{"F01", "F03", "F10", "F11", "F12"}, []float64{3.56, 3.69, 3.82}},
	} {
		before := judged(t, c.before...)
		r, err := forecast.Run(context.Background(), before, planned(t, c.winglet, c.logger, c.cgs...), forecast.Options{Seed: 1, Times: 3})
		require.NoError(t, err)
		name := evidence.Name(map[string]string{"winglet": c.winglet, "foreplane": "long"})
		flown := judged(t, c.after...)
		var ratios []float64
		for _, q := range quantities {
			for _, i := range r.Intervals {
				if i.Origin != evidence.Measured || i.Quantity != q || i.After == nil {
					continue
				}
				require.Equal(t, forecast.Mark, i.Mark)
				ratio := *i.After / halfWidth(flown, name, q)
				t.Logf("%s: %s forecast %.3g reached %.3g: %.2f", c.winglet, q, *i.After, halfWidth(flown, name, q), ratio)
				ratios = append(ratios, ratio)
			}
		}
		require.Len(t, ratios, len(quantities))
		slices.Sort(ratios)
		require.InDelta(t, 1.1, (ratios[5]+ratios[6])/2, 0.5, "median of the ratios: 0.6 to 1.6")
		require.Greater(t, ratios[1], 0.4)
		require.Less(t, ratios[10], 2.5)
	}
}

// The same folder gives the same bytes whatever the number of processors, and the study is left as it was.
func TestForecastIsTheSame(t *testing.T) {
	st := judged(t, "F01", "F03")
	untouched, err := json.Marshal(st.Estimates)
	require.NoError(t, err)
	var want []byte
	for _, processors := range []int{1, 7} {
		before := runtime.GOMAXPROCS(processors)
		r, err := forecast.Rehearse(context.Background(), st, planned(t, "small", "", 3.56, 3.8), 4)
		runtime.GOMAXPROCS(before)
		require.NoError(t, err)
		got, err := json.Marshal(r)
		require.NoError(t, err)
		if want == nil {
			want = got
		}
		require.Equal(t, string(want), string(got), "%d processors", processors)
	}
	other, err := forecast.Rehearse(context.Background(), st, planned(t, "small", "", 3.56, 3.8), 5)
	require.NoError(t, err)
	got, err := json.Marshal(other)
	require.NoError(t, err)
	require.NotEqual(t, string(want), string(got), "another seed is another draw")
	after, err := json.Marshal(st.Estimates)
	require.NoError(t, err)
	require.Equal(t, string(untouched), string(after))
}

// A logger without rate gyros tells no derivatives, in the forecast as in flight; without any flight the errors of the instruments are drawn.
func TestForecastKnowsWhatTheLoggerHas(t *testing.T) {
	st := judged(t)
	require.Empty(t, st.Flights)
	flights := planned(t, "mid", "field-box", 3.6, 3.75)
	whole, err := forecast.Rehearse(context.Background(), st, flights, 1)
	require.NoError(t, err)
	require.True(t, has(whole, "roll_damping"))
	require.True(t, has(whole, "neutral_point"))
	for i, l := range st.Program.Loggers {
		columns := slices.Clone(l.Columns)
		st.Program.Loggers[i].Columns = slices.DeleteFunc(columns, func(c flightlog.Column) bool {
			return c.Is == "roll_rate" || c.Is == "yaw_rate" || c.Is == "pitch_rate"
		})
	}
	poor, err := forecast.Rehearse(context.Background(), st, flights, 1)
	require.NoError(t, err)
	require.False(t, has(poor, "roll_damping"))
}

func has(r forecast.Result, quantity string) bool {
	return slices.ContainsFunc(r.Intervals, func(i forecast.Interval) bool {
		return i.Quantity == quantity && i.Origin == evidence.Measured && i.After != nil
	})
}

// What cannot be rehearsed is refused in words, before anything is flown.
func TestForecastRefuses(t *testing.T) {
	st := judged(t, "F01", "F03")
	for words, edit := range map[string]func(p *forecast.Planned){
		"program.toml has no [logger.yours]":                    func(p *forecast.Planned) { p.Logger = "yours" },
		"there is no configuration foreplane=long":              func(p *forecast.Planned) { p.Levels = map[string]string{"foreplane": "long"} },
		"a flight without cards":                                func(p *forecast.Planned) { p.Cards = nil },
		"a CG at 4.100 m lies aft of":                           func(p *forecast.Planned) { p.CG = 4.1 },
		"a glide at 9.0 m/s is too slow: the model is believed": func(p *forecast.Planned) { p.Cards = []forecast.Card{{Kind: "glide", Speed: 9}} },
	} {
		flights := planned(t, "mid", "", 3.6)
		edit(&flights[0])
		_, err := forecast.Rehearse(context.Background(), st, flights, 1)
		var refused *study.InputError
		require.ErrorAs(t, err, &refused, words)
		require.ErrorContains(t, err, words)
	}
	_, err := forecast.Rehearse(context.Background(), st, nil, 1)
	require.ErrorContains(t, err, "no flight is planned")
	stopped, stop := context.WithCancel(context.Background())
	stop()
	_, err = forecast.Rehearse(stopped, st, planned(t, "mid", "", 3.6), 1)
	require.ErrorIs(t, err, context.Canceled)
}

// Where a configuration never flew both ends of the range lack, where it flew at one end the other does.
func TestLackingCGs(t *testing.T) {
	st := judged(t, "F01") // mid and long, forward
	both, ok := forecast.LackingCGs(st, map[string]string{"winglet": "tall", "foreplane": "short"})
	require.True(t, ok)
	require.Len(t, both, 2)
	require.Less(t, both[0], both[1])
	aft, ok := forecast.LackingCGs(st, map[string]string{"winglet": "mid", "foreplane": "long"})
	require.True(t, ok)
	require.Len(t, aft, 1)
	require.Greater(t, aft[0], 3.7)
	_, ok = forecast.LackingCGs(st, map[string]string{"winglet": "mid"})
	require.False(t, ok)
}
