package decide

import (
	"bytes"
	"encoding/gob"
	"math"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/evidence"
)

// contrastsOf are the contrasts of a problem that nobody has judged before.
func contrastsOf(p Problem, choice string, others map[string]string) ([]Contrast, error) {
	j := NewJudging(p)
	a, err := j.Assess()
	if err != nil {
		return nil, err
	}
	return j.Contrasts(a, choice, others)
}

// cgLimitsOf are the stations of the limits of a problem that nobody has judged before.
func cgLimitsOf(p Problem, masses []float64) ([]CGLimit, error) {
	j := NewJudging(p)
	a, err := j.Assess()
	if err != nil {
		return nil, err
	}
	return j.CGLimits(a, masses)
}

// flownProblem is the problem of all tests with flights of two foreplanes and a number of draws of its own.
func flownProblem() Problem {
	p := testProblem()
	p.Draws = 2000
	p.TrimSlopes = []TrimSlopes{
		slopesAt(levelsOf("winglet=mid foreplane=long"), 4.18, testRate, 0.005, []float64{3.7, 3.9}, "F1", "F2"),
		slopesAt(levelsOf("winglet=mid foreplane=short"), 4.23, testRate, 0.005, []float64{3.7, 3.9}, "F3"),
	}
	p.Decisions = []Decision{{Number: 1, Event: "settle", Date: "2026-03-12", Choice: "winglet", Level: "mid", Who: "E.V."}}
	return p
}

// Kept as bytes and read again, what the draws say gives the verdict that the judgement itself gives: where flights agree with theory, where its
// errors grow, where those of the flights grow with them, and where a motion is judged.
func TestKeptAssessmentGivesTheSameVerdict(t *testing.T) {
	worlds := map[string]struct {
		change    func(*Problem)
		agreement string
	}{
		"they agree": {func(*Problem) {}, "flights agree with theory"},
		"its errors grow": {func(p *Problem) {
			p.TrimSlopes = []TrimSlopes{slopesAt(levelsOf("winglet=mid foreplane=long"), 4.55, testRate, 0.002, []float64{3.7, 3.9}, "F1")}
		}, "flights disagree with theory: "},
		"theirs grow, too": {func(p *Problem) {
			p.Direct = []Direct{liftMeasured(levelsOf("winglet=mid foreplane=long"), 4, 0.01, "a"), liftMeasured(levelsOf("winglet=mid foreplane=long"), 6, 0.01, "b")}
		}, "with one another"},
	}
	for name, w := range worlds {
		p := flownProblem()
		w.change(&p)
		requireKept(t, name, p, w.agreement)
	}
	_, p := motionProblem(t)
	p.Parts = []Part{{Name: "winglet", Stage: stageDrawn, ShapedBy: []string{p.Choices[0].Name}, ShapedByStated: true, MustPass: []string{"damping"}, MustPassStated: true}}
	requireKept(t, "motions", p, "")
}

func requireKept(t *testing.T, name string, p Problem, agreement string) {
	t.Helper()
	direct, err := assess(p)
	require.NoError(t, err, name)
	require.Contains(t, direct.believed.agreement.Text, agreement, name)
	want, err := direct.verdict(p.Decisions)
	require.NoError(t, err, name)
	a, err := NewJudging(p).Assess()
	require.NoError(t, err, name)
	var kept bytes.Buffer
	require.NoError(t, gob.NewEncoder(&kept).Encode(a), name)
	var read Assessment
	require.NoError(t, gob.NewDecoder(&kept).Decode(&read), name)
	got, err := read.Verdict(p)
	require.NoError(t, err, name)
	require.Equal(t, want, got, name)
	require.Equal(t, want, mustJudge(t, p), name)
}

// Nothing of the board enters what the draws say, and everything else is another problem's.
func TestPartsAndDecisionsDoNotEnterTheAssessment(t *testing.T) {
	p := flownProblem()
	a, err := NewJudging(p).Assess()
	require.NoError(t, err)
	bare := p
	bare.Parts, bare.Decisions, bare.LeftOut, bare.Date = nil, nil, nil, ""
	b, err := NewJudging(bare).Assess()
	require.NoError(t, err)
	require.Equal(t, a, b)
	p.Parts[3].Stage, p.Parts[3].BuiltTo = stagePlug, map[string]string{"winglet": "mid"}
	p.Decisions = nil
	v, err := a.Verdict(p)
	require.NoError(t, err)
	require.Equal(t, mustJudge(t, p), v)
	p.Limits = p.Limits[:2]
	_, err = a.Verdict(p)
	require.ErrorContains(t, err, "another problem")
}

// What is asked of one judging, by several at once and in any order, is what each of them gets alone; so it is when the table forgets what it drew,
// and when only what was kept of the assessment is there.
func TestOneJudgingAnswersAsManyDo(t *testing.T) {
	p, others, masses := flownProblem(), map[string]string{"foreplane": "long"}, []float64{650, 900}
	contrasts, err := contrastsOf(p, "winglet", others)
	require.NoError(t, err)
	limits, err := cgLimitsOf(p, masses)
	require.NoError(t, err)
	a, err := NewJudging(p).Assess()
	require.NoError(t, err)
	forgetful := NewJudging(p)
	table, err := forgetful.under(a)
	require.NoError(t, err)
	require.True(t, table.remembers)
	table.remembers = false
	for _, j := range []*Judging{NewJudging(p), forgetful} {
		var all sync.WaitGroup
		for range 3 {
			all.Go(func() {
				got, err := j.Contrasts(a, "winglet", others)
				require.NoError(t, err)
				require.Equal(t, contrasts, got)
			})
			all.Go(func() {
				got, err := j.CGLimits(a, masses)
				require.NoError(t, err)
				require.Equal(t, limits, got)
			})
			all.Go(func() {
				got, err := j.Assess()
				require.NoError(t, err)
				require.Equal(t, a, got)
			})
		}
		all.Wait()
	}
	for c := range table.configs {
		require.Nil(t, table.configs[c].beliefs, "nothing is left")
	}
}

