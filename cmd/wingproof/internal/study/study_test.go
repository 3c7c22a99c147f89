package study

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero"
	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog"
	"wingproof/flightlog/reduce"
)

// invented is a new program folder as read: three winglets, one foreplane, no flights.
func invented(t *testing.T) *program.Program {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "reed")
	require.NoError(t, program.New(dir, program.NewOptions{Name: "Reed (invented)"}))
	p, err := program.Load(dir)
	require.NoError(t, err)
	p.CautionsRead = "T.E., 2026-01-01"
	for _, f := range []*program.Figure{&p.FullSize.Mass, &p.FullSize.EmptyMass, &p.FullSize.EmptyX, &p.FullSize.EmptyZ} {
		f.Source = "invented"
	}
	return p
}

func studied(t *testing.T, p *program.Program, until Stage) *Study {
	t.Helper()
	s, err := Run(context.Background(), p, Options{Until: until})
	require.NoError(t, err)
	return s
}

func predictions(s *Study, configuration, quantity string) evidence.Estimate {
	for _, e := range s.Estimates {
		if e.Origin == evidence.Predicted && e.Configuration == configuration && e.Quantity == quantity {
			return e
		}
	}
	return evidence.Estimate{}
}

func TestLoadedCGByHand(t *testing.T) {
	full := program.FullSize{EmptyMass: program.Figure{Value: 600, SD: 6}, EmptyX: program.Figure{Value: 4, SD: 0.01}}
	l := program.Loading{Items: []program.Item{{What: "pilot", Mass: 100, X: 2}, {What: "fuel", Mass: 100, X: 4}}}
	mass, x := prediction.LoadedCG(full, l)
	require.Equal(t, 800.0, mass)
	require.Equal(t, (600*4+100*2+100*4)/800.0, x) // 3.75 m
	got := prediction.LoadedCGErrors(full, l)
	require.InDelta(t, 0.75*0.01, got[prediction.SourceEmptyCG], 1e-15)
	heavier := full // two roads: the empty aircraft one standard deviation heavier
	heavier.EmptyMass.Value += 1e-4
	_, moved := prediction.LoadedCG(heavier, l)
	require.InDelta(t, (moved-x)/1e-4*6, got[prediction.SourceEmptyMass], 1e-8)
}

func TestReferenceCGIsThatOfWhatFlies(t *testing.T) {
	p := &program.Program{
		FullSize: program.FullSize{EmptyMass: program.Figure{Value: 600}, EmptyX: program.Figure{Value: 4}},
		Loadings: []program.Loading{
			{Name: "light", Flies: true},
			{Name: "heavy", Flies: true, Items: []program.Item{{Mass: 200, X: 2}}},
			{Name: "on the ground", Items: []program.Item{{Mass: 600, X: 0}}},
		},
	}
	x, ok := prediction.ReferenceCG(p)
	require.True(t, ok)
	require.InDelta(t, (4+3.5)/2, x, 1e-12)
	forward, aft, ok := prediction.LoadedRange(p)
	require.True(t, ok)
	require.InDelta(t, 3.5, forward, 1e-12)
	require.InDelta(t, 4, aft, 1e-12)

	p.Flights = []program.Flight{{Use: true, CG: 0}, {Use: true, CG: 0.2}, {Use: false, CG: 9}} // a datum at the CG is a datum
	x, ok = prediction.ReferenceCG(p)
	require.True(t, ok)
	require.InDelta(t, 0.1, x, 1e-12)
	require.Equal(t, []float64{0, 0.2}, flownCGs(p))

	_, ok = prediction.ReferenceCG(&program.Program{})
	require.False(t, ok)
	_, _, ok = prediction.LoadedRange(&program.Program{Loadings: p.Loadings})
	require.False(t, ok)
}

func TestScaleSetsTheNewestWeighingBesideTheTargets(t *testing.T) {
	p := invented(t)
	p.Weighings = []program.Weighing{{Name: "late", Date: "2026-03-02", Mass: 15}, {Name: "early", Date: "2026-01-02", Mass: 14}}
	sheet, err := Scale(p)
	require.NoError(t, err)
	mass := sheet.Rows[0]
	require.InDelta(t, p.FullSize.Mass.Value*math.Pow(p.Model.LengthRatio, 3)*sheet.Ratios.Density, mass.Target, 1e-9)
	require.Equal(t, 15.0, *mass.Measured)
	require.Contains(t, sheet.Speeds[1].Name, "lift coefficient 0.5")
	require.InDelta(t, 0.5, *sheet.Speeds[1].Lift, 1e-9)
	p.FullSize.Mass.Value = 0
	_, err = Scale(p)
	require.ErrorContains(t, err, "mass_kg is not stated")
}

