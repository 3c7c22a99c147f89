package estimate

import (
	"strings"
	"testing"

	"wingproof/flightlog/identify"

	"github.com/stretchr/testify/require"
)

// lateralLoan lends the aircraft's own control powers, with errors.
func (a aircraft) lateralLoan(s Systematics) Loan {
	rudder := func(v float64) map[string]float64 { return map[string]float64{SourceRudderScale: -v * s.RudderScale} }
	aileron := func(v float64) map[string]float64 { return map[string]float64{SourceAileronScale: -v * s.AileronScale} }
	return Loan{Derivatives: []Lent{
		{Quantity: identify.RudderPower, Value: a.yawRudder, SD: 0.003, Common: rudder(a.yawRudder)},
		{Quantity: identify.YawByAileron, Value: a.yawAileron, SD: 0.001, Common: aileron(a.yawAileron)},
		{Quantity: identify.AileronPower, Value: a.rollAileron, SD: 0.008, Common: aileron(a.rollAileron)},
		{Quantity: identify.RollByRudder, Value: a.rollRudder, SD: 0.002, Common: rudder(a.rollRudder)},
	}}
}

func TestSideslipSlopesOfExactFlights(t *testing.T) {
	a := canard()
	rudder, aileron, side := a.slip(1)
	r := SideslipSlopes(exactSlips(a, []float64{2.3, 2.3, 2.3}), Systematics{RudderScale: 0.03, AileronScale: 0.02, Mass: 0.01, AirspeedScale: 0.01}, nil)
	const source = "the aircraft that was flown; a flight's own error of sideslip drops out"
	near(t, *r.Rudder.Value, rudder, 1e-9, source)
	near(t, *r.Aileron.Value, aileron, 1e-9, source)
	near(t, *r.SideForce.Value, side, 1e-9, source)
	near(t, *r.Bank.Value, -side/0.5, 1e-9, source)
	near(t, r.Rudder.Common[SourceRudderScale], 0.03*rudder, 1e-9, "gain")
	near(t, r.Aileron.Common[SourceAileronScale], 0.02*aileron, 1e-9, "gain")
	near(t, r.SideForce.Common[SourceMass], 0.01*side, 1e-9, "weighed")
	near(t, r.SideForce.Common[SourceAirspeedScale], -0.02*side, 1e-9, "weighed")
	near(t, r.Rudder.Lift, 0.5, 1e-12, "lift coefficient, not sideslip")
	require.Empty(t, r.Bank.Common)
}

func TestStiffnessFromSideslip(t *testing.T) {
	a := canard()
	s := Systematics{RudderScale: 0.03, AileronScale: 0.02}
	loan := a.lateralLoan(s)
	directional, dihedral := StiffnessFromSideslip(exactSlips(a, []float64{2.3, 2.3, 2.3}), loan, s, nil)
	const source = "the aircraft that was flown"
	near(t, *directional.Value, a.yawBeta, 1e-9, source)
	near(t, *dihedral.Value, a.rollBeta, 1e-9, source)
	rudder, aileron, _ := a.slip(1)
	near(t, directional.Sensitivity[identify.RudderPower], -rudder, 1e-9, "dCn_β/dCn_δr")
	near(t, directional.Sensitivity[identify.YawByAileron], -aileron, 1e-9, "dCn_β/dCn_δa")
	near(t, *directional.SDOwn, commonSD(map[string]float64{"r": 0.003 * rudder, "a": 0.001 * aileron}), 1e-9, "the loan's random part")
	require.InDelta(t, 0, directional.Common[SourceRudderScale], 1e-12, "the rudder's gain cancels")
	require.InDelta(t, 0, dihedral.Common[SourceAileronScale], 1e-12, "the aileron's gain cancels")

	loan.Covariance = [][]float64{{9e-6, 3e-6, 0, 0}, {3e-6, 1e-6, 0, 0}, {0, 0, 64e-6, 0}, {0, 0, 0, 4e-6}}
	tied, _ := StiffnessFromSideslip(exactSlips(a, []float64{2.3, 2.3, 2.3}), loan, s, nil)
	near(t, *tied.SDOwn, abs(0.003*rudder+0.001*aileron), 1e-9, "fully correlated")
}

// A gain of the rudder that only the sideslips have enters in full.
func TestStiffnessTakesAGainThatTheLoanDoesNotShare(t *testing.T) {
	a := canard()
	s := Systematics{RudderScale: 0.03}
	r, _ := StiffnessFromSideslip(exactSlips(a, []float64{2.3, 2.3, 2.3}), a.lateralLoan(Systematics{}), s, nil)
	rudder, _, _ := a.slip(1)
	near(t, r.Common[SourceRudderScale], -0.03*rudder*a.yawRudder, 1e-12, "slope times power times gain")
	moved := exactSlips(a, []float64{2.3, 2.3, 2.3})
	for i := range moved {
		moved[i].Rudder *= 1.03
	}
	other, _ := StiffnessFromSideslip(moved, a.lateralLoan(Systematics{}), s, nil)
	near(t, *other.Value-*r.Value, r.Common[SourceRudderScale], 1e-9, "moved and fitted anew")
}

// What was left of turning is taken off where its damping is lent.
func TestStiffnessTakesRatesOff(t *testing.T) {
	a := canard()
	slips := exactSlips(a, []float64{2.3, 2.3, 2.3})
	const damping = -0.12
	for i := range slips {
		slips[i].YawRate = 0.01 * slips[i].Sideslip // turns into the sideslip
		slips[i].Rudder -= damping * slips[i].YawRate / a.yawRudder
	}
	loan := a.lateralLoan(Systematics{})
	without, _ := StiffnessFromSideslip(slips, loan, Systematics{}, nil)
	near(t, *without.Value, a.yawBeta+0.01*damping, 1e-9, "what a rate left over does")
	loan.Derivatives = append(loan.Derivatives, Lent{Quantity: identify.YawDamping, Value: damping, SD: 0.02})
	with, _ := StiffnessFromSideslip(slips, loan, Systematics{}, nil)
	near(t, *with.Value, a.yawBeta, 1e-9, "the aircraft that was flown")
}

func TestSideslipInWords(t *testing.T) {
	a := canard()
	r := SideslipSlopes(nil, Systematics{}, nil).Rudder
	require.Equal(t, NotDetermined, r.State)
	require.Contains(t, strings.Join(r.Warnings, "\n"), "fly steady-heading sideslips to both sides")
	one := SideslipSlopes(exactSlips(a, []float64{2.3}), Systematics{}, nil).Rudder
	require.Equal(t, NotDetermined, one.State)
	require.Contains(t, strings.Join(one.Warnings, "\n"), "1 flight more")
	stiff, _ := StiffnessFromSideslip(exactSlips(a, []float64{2.3, 2.3}), Loan{}, Systematics{}, nil)
	require.Equal(t, NotDetermined, stiff.State)
	require.Contains(t, strings.Join(stiff.Warnings, "\n"), "rudder power must come from input manoeuvres")
	loan := a.lateralLoan(Systematics{})
	loan.Derivatives = loan.Derivatives[:1]
	weak, _ := StiffnessFromSideslip(exactSlips(a, []float64{2.3, 2.3, 2.3, 2.3, 2.3}), loan, Systematics{}, nil)
	require.Equal(t, Weak, weak.State)
	require.Contains(t, strings.Join(weak.Warnings, "\n"), "the aileron's part is left out")
}

func abs(x float64) float64 {
	if x < 0 {
		return -x
	}
	return x
}
