package demo

import (
	"context"
	"flag"
	"fmt"
	"maps"
	"path/filepath"
	"runtime"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/sync/errgroup"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/keep"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
)

// The long form, whose table stands in testdata/false_freeze_logs.txt, is
//
//	go test ./cmd/wingproof/internal/demo -run TestFalseFreezesThroughWholeLogs -v -timeout 60m -freeze-logs 20
var freezeLogs = flag.Int("freeze-logs", 1, "programmes that the study of false freezes flies through whole logs")

// firstLogSeed is the seed of the first programme; the others follow. No other study uses these.
const firstLogSeed = 7001

// TestFalseFreezesThroughWholeLogs is the cross-check of the study of false freezes (internal/decide): whole demo programmes are flown,
// logged, read, reduced, fitted and judged after 6, 12 and 18 flights, with limits moved near to what is predicted, and every part that
// a board frees is held against a truth that was drawn down to the full-size weights.
func TestFalseFreezesThroughWholeLogs(t *testing.T) {
	years := make([]logYear, *freezeLogs)
	var group errgroup.Group
	group.SetLimit(runtime.GOMAXPROCS(0))
	base := t.TempDir()
	for i := range years {
		group.Go(func() error {
			var err error
			years[i], err = flyAndJudge(filepath.Join(base, fmt.Sprint(i)), uint64(firstLogSeed+i))
			if err != nil {
				return fmt.Errorf("programme %d: %w", firstLogSeed+i, err)
			}
			return nil
		})
	}
	require.NoError(t, group.Wait())
	var sum logYear
	for _, y := range years {
		sum.frozen, sum.falsely = sum.frozen+y.frozen, sum.falsely+y.falsely
		sum.outs, sum.falseOuts = sum.outs+y.outs, sum.falseOuts+y.falseOuts
		sum.hours, sum.knowable = sum.hours+y.hours, sum.knowable+y.knowable
		sum.wrong = append(sum.wrong, y.wrong...)
	}
	t.Logf("\n%d programmes through whole logs: false freezes %d of %d parts, false outs %d of %d combinations, hours cleared %.0f of %.0f = %.0f %%\n%v",
		len(years), sum.falsely, sum.frozen, sum.falseOuts, sum.outs, sum.hours, sum.knowable, 100*sum.hours/max(1, sum.knowable), sum.wrong)
	if len(years) > 1 {
		require.Positive(t, sum.frozen)
	}
	require.LessOrEqual(t, sum.falsely, 1+sum.frozen/10, "far more than one in twenty")
}

// logYear is what one programme comes to.
type logYear struct {
	frozen, falsely int
	outs, falseOuts int
	hours, knowable float64
	wrong           []string
}

// flyAndJudge is one programme.
func flyAndJudge(dir string, seed uint64) (logYear, error) {
	folder := filepath.Join(dir, "program")
	if err := Write(context.Background(), folder, filepath.Join(dir, "truth.json"), seed, nil); err != nil {
		return logYear{}, err
	}
	store := keep.Open(filepath.Join(dir, "kept"), "freezes")
	var y logYear
	var limits []decide.Limit
	frozen, out := map[string]bool{}, map[string]bool{}
	for _, flown := range []int{6, 12, 18} {
		p, err := program.Load(folder)
		if err != nil {
			return y, err
		}
		for i := range p.Flights {
			p.Flights[i].Use = p.Flights[i].Use && i < flown
		}
		st, err := study.Run(context.Background(), p, study.Options{Until: study.Judged, Keep: store})
		if err != nil {
			return y, err
		}
		problem, err := st.Problem()
		if err != nil {
			return y, err
		}
		if limits == nil {
			if limits, err = closeLimits(problem, seed); err != nil {
				return y, err
			}
		}
		problem.Limits, problem.Parts = limits, studyParts()
		if err := y.judge(problem, realProblem(problem, st, seed), frozen, out); err != nil {
			return y, err
		}
	}
	return y, nil
}