func TestDateIsTheNewestOfTheFolder(t *testing.T) {
	p := &program.Program{
		Flights:   []program.Flight{{Date: "2026-02-03"}, {Date: "2026-03-01"}},
		Weighings: []program.Weighing{{Date: "2026-01-30"}},
	}
	require.Equal(t, "2026-03-01", dateOf(p, ""))
	p.Decisions = []program.Decision{{Date: "2026-03-09"}}
	require.Equal(t, "2026-03-09", dateOf(p, ""))
	require.Equal(t, "2025-12-31", dateOf(p, "2025-12-31"))
	require.Empty(t, dateOf(&program.Program{}, ""))
}

// Whatever a folder leaves out, every number that is printed is one: encoding/json refuses NaN and infinities.
func TestEveryFolderGivesNumbersThatCanBePrinted(t *testing.T) {
	ground := []string{evidence.TipBackAngle, evidence.NoseGearShare, evidence.OverturnAngle}
	loaded := append([]string{evidence.StaticMargin, evidence.FuelTravel}, ground...)
	without := func(p *program.Program, quantities []string) {
		p.Limits = slices.DeleteFunc(p.Limits, func(l program.Limit) bool { return slices.Contains(quantities, l.Quantity) })
		p.Parts = nil
	}
	for name, leaveOut := range map[string]func(*program.Program){
		"nothing": func(*program.Program) {},
		"elevator": func(p *program.Program) {
			for i := range p.Surfaces {
				p.Surfaces[i].Hinges = nil
			}
		},
		"choices":      func(p *program.Program) { p.Choices, p.Parts = nil, nil },
		"gear":         func(p *program.Program) { without(p, ground); p.Gear = nil },
		"loadings":     func(p *program.Program) { without(p, loaded); p.Loadings = nil },
		"empty weight": func(p *program.Program) { without(p, loaded); p.FullSize.EmptyMass = program.Figure{} },
	} {
		t.Run("without "+name, func(t *testing.T) {
			t.Parallel()
			p := invented(t)
			leaveOut(p)
			s := studied(t, p, Judged)
			require.NotEmpty(t, s.Estimates)
			for _, part := range []any{s.Estimates, s.Margins, s.Verdict} {
				_, err := json.Marshal(part)
				require.NoError(t, err)
			}
			for _, e := range slices.Concat(s.Estimates, s.Margins) {
				require.NotNil(t, e.Flights)
				require.NotNil(t, e.Warnings)
				if e.SD != nil {
					require.InEpsilon(t, *e.SD, evidence.Total(*e.SDOwn, e.Common), 1e-9, "%s of %s", e.Quantity, e.Configuration)
				}
			}
		})
	}
}

// Two configurations share the bias of theory, the errors of the levels that they share and the error of the grid, and nothing else.
func TestPredictionsShareTheErrorsOfTheirLevels(t *testing.T) {
	p := invented(t)
	s := studied(t, p, Predicted)
	chord := s.Configurations[0].Airframe.Reference.MeanChord
	for _, e := range TheoryErrors(p, chord) {
		if e.Quantity != evidence.NeutralPoint {
			continue
		}
		a := predictions(s, s.Configurations[0].Name, evidence.NeutralPoint)
		b := predictions(s, s.Configurations[1].Name, evidence.NeutralPoint)
		grid := a.Common["lattice grid of neutral_point"] * b.Common["lattice grid of neutral_point"]
		require.Positive(t, grid)
		require.InDelta(t, e.Bias*e.Bias+grid, evidence.Covariance(a, b), 1e-15, "different winglets share the bias alone")
		require.InDelta(t, e.Interaction, *a.SDOwn, 1e-15)
		percent := predictions(s, s.Configurations[0].Name, evidence.NeutralPointPercent)
		require.InDelta(t, 100/chord**a.SD, *percent.SD, 1e-12)
	}
	root := predictions(s, s.Configurations[0].Name, evidence.RootBendingMoment)
	require.Equal(t, evidence.FullSize, root.Scale)
	require.Contains(t, root.Common, "full size shape of root_bending_moment")
}

