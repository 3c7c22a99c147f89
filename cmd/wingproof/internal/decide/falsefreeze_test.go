package decide

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"wingproof/cmd/wingproof/internal/evidence"
)

// A program whose truth is drawn from the stated errors, flown, judged, and compared with the truth.
const programs = 600

// truths are what the aircraft of every program really are, drawn from the belief before any flight.
type truths struct {
	theory *theory
	prior  *judgement             // which requirements really hold, one program a draw
	model  map[string][][]float64 // [quantity][configuration][program] at model scale
	full   []float64              // neutral point at full size of foreplane=long, winglet=mid
}

func drawTruths(t *testing.T, p Problem) truths {
	t.Helper()
	s, err := newSpace(p)
	require.NoError(t, err)
	th, err := newTheory(s, p.Errors, p.Correlations)
	require.NoError(t, err)
	requirements, err := newRequirements(p, th)
	require.NoError(t, err)
	b := &belief{theory: th, observed: &observations{}, mean: th.mean}
	world := p
	world.Seed, world.Draws = 424242, programs
	prior, err := judge(world, b, requirements)
	require.NoError(t, err)
	w := truths{theory: th, prior: prior, model: map[string][][]float64{}}
	d := newDrawer(world.Seed, programs, b)
	for q, quantity := range th.quantities {
		for c := range s.configs {
			w.model[quantity] = append(w.model[quantity], d.model(q, c))
		}
	}
	w.full = d.full(th.quantity(evidence.NeutralPoint), s.index["foreplane=long, winglet=mid"])
	return w
}

// really tells whether a requirement holds in truth.
func (w truths) really(program, c, r int) bool {
	return w.prior.holds[c][r][program/64]>>(program%64)&1 == 1
}

// fly measures configurations of a program with noise: trim slopes at two CGs and yaw stiffness.
func (w truths) fly(p *Problem, program, flown int) {
	noise := normals(777, 30*flown, fmt.Sprint("noise of program ", program))
	next := func() float64 { z := noise[0]; noise = noise[1:]; return z }
	value := func(quantity string, c int) float64 { return w.model[quantity][c][program] }
	for k := range flown {
		c := (program*5 + 2*k) % len(w.theory.space.configs)
		levels := w.theory.space.configs[c].levels
		s := slopesAt(levels, value(evidence.NeutralPoint, c), value(evidence.ElevatorTrimRate, c), 0.004, []float64{3.95, 4.08}, fmt.Sprint("F", 2*k), fmt.Sprint("F", 2*k+1))
		for i := range s.Slope {
			s.Slope[i] += 0.004 * next()
		}
		p.TrimSlopes = append(p.TrimSlopes, s)
		p.Direct = append(p.Direct, Direct{Levels: levels, Quantity: evidence.DirectionalStiffness, Degrees: math.Inf(1), SDOwn: 0.004,
			Value: value(evidence.DirectionalStiffness, c) + 0.004*next(), Flights: s.Flights})
	}
}

// upperBinomial is the upper 95 % bound (one-sided, Clopper and Pearson) of a rate of hits in tries.
func upperBinomial(hits, tries int) float64 {
	return distuv.Beta{Alpha: float64(hits + 1), Beta: float64(tries - hits)}.Quantile(0.95)
}

// tally counts how verdicts compare with truths.
type tally struct {
	frozen, falselyFrozen, knowable int // parts
	outs, falselyOut                int // configurations
	intervals, covered              int // full-size neutral points of one configuration
}

// parts compares the board: knowable parts are those that an all-knowing judge would free.
func (n *tally) parts(w truths, v Verdict, program int, limit map[string]int) {
	for _, row := range v.Board {
		holds := true
		for c, config := range v.Configurations {
			holds = holds && (!config.Live || w.really(program, c, limit[row.Part]))
		}
		if holds {
			n.knowable++
		}
		if row.Status == Frozen {
			n.frozen++
			if !holds {
				n.falselyFrozen++
			}
		}
	}
}

// configurations compares what is called out.
func (n *tally) configurations(w truths, v Verdict, program int) {
	for c, config := range v.Configurations {
		if config.State != Out {
			continue
		}
		n.outs++
		all := true
		for r := range w.prior.requirements {
			all = all && w.really(program, c, r)
		}
		if all {
			n.falselyOut++
		}
	}
}

// cover compares one interval.
func (n *tally) cover(w truths, v Verdict, program int) {
	for _, e := range v.Anchored {
		if e.Scale == evidence.FullSize && e.Quantity == evidence.NeutralPoint && e.Configuration == "foreplane=long, winglet=mid" {
			n.intervals++
			if *e.Low <= w.full[program] && w.full[program] <= *e.High {
				n.covered++
			}
		}
	}
}

// Parts that are called frozen although a live configuration fails their limits, configurations called
// out although they pass, and intervals that miss: all against truths drawn from the stated errors.
func TestFalseFreezesAreRare(t *testing.T) {
	p := testProblem()
	p.Draws = 2000
	p.Limits = p.Limits[:3]
	p.Limits[0].AtLeast, p.Limits[2].AtLeast = at(6), at(0.055)
	p.Parts = []Part{makePart("strake", stageDrawn, "", none, "aft margin"), makePart("fin cap", stageDrawn, "", none, "directional")}
	w := drawTruths(t, p)
	var n tally
	for program := range programs {
		q := p
		w.fly(&q, program, 1+program%3)
		v := mustJudge(t, q)
		n.parts(w, v, program, map[string]int{"strake": 0, "fin cap": 2})
		n.configurations(w, v, program)
		n.cover(w, v, program)
	}
	t.Logf("%+v; upper bounds: falsely frozen %.3f, falsely out %.3f", n, upperBinomial(n.falselyFrozen, n.frozen), upperBinomial(n.falselyOut, n.outs))
	require.LessOrEqual(t, upperBinomial(n.falselyFrozen, n.frozen), 0.05)
	require.LessOrEqual(t, upperBinomial(n.falselyOut, n.outs), 0.05)
	require.Greater(t, n.frozen, n.knowable/3, "freezing nothing does not pay")
	require.InDelta(t, 0.95, float64(n.covered)/float64(n.intervals), 0.025, "two and a half binomial standard errors")
}
