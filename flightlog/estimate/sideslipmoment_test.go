package estimate

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog/identify"
)

// Sideslips balance about the CG of their flight, borrowed rudder power may refer to another point: the side force between the two is
// carried over, and Cn_β comes out about that point, exactly.
func TestStiffnessAboutAnotherPoint(t *testing.T) {
	const span, at, cg = 8.0, 3.9, 3.7
	const stiffness, rudder, sideBeta, sideRudder = 0.04, -0.03, -0.3, 0.06
	arm := (at - cg) / span
	perBeta := -(stiffness - arm*sideBeta) / (rudder - arm*sideRudder)
	var slips []Slip
	for flight := range 3 {
		for _, beta := range []float64{-0.12, -0.06, 0.06, 0.12} {
			d := perBeta * beta
			slips = append(slips, Slip{Flight: fmt.Sprint("F", flight), CG: cg, Sideslip: beta, SideslipSD: 0.001, Rudder: d, RudderSD: 0.001,
				SideForce: sideBeta*beta + sideRudder*d, SideForceSD: 0.001, Power: "level"})
		}
	}
	loan := Loan{Derivatives: []Lent{{Quantity: identify.RudderPower, Value: rudder, SD: 1e-4}}, MomentCG: at, Span: span}
	directional, _ := StiffnessFromSideslip(slips, loan, Systematics{}, nil)
	require.NotNil(t, directional.Value)
	require.InDelta(t, stiffness, *directional.Value, 1e-4)
	require.Equal(t, at, directional.CG)
	loan.Span = 0
	directional, _ = StiffnessFromSideslip(slips, loan, Systematics{}, nil)
	require.Greater(t, *directional.Value, stiffness+0.003, "without the side force it is a number about neither point")
}
