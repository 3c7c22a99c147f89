package prediction

import (
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero/lattice"
	"wingproof/aero/stall"
	"wingproof/cmd/wingproof/internal/evidence"
)

// Only cases in trim with clean surfaces have a greatest lift, and only at the forward CG does it carry its deviation.
func TestGreatestLiftIsThatOfTrimAndClean(t *testing.T) {
	cases, _ := stalls(t, stallProgram(), analysed(t, sectioned(), stallSetup()))
	for _, c := range cases {
		require.Equal(t, c.Handling != AftStop && c.Surfaces == AllClean, c.Greatest.Known, c.Name)
		require.Equal(t, c.Greatest.Known && c.Handling == ForwardTrimmed, c.Greatest.Deviation > 0, c.Name)
		if c.Greatest.Known && c.Greatest.Ends == EndsAtForeplane {
			require.InDelta(t, c.Lift, c.Greatest.Lift, 1e-12, c.Name)
		}
	}
	model, full := caseOf(t, cases, evidence.ModelScale, ForwardTrimmed, AllClean), caseOf(t, cases, evidence.FullSize, ForwardTrimmed, AllClean)
	require.Greater(t, full.Greatest.Lift, model.Greatest.Lift, "the tables rise with the Reynolds number")
}

// Two roads to the greatest lift at two CGs. Moments about the CG by hand: what the foreplane lifts ahead of it, the wing lifts behind it,
// L·(xw − x) = F·(xw − xf). The place xw where the wing's lift acts follows from the forward CG; the aft CG then gives L from its own F.
func TestGreatestLiftBalancesAtTwoCGs(t *testing.T) {
	a := analysed(t, sectioned(), stallSetup())
	cases, _ := stalls(t, stallProgram(), a)
	forward, aft := caseOf(t, cases, evidence.FullSize, ForwardTrimmed, AllClean), caseOf(t, cases, evidence.FullSize, AftTrimmed, AllClean)
	area := a.Solution.Reference().Area
	fore := func(c StallCase) float64 {
		return 2 * alongCurve(c.Order, c.Greatest.Alpha, func(p stall.Point) float64 { return p.ForeplaneLift })
	}
	quarter := a.Airframe.Surfaces[1].Stations[0]
	xf := quarter.LeadingEdge.X + 0.25*(quarter.TrailingEdge.X-quarter.LeadingEdge.X)
	lift, front := forward.Greatest.Lift*area, fore(forward)
	xw := (lift*forward.CG - front*xf) / (lift - front)
	require.InEpsilon(t, fore(aft)*(xw-xf)/(xw-aft.CG)/area, aft.Greatest.Lift, 0.02)
	require.Greater(t, aft.Greatest.Lift, forward.Greatest.Lift)
}

// A stronger foreplane by the five per cent of its deviation, elevator trimming anew, by another road: the tables themselves raised.
func TestGreatestLiftDeviationIsThatOfTheTables(t *testing.T) {
	a := analysed(t, sectioned(), stallSetup())
	p := stallProgram()
	before, _ := stalls(t, p, a)
	for i, r := range p.Aerofoils[0].Polar {
		p.Aerofoils[0].Polar[i].MaxLift = 1.05 * r.MaxLift
	}
	after, _ := stalls(t, p, a)
	was, is := caseOf(t, before, evidence.FullSize, ForwardTrimmed, AllClean).Greatest, caseOf(t, after, evidence.FullSize, ForwardTrimmed, AllClean).Greatest
	require.InDelta(t, is.Lift-was.Lift, was.Common[SourceForeplaneMaximum], 0.003)
	require.Positive(t, was.Common[SourceForeplaneMaximum])
	require.InDelta(t, 0, was.Common[SourceWingMaximum], 0.003, "the wing has not let go yet")
}

