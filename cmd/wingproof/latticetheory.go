package main

import (
	"math"

	"wingproof/aero"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
)

// theory is the stated error of the theory at the prediction's own scale: what is the configuration's own, and by name what
// it shares with others.
type theory struct {
	own    float64
	common map[string]float64
}

// theoryOf splits the stated error of a quantity as the program is judged with it; ok is false where none is stated. The
// neutral point's error is also that of its percent and of the static margin.
func theoryOf(p *program.Program, ref aero.Reference, levels map[string]string, quantity string, value float64) (theory, bool) {
	source, factor := quantity, 1.0
	switch quantity {
	case evidence.NeutralPointPercent, evidence.StaticMargin:
		source, factor = evidence.NeutralPoint, 100/ref.MeanChord
	}
	scale := evidence.ModelScale
	if quantity == evidence.RootBendingMoment { // a load of the full-size spar
		scale = evidence.FullSize
	}
	own, common, ok := study.ModelError(study.TheoryErrors(p, ref.MeanChord), levels, source, value, scale)
	for name := range common {
		common[name] *= factor
	}
	return theory{factor * own, common}, ok
}

// normal95 is the two-sided 95 % quantile of the normal distribution.
const normal95 = evidence.Normal95

// interval is the 95 % interval about a value.
func (t theory) interval(value float64) (low, high float64) {
	half := normal95 * evidence.Total(t.own, t.common)
	return value - half, value + half
}

// difference is the 95 % interval of the difference to a base: errors that both share drop out of it.
func (t theory) difference(value float64, base theory) (low, high float64) {
	shared := map[string]float64{}
	for name, sd := range t.common {
		shared[name] = sd
	}
	for name, sd := range base.common {
		shared[name] -= sd
	}
	half := normal95 * evidence.Total(math.Hypot(t.own, base.own), shared)
	return value - half, value + half
}
