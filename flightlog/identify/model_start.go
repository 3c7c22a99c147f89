package identify

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// startShrink is how much a starting value is drawn to zero, in samples of a motion of the usual size: enough for an input that was
// not moved. Common practice, no source.
const startShrink = 1.0

// startWindow is the time over which the start of a motion is read, s.
const startWindow = 0.2

// start sets starting values: common parameters from a regression of the coefficients on reconstructed flow angles, the segments' own
// from their first samples. The reconstruction is not used again after this.
func (p *problem) start() {
	p.common = make([]float64, len(p.layout.common))
	var blocks []block
	for _, t := range p.tracks {
		smooth := smoothSegment(t.segment, p.setup.Servos)
		blocks = append(blocks, smooth.block(p.layout.axis, p.setup, asReported()))
	}
	responses := axisResponses(p.layout.axis)
	terms := axisTerms(p.layout.axis)
	at := 0
	for k := range responses {
		values := ridge(blocks, k, terms)
		at += copy(p.common[at:], values)
	}
	for j, known := range p.layout.known {
		if known.sd > 0 {
			p.common[j] = known.mean
		}
	}
	for i, t := range p.tracks {
		t.startOwn(p.layout, p.common, &blocks[i])
	}
}

// ridge regresses one response of all blocks on the terms, each block about its own means.
func ridge(blocks []block, response int, terms []regressor) []float64 {
	n := len(terms)
	normal, right := mat.NewSymDense(n, nil), mat.NewVecDense(n, nil)
	for j, t := range terms {
		normal.SetSym(j, j, startShrink*t.usual*t.usual)
	}
	for i := range blocks {
		columns := make([][]float64, n)
		for j := range columns {
			columns[j] = aboutMean(blocks[i].columns[j])
		}
		target := aboutMean(blocks[i].responses[response])
		for a := range n {
			for b := a; b < n; b++ {
				normal.SetSym(a, b, normal.At(a, b)+dot(columns[a], columns[b]))
			}
			right.SetVec(a, right.AtVec(a)+dot(columns[a], target))
		}
	}
	var c mat.Cholesky
	out := mat.NewVecDense(n, nil)
	if c.Factorize(normal) {
		_ = c.SolveVecTo(out, right) // a bad condition makes a bad start, which Levenberg's damping survives
	}
	return out.RawVector().Data
}

func aboutMean(values []float64) []float64 {
	m := mean(values)
	return mapped(values, func(v float64) float64 { return v - m })
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i, v := range a {
		sum += v * b[i]
	}
	return sum
}

// startOwn sets constants, initial state, biases and edges of a segment, and what is known of them beforehand.
func (t *track) startOwn(l *layout, common []float64, b *block) {
	n := l.edge() + len(t.edges)
	t.own, t.mean, t.sd = make([]float64, n), make([]float64, n), make([]float64, n)
	x, sd := t.startState()
	for i := range states {
		t.own[l.initial()+i], t.mean[l.initial()+i], t.sd[l.initial()+i] = x[i], x[i], sd[i]
	}
	for i, output := range l.biased {
		t.sd[l.bias()+i] = l.outputs[output].bias
	}
	for i := range t.edges {
		t.sd[l.edge()+i] = t.segment.Step / math.Sqrt(12) // anywhere between two samples
	}
	if l.axis == Lateral {
		t.sd[forwardError], t.sd[downError] = pathForward, pathDown
	}
	if l.axis == Longitudinal {
		t.sd[forwardBias] = forceBias
	}
	t.startConstants(l, common, b)
}

// How far the motion may begin from where the first samples say, as standard deviations: several times the error of a reconstruction
// without vanes. Common practice, no source.
const (
	startSpeed  = 3.0 // m/s
	startAngle  = 0.1 // rad
	startRate   = 0.2 // rad/s
	startAlpha  = 0.03
	startAcross = 0.8 // m/s of side velocity
)

// startState reads the first samples.
func (t *track) startState() (x, sd state) {
	s := t.segment
	n := min(t.samples, 1+int(math.Round(startWindow/s.Step)))
	first := func(v []float64) float64 { return mean(v[:n]) }
	if _, along := t.plant.(*longitudinal); along {
		return state{first(s.Airspeed) * math.Cos(first(s.Beta)), first(s.Alpha), first(s.PitchRate), first(s.Pitch)},
			state{startSpeed, startAlpha, startRate, startAngle}
	}
	return state{first(s.Airspeed) * math.Sin(first(s.Beta)), first(s.RollRate), first(s.YawRate), first(s.Roll)},
		state{startAcross, startRate, startRate, startAngle}
}

// startConstants sets the zero terms so that the means of the coefficients come out.
func (t *track) startConstants(l *layout, common []float64, b *block) {
	if l.axis == Lateral {
		m := t.plant.(*lateral)
		for c := range lateralCoefficients {
			d := common[c*lateralTerms:]
			t.own[c] = mean(b.responses[c]) - d[bySideslip]*mean(b.columns[0]) - d[byRollRate]*mean(b.columns[1]) - d[byYawRate]*mean(b.columns[2]) -
				d[byAileron]*(mean(b.columns[3])-m.aileron) - d[byRudder]*(mean(b.columns[4])-m.rudder)
		}
		return
	}
	m := t.plant.(*longitudinal)
	zero := func(response int, d []float64) float64 {
		return mean(b.responses[response]) - d[0]*(mean(b.columns[0])-m.alpha) - d[1]*mean(b.columns[1]) - d[2]*(mean(b.columns[2])-m.elevator)
	}
	t.own[liftZero] = zero(0, common[liftAlpha:])
	t.own[pitchZero] = zero(1, common[pitchAlpha:])
}