// Cn_β about the aftmost loading differs from that about the reference CG by CY_β·Δx/b.
func TestDirectionalStiffnessIsThatOfTheAftmostLoading(t *testing.T) {
	p := invented(t)
	s := studied(t, p, Judged)
	_, aft, ok := prediction.LoadedRange(p)
	require.True(t, ok)
	for _, c := range s.Configurations {
		shift := c.Derivatives.ByBeta.Side * (aft - s.ReferenceCG) / c.Airframe.Reference.Span
		require.InDelta(t, c.Derivatives.ByBeta.Yaw+shift, c.DirectionalStiffness, 1e-12)
		require.Less(t, c.DirectionalStiffness, c.Derivatives.ByBeta.Yaw, "less of it is left further aft")
		require.Equal(t, aft, *predictions(s, c.Name, evidence.DirectionalStiffness).At.CG)
	}
	for _, e := range s.Estimates {
		if e.Origin == evidence.Anchored && e.Quantity == evidence.DirectionalStiffness {
			require.Equal(t, aft, *e.At.CG)
		}
	}
	p.Loadings, p.Limits, p.Parts = nil, nil, nil
	p.Flights = []program.Flight{{Use: true, CG: 3.3, Levels: s.Configurations[0].Levels}}
	alone := studied(t, p, Predicted)
	require.Equal(t, 3.3, alone.Configurations[0].StiffnessCG, "without loadings the CGs flown are all there is")
}

// The CG about which the lattice is trimmed and linearised moves the neutral point by less than a tenth of its
// stated error, and the trim rate likewise, so that evidence at other CGs anchors the same belief.
func TestReferenceCGHardlyMattersToWhatIsAnchored(t *testing.T) {
	p := invented(t)
	levels := p.Configurations()[0]
	cg, _ := prediction.ReferenceCG(p)
	about := func(cg float64) Configuration {
		airframe, _, err := p.Airframe(levels)
		require.NoError(t, err)
		setup, err := Setup(p, cg)
		require.NoError(t, err)
		setup.Grids = false
		all, err := prediction.Analyse([]aero.Airframe{airframe}, setup)
		require.NoError(t, err)
		c := Configuration{Name: evidence.Name(levels), Levels: levels, Airframe: airframe}
		require.NoError(t, c.take(all[0], p, setup.CG))
		return c
	}
	middle := about(cg)
	chord := middle.Airframe.Reference.MeanChord
	for _, away := range []float64{-0.1, 0.1} {
		c := about(cg + away*chord)
		t.Logf("%+.0f %% of the chord: neutral point %+.3f %% of the chord, trim rate %+.2f %%", 100*away,
			100*(c.NeutralPoint-middle.NeutralPoint)/chord, 100*(c.ElevatorTrimRate/middle.ElevatorTrimRate-1))
		require.InDelta(t, middle.NeutralPoint, c.NeutralPoint, 0.002*chord)
		require.InEpsilon(t, middle.ElevatorTrimRate, c.ElevatorTrimRate, 0.015)
	}
}

func TestBendingRatios(t *testing.T) {
	p := invented(t)
	plain := studied(t, p, Predicted).Configurations[0]
	require.Equal(t, 0.0, plain.BendingAxis[0])
	y := []float64{0.8, 2.5}
	spar := program.Built{Part: "main spar", Surface: "wing", Y: y, Basis: "ultimate", KnockDown: 0.9, SD: 0.05, Allowable: []float64{1, 1}}
	p.Built = []program.Built{spar}
	s := studied(t, p, Predicted)
	c := s.Configurations[0]
	require.Equal(t, []float64{0, 0.8, 2.5}, c.BendingAxis)
	require.InDelta(t, plain.Bending[0], c.Bending[0], 1e-9*c.Bending[0], "the root is the plane of symmetry, whatever the table holds")

	spar.Allowable = []float64{2 * c.Bending[1], 0}
	ratios := s.BendingRatios(c, spar)
	require.InDelta(t, 0.5*1.5/0.9, ratios[0].Value, 1e-12, "ultimate over 1.5, knocked down by 0.9")
	require.Less(t, ratios[0].Low, ratios[0].Value)
	require.InDelta(t, ratios[0].Value-ratios[0].Low, ratios[0].High-ratios[0].Value, 1e-12)
	require.True(t, math.IsNaN(ratios[1].Value), "it carries nothing there")
}

// A part in the foreplane is held against the foreplane's bending, not the wing's.
func TestBuiltPartsHaveTheBendingOfTheirSurface(t *testing.T) {
	p := invented(t)
	y := []float64{0.2, 1}
	p.Built = []program.Built{
		{Part: "main spar", Surface: "wing", Y: y, Basis: "limit", KnockDown: 1, SD: 0.05, Allowable: []float64{1e5, 1e5}},
		{Part: "foreplane spar", Surface: "foreplane", Y: y, Basis: "limit", KnockDown: 1, SD: 0.05, Allowable: []float64{1e4, 1e4}},
	}
	p.Parts = nil
	s := studied(t, p, Judged)
	c := s.Configurations[0]
	wing, foreplane := c.spars["wing"], c.spars["foreplane"]
	require.Greater(t, wing[0].Moment, 2*foreplane[0].Moment)
	require.Greater(t, foreplane[0].Moment, 0.0)
	require.InDelta(t, foreplane[1].Moment/1e4, s.BendingRatios(c, p.Built[1])[0].Value, 1e-12)

}

