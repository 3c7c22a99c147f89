package estimate

import (
	"fmt"
	"math"
	"slices"
)

// SideslipResult is what steady-heading sideslips say: how much of each control, of side force and of bank a radian of sideslip takes.
type SideslipResult struct {
	Rudder    Result // rudder_per_sideslip, dδr/dβ
	Aileron   Result // aileron_per_sideslip, dδa/dβ
	SideForce Result // side_force_per_sideslip, dCY/dβ with the controls moving along
	Bank      Result // bank_per_sideslip, dφ/dβ at the mean lift coefficient of the result
}

// slipResponse is what is fitted against sideslip.
type slipResponse struct {
	name string
	of   func(Slip) (value, sd float64)
}

func rudderResponse() slipResponse {
	return slipResponse{"rudder", func(s Slip) (float64, float64) { return s.Rudder, s.RudderSD }}
}

func aileronResponse() slipResponse {
	return slipResponse{"aileron", func(s Slip) (float64, float64) { return s.Aileron, s.AileronSD }}
}

func sideForceResponse() slipResponse {
	return slipResponse{"side force", func(s Slip) (float64, float64) { return s.SideForce, s.SideForceSD }}
}

// bankResponse is the bank that a steady sideslip takes at one lift coefficient: weight holds the side force, tan φ = −CY/CL. The bank
// itself holds what was left of turning as well, a degree and a half for each degree a second at 25 m/s, which is as much as the sideslip's.
func bankResponse(lift float64) slipResponse {
	return slipResponse{"bank", func(s Slip) (float64, float64) {
		if !(lift > 0) {
			return s.Bank, 0
		}
		return -s.SideForce / lift, s.SideForceSD / lift
	}}
}

// slipNeed is what a flight must hold to have a slope of its own.
const slipNeed = "sideslips at two clearly different angles or more"

// surePerSideslip is the reach of a 95 % interval below which a slope is never called weak: half a degree of control in ten degrees of
// sideslip, about the play of a servo and its linkage (common practice, no source).
const surePerSideslip = 0.05

// SideslipSlopes fits rudder, aileron, side force and bank [rad, rad, 1, rad] against sideslip [rad].
//
// Each flight gives one slope, corrected for the error of its sideslips, and the flights' slopes are fitted linearly in CG, as trim slopes
// are; the result stands at the middle of the CGs flown. An error of sideslip that a flight shares (its wind, its heading) is a constant
// and drops out of a slope. Both rudders count by their mean, trailing edge left positive. pooled may be nil; see PoolSlips.
//
// The gain of the rudder's and the aileron's calibration enters their slopes in full, airspeed and mass the side force.
func SideslipSlopes(slips []Slip, s Systematics, pooled *Scatter) SideslipResult {
	// A side force is weighed like lift, m·a/(q·S).
	lift := meanLift(slips, prepareSlips(slips, sideForceResponse()).power)
	return SideslipResult{
		Rudder:    slipSlope("rudder_per_sideslip", slips, rudderResponse(), s, map[string]float64{SourceRudderScale: s.RudderScale}, pooled),
		Aileron:   slipSlope("aileron_per_sideslip", slips, aileronResponse(), s, map[string]float64{SourceAileronScale: s.AileronScale}, pooled),
		SideForce: slipSlope("side_force_per_sideslip", slips, sideForceResponse(), s, s.liftScale(), pooled),
		Bank:      slipSlope("bank_per_sideslip", slips, bankResponse(lift), s, nil, pooled),
	}
}

// slipSlope is one of them; relative are the shared relative errors of the response.
func slipSlope(quantity string, slips []Slip, response slipResponse, s Systematics, relative map[string]float64, pooled *Scatter) Result {
	data := prepareSlips(slips, response)
	r := slipLabel(quantity, data, slips)
	l, _, words, err := slipLine(&r, data, response, pooled)
	r.Warnings = append(r.Warnings, words...)
	if err != nil {
		return undetermined(r, err.Error())
	}
	value, sd := l.at(l.centre)
	common := map[string]float64{}
	for name, e := range relative {
		common[name] = value * e
	}
	r.CG, r.HasCG = l.centre, true
	return weakSlope(thin(fillStudent(r, value, sd, s.withCG(common, l.perCG(), 0))))
}