// judge holds one board against the truth.
func (y *logYear) judge(problem, real decide.Problem, frozen, out map[string]bool) error {
	v, err := settled(problem)
	if err != nil {
		return err
	}
	truth, err := settled(real)
	if err != nil {
		return err
	}
	holds := map[string]bool{} // by configuration and limit, in truth
	passes := map[string]bool{}
	for _, c := range truth.Configurations {
		passes[c.Configuration] = true
		for _, l := range c.Limits {
			holds[c.Configuration+"\x00"+l.Limit] = l.Probability > 0.5
			passes[c.Configuration] = passes[c.Configuration] && l.Probability > 0.5
		}
	}
	for _, c := range v.Configurations {
		if c.State == decide.Out && !out[c.Configuration] {
			out[c.Configuration] = true
			y.outs++
			if passes[c.Configuration] {
				y.falseOuts++
			}
		}
	}
	for i, row := range v.Board {
		part := problem.Parts[i]
		key := row.Part + row.Side
		if row.Status != decide.Frozen || frozen[key] || !waits(part) {
			continue
		}
		frozen[key] = true
		y.frozen++
		wrong := ""
		for _, c := range v.Configurations {
			for _, limit := range part.MustPass {
				if held, known := holds[c.Configuration+"\x00"+limit]; c.Live && known && !held {
					wrong = limit + " with " + c.Configuration
				}
			}
		}
		if wrong != "" {
			y.falsely++
			y.wrong = append(y.wrong, fmt.Sprintf("%s: %s", row.Part, wrong))
			continue
		}
		y.hours += row.HoursLeft
	}
	y.knowable = 0
	for i, row := range truth.Board {
		if row.Status == decide.Frozen && waits(real.Parts[i]) {
			y.knowable += row.HoursLeft
		}
	}
	return nil
}

// waits tells whether some choice or limit reaches a part, so that freeing it says anything.
func waits(p decide.Part) bool { return len(p.ShapedBy)+len(p.MustPass) > 0 }

// settled judges a problem with every sign-off given, and lets people settle what the board says can be, the baseline first.
func settled(p decide.Problem) (decide.Verdict, error) {
	p.Decisions = nil
	for {
		signed := p
		signed.Decisions = append(slices.Clone(p.Decisions), decide.Decision{Number: 99, Event: "signoff", Choice: "flutter_and_mass_balance"})
		v, err := decide.Judge(signed)
		if err != nil {
			return v, err
		}
		choice, level := nextSettled(p, v)
		if choice == "" {
			return v, nil
		}
		p.Decisions = append(p.Decisions, decide.Decision{Number: len(p.Decisions) + 1, Event: "settle", Choice: choice, Level: level})
	}
}

// nextSettled is the first open choice with a good size, else one of a combination that passes everything; baselines first.
func nextSettled(p decide.Problem, v decide.Verdict) (choice, level string) {
	open := func(name string) bool {
		return !slices.ContainsFunc(v.Choices, func(c decide.ChoiceVerdict) bool { return c.Choice == name && c.State == decide.Settled })
	}
	for _, c := range p.Choices {
		levels := append([]string{c.Baseline}, c.Levels...)
		for _, l := range levels {
			if open(c.Name) && slices.ContainsFunc(v.Levels, func(x decide.LevelVerdict) bool { return x.Choice == c.Name && x.Level == l && x.State == decide.Good }) {
				return c.Name, l
			}
		}
	}
	for _, config := range v.Configurations {
		if !config.Live || config.State != decide.Good {
			continue
		}
		for _, c := range p.Choices {
			if open(c.Name) {
				return c.Name, config.Levels[c.Name]
			}
		}
	}
	return "", ""
}

// closeLimits moves the bounds of the limits that the study keeps near to what theory alone predicts for the baseline: two standard
// deviations away, give or take one. What rests on stall computations and on quantities that the demo does not draw is left out.
func closeLimits(p decide.Problem, seed uint64) ([]decide.Limit, error) {
	prior := p
	prior.TrimSlopes, prior.Direct, prior.Draws = nil, nil, 4000
	v, err := decide.Judge(prior)
	if err != nil {
		return nil, err
	}
	kept := []string{evidence.StaticMargin, evidence.DirectionalStiffness, evidence.TipBackAngle}
	var out []decide.Limit
	for _, limit := range p.Limits {
		if !slices.Contains(kept, limit.Quantity) || limit.AtLeast == nil {
			continue
		}
		for _, l := range v.Configurations[0].Limits {
			if l.Limit != limit.Name {
				continue
			}
			sd := (l.High - l.Low) / (2 * 1.96)
			limit.AtLeast = evidence.Pointer(l.Median - sd*(2+draw(seed, 1, "close limits", limit.Name)))
		}
		out = append(out, limit)
	}
	return out, nil
}

