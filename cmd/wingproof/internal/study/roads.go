package study

import (
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/flightlog/estimate"
	"wingproof/flightlog/identify"
)

// trimRoad is the road of steady flight alone.
const trimRoad = "trims over CGs"

// agreements sets the roads to one number side by side and pools those that may be pooled.
func (s *Study) agreements(d flownData, f Fit, pooled pooledScatter) []estimate.Agreement {
	ratio := s.Program.Model.LengthRatio
	lateral := s.lateralRoads(d, f, pooled)
	return append([]estimate.Agreement{
		estimate.Roads(evidence.NeutralPoint, neutralPointRoads(d, f, pooled, ratio), estimate.Loan{}),
		estimate.Roads(evidence.LiftCurveSlope, withManoeuvres(f, evidence.LiftCurveSlope, estimate.Road{Name: trimRoad, Result: f.LiftSlope}), estimate.Loan{}),
		estimate.Roads(identify.ElevatorPower, withManoeuvres(f, identify.ElevatorPower, s.elevatorByTrim(f)), estimate.Loan{}),
	}, lateral...)
}

// neutralPointRoads are trims over CGs, and stiffness over lift slope of the manoeuvres in each state of power.
func neutralPointRoads(d flownData, f Fit, pooled pooledScatter, ratio float64) []estimate.Road {
	roads := []estimate.Road{{Name: trimRoad, Result: f.NeutralPoint}}
	for _, r := range estimate.MarginFromDerivatives(d.dynamics, ratio, f.MeanChord, pooled.derivatives) {
		roads = append(roads, estimate.Road{Name: "stiffness over lift slope of manoeuvres", Result: r})
	}
	return roads
}

// withManoeuvres are a road and what the manoeuvres say of the same quantity in each state of power.
func withManoeuvres(f Fit, quantity string, first estimate.Road) []estimate.Road {
	roads := []estimate.Road{first}
	for _, r := range f.Manoeuvres {
		if r.Quantity == quantity {
			roads = append(roads, estimate.Road{Name: "manoeuvres", Result: r, Borrowed: map[string]float64{quantity: 1}})
		}
	}
	return roads
}

// elevatorByTrim is elevator power by trims over CGs, carried from the neutral point to the CG that the manoeuvres refer to.
func (s *Study) elevatorByTrim(f Fit) estimate.Road {
	road := estimate.Road{Name: trimRoad, Result: f.ElevatorPower}
	for _, r := range f.Manoeuvres {
		if r.Quantity == identify.ElevatorLift && r.Value != nil {
			road.Result = estimate.MoveElevatorPower(f.ElevatorPower, r, s.ReferenceCG, f.MeanChord)
			return road
		}
	}
	return road
}

// swinging is what the Dutch-roll road of one configuration starts from.
type swinging struct {
	swings []estimate.Swing
	in     estimate.ModeInput
}

// poolDutchRolls reads the free responses of every configuration, and pools how flights scatter in them.
func (s *Study) poolDutchRolls(flown []flownData, fits []Fit, pooled *pooledScatter) {
	pooled.swings = map[string]swinging{}
	var all [][]identify.Fit
	for i, d := range flown {
		flights := s.flightsOf(d.configuration.Levels)
		covariance := estimate.DerivativeCovariance(d.dynamics, nil, fits[i].Manoeuvres, pooled.derivatives)
		in, ok := s.modeInput(identify.Lateral, flights, fits[i].Manoeuvres, covariance)
		if !ok {
			continue
		}
		w := swinging{swingsAt(flights, in.Power), in}
		pooled.swings[d.configuration.Name] = w
		all = append(all, estimate.DutchRollFits(w.swings, in))
	}
	pooled.dutchRolls = estimate.PoolDerivatives(all)
}

// lateralRoads are those to directional stiffness and dihedral effect, in the state of power of the rudder inputs.
func (s *Study) lateralRoads(d flownData, f Fit, pooled pooledScatter) []estimate.Agreement {
	var fits []identify.Fit
	for _, fit := range d.dynamics {
		if fit.Axis == identify.Lateral {
			fits = append(fits, fit)
		}
	}
	power := commonPower(f.Manoeuvres, quantitiesOf(identify.Lateral))
	loan := estimate.DerivativeLoan(fits, nil, power, pooled.derivatives)
	loan.MomentCG, loan.Span = d.configuration.StiffnessCG, d.configuration.Airframe.Reference.Span
	directional, dihedral := estimate.StiffnessFromSideslip(slipsWith(d.slips, power), loan, pooled.systematics, pooled.steady)
	toStiffness := withManoeuvres(f, identify.DirectionalStiff, slipRoad(directional))
	if w, ok := pooled.swings[d.configuration.Name]; ok {
		toStiffness = append(toStiffness, estimate.DirectionalStiffnessFromDutchRoll(w.swings, w.in, pooled.dutchRolls))
	}
	return []estimate.Agreement{
		estimate.Roads(identify.DirectionalStiff, toStiffness, loan),
		estimate.Roads(identify.DihedralEffect, withManoeuvres(f, identify.DihedralEffect, slipRoad(dihedral)), loan),
	}
}

// pooled is what all roads to a quantity say together.
func (f Fit) pooled(quantity string) estimate.Result {
	for _, a := range f.Agreements {
		if a.Pooled.Quantity == quantity {
			return a.Pooled
		}
	}
	return estimate.Result{Quantity: quantity, State: estimate.NotDetermined}
}

func slipRoad(r estimate.SideslipRoad) estimate.Road {
	return estimate.Road{Name: "steady sideslips", Result: r.Result, Borrowed: r.Sensitivity}
}

func slipsWith(slips []estimate.Slip, power string) []estimate.Slip {
	var out []estimate.Slip
	for _, slip := range slips {
		if slip.Power == power {
			out = append(out, slip)
		}
	}
	return out
}