// With a foreplane that never lets go in time, lift ends where the elevator does: the lattice trims at that lift with the elevator at its stop.
func TestGreatestLiftEndsAtTheStop(t *testing.T) {
	p := stallProgram()
	for k := range p.Aerofoils {
		for i := range p.Aerofoils[k].Polar {
			p.Aerofoils[k].Polar[i].MaxLift += 2
		}
	}
	airframe := sectioned()
	airframe.Surfaces[1].Hinges[0].TravelMax = 0.12
	a := analysed(t, airframe, stallSetup())
	cases, _ := stalls(t, p, a)
	c := caseOf(t, cases, evidence.FullSize, ForwardTrimmed, AllClean)
	require.Equal(t, EndsAtStop, c.Greatest.Ends)
	state, err := a.Solution.Trim(c.Greatest.Lift, "elevator", r3.Vec{X: c.CG})
	require.NoError(t, err)
	require.InDelta(t, 0.12, state.Controls["elevator"], 0.002)
	require.InDelta(t, a.Solution.Coefficients(lattice.State{Alpha: c.Greatest.Alpha, Controls: map[string]float64{"elevator": 0.12}}, r3.Vec{}).Lift, c.Greatest.Lift, 1e-3)
}

// A wing that lets go first ends it there.
func TestGreatestLiftEndsAtTheWing(t *testing.T) {
	p := stallProgram()
	for i := range p.Aerofoils[1].Polar {
		p.Aerofoils[0].Polar[i].MaxLift *= 1.5
		p.Aerofoils[1].Polar[i].MaxLift *= 0.5
	}
	cases, _ := stalls(t, p, analysed(t, sectioned(), stallSetup()))
	c := caseOf(t, cases, evidence.FullSize, AftTrimmed, AllClean)
	require.Equal(t, EndsAtWing, c.Greatest.Ends)
	at, _ := c.Order.Wing.Value()
	require.InDelta(t, at, c.Greatest.Alpha, 1e-12)
	require.Less(t, c.Greatest.Lift, c.Lift)
	margin, _, governing, ok := StallMargin(cases)
	require.True(t, ok)
	require.Negative(t, margin)
	require.True(t, governing.CanPass())
}

// The least margin of full size; a bound counts where it tells the sign, and one that leaves the sign open leaves the margin open.
func TestStallMargin(t *testing.T) {
	at := func(low, high, sd float64, size string) StallCase {
		return StallCase{Size: size, Surfaces: AllClean, Deviation: sd, Order: stall.Order{Margin: stall.Bracket{Low: low, High: high}}}
	}
	for name, c := range map[string]struct {
		cases      []StallCase
		margin, sd float64
		ok         bool
	}{
		"the least":               {[]StallCase{at(0.1, 0.1, 0.02, evidence.FullSize), at(0.05, 0.05, 0.01, evidence.FullSize)}, 0.05, 0.01, true},
		"the model never counts":  {[]StallCase{at(0.1, 0.1, 0.02, evidence.FullSize), at(-0.05, -0.05, 0.01, evidence.ModelScale)}, 0.1, 0.02, true},
		"at least":                {[]StallCase{at(0.07, inf, 0, evidence.FullSize)}, 0.07, marginDeviation, true},
		"at most":                 {[]StallCase{at(-inf, -0.03, 0, evidence.FullSize)}, -0.03, marginDeviation, true},
		"open":                    {[]StallCase{at(-0.1, inf, 0, evidence.FullSize), at(0.2, 0.2, 0.01, evidence.FullSize)}, 0, 0, false},
		"no case":                 {nil, 0, 0, false},
		"a dirty foreplane alone": {[]StallCase{{Size: evidence.FullSize, Surfaces: ForeplaneContaminated}}, 0, 0, false},
	} {
		margin, sd, _, ok := StallMargin(c.cases)
		require.Equal(t, c.ok, ok, name)
		if ok {
			require.Equal(t, c.margin, margin, name)
			require.Equal(t, c.sd, sd, name)
		}
	}
}
