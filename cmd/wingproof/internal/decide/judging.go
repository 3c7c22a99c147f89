package decide

import "sync"

// Judging answers whatever is asked of one problem from the same draws: each is made once, when something first asks for it. It may be used from
// several goroutines. What it holds takes some 100 megabytes once it has drawn.
//
// Parts, decisions, date and flights left out play no role here; see Assessment.Verdict.
type Judging struct {
	problem Problem

	mu       sync.Mutex
	believed *believed
	table    *table
}

// NewJudging draws nothing yet.
func NewJudging(p Problem) *Judging {
	if p.streams == nil {
		p.streams = newStreams(p.Seed, p.draws())
	}
	return &Judging{problem: p}
}

// Assess judges every limit and built part in every configuration. Errors are those of Judge, but for what only parts can be wrong in.
func (j *Judging) Assess() (Assessment, error) {
	t, err := j.drawn(func() (*believed, error) { return believe(j.problem) })
	if err != nil {
		return Assessment{}, err
	}
	judged, err := t.judge(t.belief.theory.space.all())
	if err != nil {
		return Assessment{}, err
	}
	return j.believed.assessment(judged), nil
}

// under is the table, its beliefs being those of an assessment of the same problem.
func (j *Judging) under(a Assessment) (*table, error) {
	return j.drawn(func() (*believed, error) { return a.believe(j.problem) })
}

// drawn is the table, with beliefs from believe where there are none yet.
func (j *Judging) drawn(believe func() (*believed, error)) (*table, error) {
	j.mu.Lock()
	defer j.mu.Unlock()
	if j.table == nil {
		d, err := believe()
		if err != nil {
			return nil, err
		}
		j.believed, j.table = d, newTable(j.problem, d.belief, d.requirements)
	}
	return j.table, nil
}

// Lend lets another problem draw from the same normals, where seed and number of draws allow. The same numbers come out, sooner.
func (j *Judging) Lend(p Problem) Problem {
	if s := j.problem.streams; p.Seed == s.seed && p.draws() <= s.all.n {
		p.streams = s.first(p.draws())
	}
	return p
}