// A program of very many combinations does not hold all its draws. Without flights a table draws nothing by itself.
func TestTableRemembersWhatFits(t *testing.T) {
	p := testProblem()
	d, err := believe(p)
	require.NoError(t, err)
	lists := len(d.belief.theory.space.configs) * (len(d.requirements) + len(d.belief.theory.quantities))
	p.Draws = mostRemembered / (8 * lists)
	require.True(t, newTable(p, d.belief, d.requirements).remembers)
	p.Draws++
	require.False(t, newTable(p, d.belief, d.requirements).remembers)
}

// The first draws of a long stream are those of a short one, and a problem that borrows normals is judged as it is without.
func TestShortStreamsAreTheBeginningOfLongOnes(t *testing.T) {
	long := newStreams(7, 500)
	require.Equal(t, normals(7, 20, "model", "bias"), long.first(20).normals("model", "bias"))
	require.Len(t, long.normals("model", "bias"), 500)

	p, asked := flownProblem(), []map[string]string{levelsOf("winglet=tall foreplane=short")}
	j := NewJudging(p)
	_, err := j.Assess()
	require.NoError(t, err)
	for _, draws := range []int{300, 2000, 2001} {
		p.Draws = draws
		want, err := LimitVerdicts(p, asked)
		require.NoError(t, err)
		lent := j.Lend(p)
		require.Equal(t, draws <= 2000, lent.streams != nil, "no more than there are")
		got, err := LimitVerdicts(lent, asked)
		require.NoError(t, err)
		require.Equal(t, want, got)
	}
	p.Draws, p.Seed = 300, 2
	require.Nil(t, j.Lend(p).streams, "another seed")
}

// Draw by draw and as the formula stands, a response gives the numbers that it gives variable by variable, to the last bit; the plain form adds the
// zeros of variables that move nothing, too.
func TestResponseAgainstThePlainForm(t *testing.T) {
	n := 200
	draw := func(name string) []float64 { return normals(3, n, name) }
	x := sample{beliefs: [][]float64{draw("a"), draw("b")}, loaded: loadedDraws{mass: draw("mass"), x: draw("x")}, inertia: [3][]float64{draw("Ix"), draw("Iy"), draw("Iz")}}
	s := surface{Centre: []float64{0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7}, Modes: map[string]response{
		evidence.DutchRollDamping: {Value: 0.1, Slope: []float64{0.2, 0, 0.3, -0.1, 0, 0.7, 0}, Bend: []float64{-0.1, 0, 0, 0.2, 0.4, 0.3, 0}},
		evidence.SpiralRate:       {Value: 0.001, Slope: []float64{0.01, 0, 0, 0, 0, 0, 0}, Bend: make([]float64, 7)},
	}}
	plain := func(r response, i int) float64 {
		y := r.Value
		for k, v := range []float64{x.beliefs[0][i], x.beliefs[1][i], x.loaded.mass[i], x.loaded.x[i], x.inertia[0][i], x.inertia[1][i], x.inertia[2][i]} {
			d := v - s.Centre[k]
			y += d * (r.Slope[k] + d*r.Bend[k]/2)
		}
		return y
	}
	damping, spiral := make([]float64, n), make([]float64, n)
	s.write(evidence.DutchRollDamping, &x, damping)
	s.write(evidence.SpiralTimeToDouble, &x, spiral)
	never := 0
	for i := range n {
		require.Equal(t, plain(s.Modes[evidence.DutchRollDamping], i), damping[i])
		rate := plain(s.Modes[evidence.SpiralRate], i)
		if rate*endless <= math.Ln2 {
			never++
			require.Equal(t, endless, spiral[i])
			continue
		}
		require.Equal(t, math.Ln2/rate, spiral[i])
	}
	require.True(t, 0 < never && never < n)
}

// Over loadings every draw takes its own extremes, and what is no number wins; the loading named is the one that most draws chose.
func TestExtremesOverLoadings(t *testing.T) {
	nan := math.NaN()
	rows := [][]float64{{1, 5, 2}, {2, 4, 2}, {0, 9, nan}}
	least, most := newExtreme(3), newExtreme(3)
	for l, row := range rows {
		least.takeLess(l, row)
		most.takeMore(l, row)
	}
	names := []Loading{{Name: "a"}, {Name: "b"}, {Name: "c"}}
	low, where := least.of(names)
	require.Equal(t, []float64{0, 4}, low[:2])
	require.True(t, math.IsNaN(low[2]))
	require.Equal(t, "c", where)
	high, where := most.of(names)
	require.Equal(t, []float64{2, 9}, high[:2])
	require.True(t, math.IsNaN(high[2]))
	require.Equal(t, "c", where)
	values, where := (*extreme)(nil).of(names)
	require.Nil(t, values)
	require.Empty(t, where)
}