// slipLine regresses the flights' slopes and sets the degrees of freedom.
func slipLine(r *Result, data prepared, response slipResponse, pooled *Scatter) (lineInCG, component, []string, error) {
	asked := numbers(data.lines, slopeTarget)
	if len(asked) == 0 {
		return lineInCG{}, component{}, nil, fmt.Errorf("no flight holds %s: fly steady-heading sideslips to both sides, at about 5 and 10 degrees, in each of three flights", slipNeed)
	}
	sigma2, _ := within([][]line{data.lines})
	l, used, words, err := regressNumbers(asked, sigma2, pooled.orNone().slipComponent(response), slipNeed)
	r.Degrees = used.degrees
	return l, used, words, err
}

// prepareSlips makes samples of sideslips: sideslip stands where CL stands in a trim line, the response in the place of the elevator.
func prepareSlips(slips []Slip, response slipResponse) prepared {
	var points []Point
	for _, s := range slips {
		value, sd := response.of(s)
		points = append(points, Point{Flight: s.Flight, CG: s.CG, Lift: s.Sideslip, LiftSD: s.SideslipSD, Elevator: value, ElevatorSD: sd, Power: s.Power})
	}
	r := elevatorRelation()
	r.name = response.name
	r.place = func(p Point) string { return fmt.Sprintf("%.1f° of sideslip", p.Lift*180/math.Pi) }
	return prepareStraight(points, r)
}

// slipLabel starts a result; Lift is the mean lift coefficient of the sideslips used.
func slipLabel(quantity string, data prepared, slips []Slip) Result {
	r := label(quantity, "1", "steady-heading sideslips, flight lines against sideslip", data)
	r.Lift = meanLift(slips, data.power)
	for _, l := range data.lines {
		if !l.spans {
			r.Warnings = append(r.Warnings, fmt.Sprintf("flight %s has no %s: no slope of its own", l.flight, slipNeed))
		}
	}
	return r
}

// meanLift is the mean lift coefficient of the sideslips in one state of power; 0 where there is none.
func meanLift(slips []Slip, power string) float64 {
	var lifts []float64
	for _, s := range slips {
		if s.Power == power && allFinite(s.Lift) {
			lifts = append(lifts, s.Lift)
		}
	}
	slices.Sort(lifts) // the order in which sideslips came does not matter, to the last bit
	mean := 0.0
	for _, lift := range lifts {
		mean += lift / float64(len(lifts))
	}
	return mean
}

// weakSlope marks a slope whose interval is wide against itself and against what a control can be held to.
func weakSlope(r Result) Result {
	if r.High == nil || r.Value == nil {
		return r
	}
	if reach := (*r.High - *r.Low) / 2; reach > math.Max(weakShare*math.Abs(*r.Value), surePerSideslip) {
		return weaken(r, fmt.Sprintf("the 95 %% interval reaches %.2f to either side", reach))
	}
	return r
}

// PoolSlips adds the sideslips of every configuration of a program (one slice a configuration, in a fixed order) to the scatter and
// returns it: how much the slopes of flights differ by chance is then estimated over all of them.
func (s *Scatter) PoolSlips(configurations [][]Slip) *Scatter {
	for _, slips := range configurations {
		for _, power := range slipPowers(slips) {
			s.slips = append(s.slips, slices.DeleteFunc(slices.Clone(slips), func(p Slip) bool { return p.Power != power }))
		}
	}
	return s
}

func slipPowers(slips []Slip) []string {
	var out []string
	for _, p := range slips {
		if !slices.Contains(out, p.Power) {
			out = append(out, p.Power)
		}
	}
	slices.Sort(out)
	return out
}

// slipComponent is the pooled scatter of the slopes of a response.
func (s *Scatter) slipComponent(response slipResponse) component {
	var lines [][]line
	for _, slips := range s.slips {
		lines = append(lines, prepareSlips(slips, response).lines)
	}
	return componentOf(lines, slopeTarget)
}