func TestAlarmsOfTheFolderComeFirst(t *testing.T) {
	p := invented(t)
	require.NotNil(t, studied(t, p, Judged).Verdict.Alarms)
	p.CautionsRead, p.Alarms = "", []string{"the chain is broken"}
	require.Equal(t, []string{"the chain is broken", unsigned}, studied(t, p, Judged).Verdict.Alarms[:2])
	p.CautionsRead, p.Alarms, p.FullSize.EmptyX.Source = "T.E., 2026-01-01", nil, "place holder, replace"
	require.Regexp(t, `^these figures of program.toml are still place holders, signed or not: empty CG aft of datum(, .+)?\. `+
		"Do not act on this board before they are replaced, each with its source$", studied(t, p, Judged).Verdict.Alarms[0])
}

// Progress rises by one up to its total at every stage, from however many goroutines.
func TestProgressReachesItsTotal(t *testing.T) {
	p := invented(t)
	for _, until := range []Stage{Predicted, Reduced, Fitted, Judged} {
		last, end := 0, 0
		_, err := Run(context.Background(), p, Options{Until: until, Progress: func(done, total int, _ string) {
			require.Equal(t, last+1, done)
			last, end = done, total
		}})
		require.NoError(t, err)
		require.Equal(t, end, last)
	}
}

func TestEachGivesTheErrorOfTheLowestIndex(t *testing.T) {
	one, two := errors.New("one"), errors.New("two")
	for range 20 {
		require.Equal(t, one, each(context.Background(), 9, func(i int) error { return map[int]error{3: one, 5: two}[i] }))
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	require.ErrorIs(t, each(ctx, 2, func(int) error { return nil }), context.Canceled)
}

// A missing log is told as flights.csv names it, so that a page does not depend on where the folder lies.
func TestMissingLogIsNamedAsInTheTable(t *testing.T) {
	p := invented(t)
	p.Loggers = []flightlog.Map{{Name: "box"}}
	require.NoError(t, os.Mkdir(filepath.Join(p.Dir, "logs", "f02.csv"), 0o755))
	p.Flights = []program.Flight{
		{Name: "f02", Log: "logs/f02.csv", Logger: "box", Use: true, Mass: 15, Levels: p.Configurations()[0]},
		{Name: "f01", Log: "logs/f01.csv", Logger: "box", Use: true, Mass: 15, Levels: p.Configurations()[0]},
	}
	s := studied(t, p, Reduced)
	require.Equal(t, "the log logs/f01.csv is not there", s.Flights[0].Why)
	require.Equal(t, "logs/f02.csv is a folder, not a log", s.Flights[1].Why)
}

func TestPointsWithoutNumbersAreDropped(t *testing.T) {
	r := Sound(reduce.Reduction{Points: []reduce.TestPoint{{Start: 1, Lift: 0.5}, {Start: 9, Reynolds: math.NaN()}}})
	require.Len(t, r.Points, 1)
	require.Equal(t, 9.0, r.Findings[0].Start)
	require.Equal(t, flightlog.Loss, r.Findings[0].Severity)
}

func TestInterpolateHoldsTheEnds(t *testing.T) {
	line := []decide.BendingStation{{Y: 1, Moment: 10}, {Y: 3, Moment: 30}}
	for y, want := range map[float64]float64{0: 10, 1: 10, 2: 20, 3: 30, 4: 30} {
		require.Equal(t, want, interpolate(line, y))
	}
	require.True(t, math.IsNaN(interpolate(nil, 1)))
}

// A log of another kind lacks every column of its map: the board gets the first and the number of the rest.
func TestALogOfAnotherKindIsToldInOneSentence(t *testing.T) {
	m := flightlog.Map{Name: "box", Time: flightlog.TimeColumn{Column: "t", Unit: "s"}}
	for _, q := range flightlog.Quantities()[:4] {
		m.Columns = append(m.Columns, flightlog.Column{Column: "c " + string(q), Is: q, Unit: "deg/s"})
	}
	_, err := flightlog.Read(strings.NewReader("a,b\n1,2\n2,3\n"), "logs/x.csv", m)
	require.Error(t, err)
	all := flightlog.Mistakes(err)
	require.Greater(t, len(all), 2)
	got := firstOf(err)
	require.NotContains(t, got, "\n")
	require.Equal(t, fmt.Sprintf("%s (and %d more like it)", all[0], len(all)-1), got)
}
