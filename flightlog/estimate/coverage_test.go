package estimate

import (
	"flag"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// programmes is how many programmes each seed and arm of the coverage study flies; the long form takes 1000.
var programmes = flag.Int("programs", 40, "programmes flown by each seed of each arm of the coverage study")

// arm is one kind of programme.
type arm struct {
	name           string
	base           aircraft
	configurations int
	least, most    int // flights a configuration
	cgs            []float64
	stated         Systematics // what the fits are told
	vertical       float64     // what the air does, m/s
	pool           bool
}

// usualErrors are the errors that programmes of the study share, as the fits are told them (common practice, no source).
func usualErrors() Systematics {
	return Systematics{AirspeedScale: 0.015, Mass: 0.005, TubeDensity: 0.005, CG: 0.004, CGScale: 0.01, Alpha: 0.2 * degreeOf,
		Elevator: 0.15 * degreeOf, ElevatorScale: 0.02, AileronScale: 0.02, RudderScale: 0.02, GlideVertical: 0.2}
}

func arms() []arm {
	two, three := []float64{2.30, 2.40}, []float64{2.28, 2.34, 2.40}
	silent := usualErrors()
	silent.GlideVertical = 0
	return []arm{
		{"foreplane, three configurations pooled, two CGs, 3 to 6 flights each", canard(), 3, 3, 6, two, usualErrors(), 0.2, true},
		{"foreplane, three configurations pooled, three CGs, vertical air not stated", canard(), 3, 3, 6, three, silent, 0.2, true},
		{"foreplane, one configuration alone, two CGs, 4 to 6 flights", canard(), 1, 4, 6, two, usualErrors(), 0.2, false},
		{"tail aft (Navion, Seckel and Morris 1971), three configurations pooled, two CGs, 3 to 6 flights each", navion(), 3, 3, 6, two, usualErrors(), 0.2, true},
		{"tail aft (Cessna 182, Roskam), nine configurations pooled, two CGs, 3 flights each", cessna182(), 9, 3, 3, two, usualErrors(), 0.2, true},
	}
}

const (
	coverageCG  = 2.36
	aspectRatio = 7
)

// trial is a result beside the truth.
type trial struct {
	Result
	truth float64
}

// trials is what the study asks of the first configuration of a programme. A truth at a CG is that of the CG as it was reported: the errors of
// CGs are in the interval.
func (p programme) trials(s Systematics, random *rand.Rand) []trial {
	return append(p.steadyTrials(s), p.dynamicTrials(s, random)...)
}

func (p programme) steadyTrials(s Systematics) []trial {
	a, points, pool := p.truth[0], p.points[0], p.scatter
	np, slopes := NeutralPoint(points, s, pool)
	slope, zero := TrimmedLiftCurve(points, coverageCG, s, pool)
	drag, k, _ := DragPolar(points, s, pool)
	perLift := Result{Quantity: "elevator_per_lift"}
	if all := ElevatorPerLift(slopes); len(all) > 0 {
		perLift = all[0]
	}
	zeroAlpha, _ := a.trim(0, coverageCG)
	_, atOne := a.trim(1, perLift.CG)
	_, atNone := a.trim(0, perLift.CG)
	return []trial{
		{np, a.neutralPoint()},
		{StaticMargin(np, coverageCG, a.chord), 100 * (a.neutralPoint() - coverageCG) / a.chord},
		{perLift, atOne - atNone},
		{ElevatorPower(points, a.chord, s, pool), a.powerAtNeutralPoint()},
		{slope, a.trimmedSlope(coverageCG)},
		{LiftCurveSlope(points, s, pool), a.liftAlpha},
		{zero, zeroAlpha},
		{drag, a.drag(0)},
		{k, a.k},
		{SpanEfficiency(k, aspectRatio), 1 / (math.Pi * aspectRatio * a.k)},
	}
}

func (p programme) dynamicTrials(s Systematics, random *rand.Rand) []trial {
	a, pool := p.truth[0], p.scatter
	point, perG := ManoeuvrePoint(p.loads[0], p.points[0], s, pool)
	oneG := Result{Quantity: "elevator_per_g"}
	if len(perG) > 0 {
		oneG = perG[0]
	}
	top, angle := foremostLift(p.stalls[0], s, pool)
	slips := SideslipSlopes(p.slips[0], s, pool)
	stiff, dihedral := StiffnessFromSideslip(p.slips[0], a.drawLoan(s, p.shared, random), s, pool)
	topTruth, _ := a.stall(top.CG, standardSlowing)
	_, angleTruth := a.stall(angle.CG, standardSlowing)
	rudder, aileron, side := a.slip(1)
	return []trial{
		{point, a.manoeuvrePoint()},
		{oneG, a.perG(oneG.Lift/p.shared.liftScale(), oneG.CG)},
		{top, topTruth},
		{angle, angleTruth},
		{slips.Rudder, rudder},
		{slips.Aileron, aileron},
		{slips.SideForce, side},
		{slips.Bank, -side / slipLift},
		{stiff.Result, a.yawBeta},
		{dihedral.Result, a.rollBeta},
	}
}

// fly flies one seed of an arm.
func (m arm) fly(seed uint64, programmes int) []*tally {
	random := rand.New(rand.NewPCG(seed, 1))
	var tallies []*tally
	for range programmes {
		p := flyProgramme(random, m.base, m.configurations, m.least, m.most, m.cgs, usualErrors(), m.vertical)
		if m.pool {
			p.pool()
		}
		for i, one := range p.trials(m.stated, random) {
			if len(tallies) <= i {
				tallies = append(tallies, &tally{name: one.Quantity})
			}
			tallies[i].count(one.Result, one.truth)
		}
	}
	return tallies
}

// TestIntervalsCover counts, for seeds 1 to 3, how often 95 % intervals hold the truth, one configuration a programme, so that programmes are
// independent trials. A quantity passes when the 95 % binomial interval of its rate meets 93 to 97 %. The long form, some eight
// minutes on two busy cores, is
//
//	go test ./flightlog/estimate -run '^TestIntervalsCover$' -v -programs 1000 -timeout 2h
//
// and what it printed stands in testdata/coverage.txt.
func TestIntervalsCover(t *testing.T) {
	for _, m := range arms() {
		t.Run(m.name, func(t *testing.T) {
			t.Parallel()
			var sum []*tally
			for seed := uint64(1); seed <= 3; seed++ {
				for i, one := range m.fly(seed, *programmes) {
					if len(sum) <= i {
						sum = append(sum, &tally{})
					}
					sum[i].add(one)
				}
			}
			var table strings.Builder
			writeTable(&table, m.name, sum)
			t.Log(table.String())
			for _, c := range sum {
				require.NotContains(t, []string{"too narrow", "never determined"}, c.verdict(), "%s: %d of %d intervals hold the truth", c.name, c.inside, c.decided())
				if !c.meets() { // too wide is no lie, and stands in the table
					require.LessOrEqual(t, c.rate(), 0.985, "%s: wide for nothing", c.name)
				}
			}
		})
	}
}
