package study

import (
	"context"
	"encoding/json"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero"
	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/keep"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog"
	"wingproof/flightlog/reduce"
)

// The test points and findings of a reduction, and all that is predicted, are data that can be kept: a field that could not
// be read back would silently turn keeping off.
func TestEveryResultCanBeKept(t *testing.T) {
	for _, result := range []any{outcome{Reduction: reduce.Reduction{Points: make([]reduce.TestPoint, 1), Findings: make([]flightlog.Finding, 1)}}, keptPredictions{}, stallOrders{}, []FullSize{}, []TimelineStep{}, []decide.Contrast{}, []decide.CGLimit{}, decide.Assessment{}, decide.Outlook{}} {
		require.Empty(t, notPlain(reflect.TypeOf(result), nil), "%T", result)
	}
}

// notPlain lists what keep.Encode refuses inside a type. The solution of the lattice is left out of what is kept.
func notPlain(t reflect.Type, seen []reflect.Type) []string {
	for _, s := range seen {
		if s == t {
			return nil
		}
	}
	seen = append(seen, t)
	switch t.Kind() {
	case reflect.Slice, reflect.Array, reflect.Pointer:
		return notPlain(t.Elem(), seen)
	case reflect.Map:
		return append(notPlain(t.Key(), seen), notPlain(t.Elem(), seen)...)
	case reflect.Func, reflect.Chan, reflect.Interface, reflect.Complex128:
		return []string{t.String()}
	case reflect.Struct:
		var out []string
		for i := range t.NumField() {
			f := t.Field(i)
			switch {
			case t == reflect.TypeFor[Configuration]() && (f.Name == "Airframe" || f.Name == "spars"):
			case t == reflect.TypeFor[prediction.Analysis]() && (f.Name == "Airframe" || f.Name == "Solution" || f.Name == "grids"):
			case !f.IsExported():
				out = append(out, t.String()+"."+f.Name)
			default:
				out = append(out, notPlain(f.Type, seen)...)
			}
		}
		return out
	}
	return nil
}

// Predictions and stall orders that were kept are those that are computed, but for the solution of the lattice.
func TestKeptPredictionsAreThoseComputed(t *testing.T) {
	p := flown(t)
	plain := studied(t, p, Judged)
	missing, err := plain.Stalls(context.Background())
	require.NoError(t, err)
	for i := range plain.Configurations {
		c := &plain.Configurations[i]
		require.NotNil(t, c.Analysis.Solution)
		a := c.Analysis
		c.Analysis = prediction.Analysis{Airframe: a.Airframe, State: a.State, Trimmed: a.Trimmed, Derivatives: a.Derivatives, Body: a.Body, Numbers: a.Numbers, Warnings: a.Warnings}
	}
	for _, want := range []keep.Counts{{Computed: 5}, {Found: 5}} { // two reductions, the predictions, the stall orders, the verdict
		store := keep.Open(p.Dir, "one")
		s, err := Run(context.Background(), p, Options{Until: Judged, Keep: store})
		require.NoError(t, err)
		told, err := s.Stalls(context.Background())
		require.NoError(t, err)
		require.Equal(t, want, store.Counts())
		require.Equal(t, missing, told)
		require.Equal(t, jsonOf(t, plain.Estimates), jsonOf(t, s.Estimates))
		require.Equal(t, jsonOf(t, plain.Verdict), jsonOf(t, s.Verdict))
		require.Equal(t, plain.ReferenceCG, s.ReferenceCG)
		for i := range plain.Configurations {
			same(t, plain.Configurations[i], s.Configurations[i])
		}
	}
}

// same compares configurations bit for bit: some numbers are none, and those equal nothing.
func same(t *testing.T, want, got Configuration) {
	t.Helper()
	require.Equal(t, want.Airframe, got.Airframe)
	require.Equal(t, want.Airframe, got.Analysis.Airframe)
	require.Equal(t, want.spars, got.spars)
	bytes := func(c Configuration) []byte {
		c.Airframe, c.Analysis.Airframe, c.spars = aero.Airframe{}, aero.Airframe{}, nil
		data, err := keep.Encode(c)
		require.NoError(t, err)
		return data
	}
	require.Equal(t, bytes(want), bytes(got))
}

// bowed is a mean line like a parabola, by its height.
type bowed struct{ height float64 }

func (b bowed) Slope(x float64) float64 { return 4 * b.height * (1 - 2*x) }