// studyParts are parts that hang on those limits, as in the study at estimate level.
func studyParts() []decide.Part {
	part := func(name string, hours float64, shapedBy []string, must ...string) decide.Part {
		return decide.Part{Name: name, Stage: "drawn", HoursLeft: hours, ShapedBy: shapedBy, ShapedByStated: true, MustPass: must, MustPassStated: true}
	}
	foreplane, winglet := []string{"foreplane"}, []string{"winglet"}
	return []decide.Part{
		part("strake tank skin, left", 120, nil, "aft margin"), part("strake tank skin, right", 120, nil, "aft margin"),
		part("gear well former", 45, nil, "tip-back"), part("main-gear leg", 90, nil, "tip-back", "aft margin"),
		part("foreplane spar", 70, foreplane, "aft margin"), part("foreplane skin", 60, foreplane, "aft margin"),
		part("winglet, left", 140, winglet, "directional"), part("winglet, right", 140, winglet, "directional"),
		part("winglet rudder", 60, winglet, "directional"), part("wing-tip rib", 24, winglet),
	}
}

// realProblem is the same program with everything known: the flown truth at model scale, drawn errors of the step to full size, drawn
// weights, inertias and allowables.
func realProblem(p decide.Problem, st *study.Study, seed uint64) decide.Problem {
	errors := study.TheoryErrors(st.Program, st.Configurations[0].Airframe.Reference.MeanChord)
	real := p
	real.TrimSlopes, real.Direct, real.WingFirst, real.Errors = nil, nil, nil, nil
	for _, e := range p.Errors {
		real.Errors = append(real.Errors, decide.TheoryError{Quantity: e.Quantity, Relative: e.Relative})
	}
	real.Limits = slices.Clone(p.Limits)
	for i := range real.Limits {
		real.Limits[i].Evidence = "analysis"
	}
	real.Predictions = nil
	for i, prediction := range p.Predictions {
		real.Predictions = append(real.Predictions, realPrediction(prediction, truthOf(seed, st.Configurations[i], errors), p.Errors, seed))
	}
	real.Aircraft.EmptyMass, real.Aircraft.EmptyX, real.Aircraft.EmptyZ = known(p.Aircraft.EmptyMass, seed, "mass"), known(p.Aircraft.EmptyX, seed, "x"), known(p.Aircraft.EmptyZ, seed, "z")
	real.Aircraft.Ix, real.Aircraft.Iy, real.Aircraft.Iz = known(p.Aircraft.Ix, seed, "ix"), known(p.Aircraft.Iy, seed, "iy"), known(p.Aircraft.Iz, seed, "iz")
	real.Built = slices.Clone(p.Built)
	for i, b := range p.Built {
		factor := 1 + draw(seed, b.SD, "real", "allowable", b.Part)
		real.Built[i].SD, real.Built[i].Allowable = 0, scaled(b.Allowable, factor)
	}
	return real
}

func known(f decide.Figure, seed uint64, name string) decide.Figure {
	return decide.Figure{Value: f.Value + draw(seed, f.SD, "real", "figure", name), Status: "weighed"}
}

func scaled(line []decide.BendingStation, factor float64) []decide.BendingStation {
	out := slices.Clone(line)
	for i := range out {
		out[i].Moment *= factor
	}
	return out
}

// realPrediction is one configuration as it really is at full size.
func realPrediction(p decide.Prediction, t configurationTruth, errors []decide.TheoryError, seed uint64) decide.Prediction {
	flown := maps.Clone(t.Lateral)
	flown[evidence.NeutralPoint], flown[evidence.ElevatorTrimRate] = t.NeutralPoint, t.ElevatorTrimRate
	flown[evidence.LiftCurveSlope], flown[evidence.DirectionalStiffness] = t.LiftCurveSlope, t.DirectionalStiffness
	out := decide.Prediction{Levels: p.Levels, Values: map[string]float64{}, Bending: map[string][]decide.BendingStation{}, NoseUpStop: p.NoseUpStop}
	for _, e := range errors {
		predicted, ok := p.Values[e.Quantity]
		size := 1.0
		if e.Relative {
			size = predicted
		}
		step := p.Step[e.Quantity]
		for _, name := range slices.Sorted(maps.Keys(e.FullSize)) {
			step += size * draw(seed, e.FullSize[name], "real", "full size", name, e.Quantity)
		}
		if e.Quantity == evidence.RootBendingMoment {
			factor := 1 + errorOf(seed, e, p.Levels)
			for _, name := range slices.Sorted(maps.Keys(e.FullSize)) {
				factor += draw(seed, e.FullSize[name], "real", "full size", name, e.Quantity)
			}
			for surface, line := range p.Bending {
				out.Bending[surface] = scaled(line, factor)
			}
		}
		if !ok {
			continue
		}
		value, measured := flown[e.Quantity]
		if !measured {
			value = predicted + size*errorOf(seed, e, p.Levels)
		}
		out.Values[e.Quantity] = value + step
	}
	return out
}