// Each thing that predictions read is changed alone and has a key of its own; what only the judging reads costs nothing.
func TestEachIngredientOfAPredictionCounts(t *testing.T) {
	dir := t.TempDir()
	found := func(change func(p *program.Program)) bool {
		p := flown(t)
		p.Choices[0].Levels = p.Choices[0].Levels[:2]
		p.Built = []program.Built{{Part: "spar", Surface: "wing", Y: []float64{0, 1}, Allowable: []float64{1e5, 1e5}, Basis: "limit", KnockDown: 1}}
		p.Choices[0].Levels[1].Edits = []program.Edit{{Surface: "winglet", Toe: evidence.Pointer(0.02)}}
		change(p)
		store := keep.Open(dir, "one")
		_, err := keep.Result(store, keep.Work[int]{Kind: "probe", Inputs: predictionInputsOf(p), Compute: func() (int, error) { return 0, nil }})
		require.NoError(t, err)
		return store.Counts().Found == 1
	}
	require.False(t, found(func(*program.Program) {}))
	for name, change := range map[string]func(p *program.Program){
		"CG flown":     func(p *program.Program) { p.Flights[0].CG = 3.51 },
		"no CG at all": func(p *program.Program) { p.Flights, p.Loadings = nil, nil },
		"gross mass":   func(p *program.Program) { p.FullSize.Mass.Value++ },
		"empty height": func(p *program.Program) { p.FullSize.EmptyZ.Value += 0.01 },
		"load factor":  func(p *program.Program) { p.FullSize.LimitLoadFactor += 0.1 },
		"speed":        func(p *program.Program) { p.FullSize.ManoeuvreSpeed = 61 },
		"station":      func(p *program.Program) { p.Surfaces[0].Stations[0].LeadingEdge.X += 0.001 },
		"mean line":    func(p *program.Program) { p.Surfaces[0].Stations[0].MeanLine = bowed{0.01} },
		"its height":   func(p *program.Program) { p.Surfaces[0].Stations[0].MeanLine = bowed{0.02} },
		"hinge": func(p *program.Program) {
			p.Surfaces[0].Hinges = append(p.Surfaces[0].Hinges, aero.Hinge{Control: "flap"})
		},
		"level's name":  func(p *program.Program) { p.Choices[0].Levels[1].Name = "other" },
		"level's size":  func(p *program.Program) { *p.Choices[0].Levels[1].Edits[0].Toe = 0.01 },
		"a level fewer": func(p *program.Program) { p.Choices[0].Levels = p.Choices[0].Levels[:1] },
		"loading":       func(p *program.Program) { p.Loadings[0].Items[0].Mass++ },
		"built part":    func(p *program.Program) { p.Built[0].Y[1] = 1.1 },
		"fuselage": func(p *program.Program) {
			p.Fuselage = []program.FuselageStation{{X: 0.2}, {X: 1.5, Width: 0.8, Height: 1}, {X: 4}}
		},
		"reference area": func(p *program.Program) { p.Declared.Area = 12 },
		"surface mass":   func(p *program.Program) { p.Masses = append(p.Masses, program.SurfaceMass{Surface: "wing", Mass: 40}) },
		"section data":   func(p *program.Program) { p.Aerofoils = append(p.Aerofoils, program.AerofoilData{Name: "thin"}) },
		"model's field":  func(p *program.Program) { p.Model.TestAltitude++ },
	} {
		require.False(t, found(change), name)
		require.True(t, found(change), "%s, unchanged", name)
	}
	require.True(t, found(func(p *program.Program) {
		p.Name, p.Seed, p.CautionsRead, p.DateOrder = "another", 9, "", "day_first"
		p.Limits, p.TheoryErrors, p.Parts = nil, []program.TheoryError{{Quantity: evidence.NeutralPoint, Bias: 0.1}}, nil
		p.Marks, p.Weighings, p.Loggers, p.Decisions, p.Warnings = nil, nil, nil, nil, []string{"a warning"}
		p.Model.Errors.Alpha = 0.1
		p.Flights[0].Notes, p.Flights[0].Log, p.Flights[1].Mass = "windy", "logs/f02.csv", 15
	}))
}

// What a prediction was computed from decides whether it is found, in a whole run too.
func TestPredictionsOfAChangedProgramAreComputedAgain(t *testing.T) {
	p := flown(t)
	p.Choices, p.Parts = nil, nil
	first, counts := asked(t, p, Predicted, "one")
	require.Equal(t, keep.Counts{Computed: 1}, counts)
	p.FullSize.Mass.Value *= 1.1
	heavier, counts := asked(t, p, Predicted, "one")
	require.Equal(t, keep.Counts{Computed: 1}, counts)
	require.Greater(t, heavier.Configurations[0].Bending[0], first.Configurations[0].Bending[0])
	p.Limits = nil
	_, counts = asked(t, p, Predicted, "one")
	require.Equal(t, keep.Counts{Found: 1}, counts)
	_, counts = asked(t, p, Predicted, "two")
	require.Equal(t, keep.Counts{Computed: 1}, counts, "another executable")
}

// Progress reaches its total on the way through kept results too.
func TestProgressOfKeptResults(t *testing.T) {
	p := flown(t)
	p.Choices, p.Parts = nil, nil
	for range 2 {
		last, end := 0, 0
		_, err := Run(context.Background(), p, Options{Until: Judged, Keep: keep.Open(p.Dir, "one"), Progress: func(done, total int, _ string) {
			require.Equal(t, last+1, done)
			last, end = done, total
		}})
		require.NoError(t, err)
		require.Equal(t, end, last)
	}
}

// A study that is broken off keeps nothing of what it had not finished.
func TestABrokenOffStudyKeepsNothing(t *testing.T) {
	p := flown(t)
	p.Choices, p.Parts = nil, nil
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := Run(ctx, p, Options{Until: Judged, Keep: keep.Open(p.Dir, "one")})
	require.ErrorIs(t, err, context.Canceled)
	_, counts := asked(t, p, Judged, "one")
	require.Equal(t, keep.Counts{Computed: 4}, counts)
}

func jsonOf(t *testing.T, v any) string {
	t.Helper()
	text, err := json.Marshal(v)
	require.NoError(t, err)
	return string(text)
}
