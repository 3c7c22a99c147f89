package estimate

import (
	"fmt"
	"math"

	"wingproof/flightlog/statistic"
)

// ElevatorPower is Cm_δe about the neutral point [1/rad, elevator trailing edge down, moments nose up, over the mean chord], from trims at
// two CGs or more; meanChord is in full-size metres, like the CGs.
//
// Trim is CL = CL0 + CL_α·α + CL_δe·δe and 0 = Cm0 + Cm_α·α + Cm_δe·δe. Without α that gives dδe/dCL = −Cm_α/D with
// D = CL_α·Cm_δe − CL_δe·Cm_α, which keeps its value when the moment point moves: Cm_α grows by CL_α·Δh/c, Cm_δe by CL_δe·Δh/c, and the products
// cancel. Hence d(dδe/dCL)/dh = −CL_α/(c·D), and about the neutral point, where Cm_α = 0 and D = CL_α·Cm_δe,
//
//	Cm_δe = −1/(c·d(dδe/dCL)/dh),
//
// the elevator's own lift included. Nothing of it is borrowed: a second road to what input manoeuvres give. Result.CG is the neutral point
// that the same flights tell; MoveElevatorPower carries the number elsewhere.
//
// dδe/dCL goes with the gain of the elevator's calibration and against the scale of CL, so airspeed enters twice and mass once; an offset of
// all CGs drops out, a stretch of their distances does not. pooled may be nil.
//
// Source: C. D. Perkins and R. E. Hage, Airplane Performance, Stability and Control, Wiley 1949, chapter 5, for trim
// slopes against CG (from memory); the elevator's lift as derived above.
func ElevatorPower(points []Point, meanChord float64, s Systematics, pooled *Scatter) Result {
	data := prepare(points, elevatorRelation())
	r := label("elevator_power", perRadian, "change of flight trim slopes with CG", data)
	r.Warnings = append(r.Warnings, spanWords(data.lines)...)
	if !(meanChord > 0) || !allFinite(meanChord) {
		return undetermined(r, fmt.Sprintf("elevator power needs a positive mean chord, not %v m", meanChord))
	}
	asked := numbers(data.lines, slopeTarget)
	if len(asked) == 0 {
		return undetermined(r, "no flight holds steady points at two different lift coefficients: fly slow, middling and fast, trimmed, in each flight")
	}
	l, used, words, err := regress(data.lines, slopeTarget, pooled.orNone().elevatorSlope)
	r.Warnings = append(r.Warnings, words...)
	if err != nil {
		return undetermined(r, err.Error())
	}
	r.Degrees = used.degrees
	if l.single {
		return undetermined(r, fmt.Sprintf("flown at one CG only (%s): trim there tells stiffness over elevator power, not each alone; fly a second CG, or elevator doublets", millimetres(asked[0].cg)))
	}
	return elevatorPowerFromLine(r, l, asked, meanChord, s)
}

// elevatorPowerFromLine inverts the change of the trim slope with CG.
func elevatorPowerFromLine(r Result, l lineInCG, asked []number, meanChord float64, s Systematics) Result {
	rate, variance := l.coefficients[1], l.covariance[1][1]
	set := FiellerSet(-1/meanChord, rate, 0, 0, variance, statistic.StudentQuantile(r.Degrees))
	if set.Set != SetInterval {
		r.Set = set.Set
		return undetermined(r, "the trim slope does not clearly change with CG: "+travelWords(cgTravel(asked), set.G))
	}
	common := map[string]float64{SourceElevatorScale: -set.Value * s.ElevatorScale, SourceCGScale: set.Value * s.CGScale}
	for name, relative := range s.liftScale() {
		common[name] = set.Value * relative
	}
	r.CG, r.HasCG = l.centre-l.coefficients[0]/rate, true
	r = fill(r, set.Value, set.SD, set.Low, set.High, common)
	if share := math.Sqrt(set.G); share > weakShare {
		r = weaken(r, fmt.Sprintf("the 95 %% interval reaches %.0f %% to either side: fly a CG travel of about %s full size, not %s",
			100*share, millimetres(cgTravel(asked)*share/weakShare), millimetres(cgTravel(asked))))
	}
	return thin(r)
}

// MoveElevatorPower carries an elevator power to another moment point, cg in full-size metres aft of datum: Cm_δe grows by
// CL_δe·(cg − Result.CG)/c, since the elevator's lift then acts further ahead. elevatorLift is CL_δe [1/rad]; its random part is taken as
// independent. The neutral point's own error moves the result by CL_δe/c for each metre, and is left to the caller, who knows it.
func MoveElevatorPower(power, elevatorLift Result, cg, meanChord float64) Result {
	r := power
	r.Warnings = append([]string(nil), power.Warnings...)
	if power.Low == nil || power.High == nil || elevatorLift.Value == nil || elevatorLift.SDOwn == nil || !(meanChord > 0) || !allFinite(cg, meanChord) {
		r.Value = nil
		return undetermined(r, "carrying elevator power to another CG needs the power, the elevator's lift and a positive chord")
	}
	arm := (cg - power.CG) / meanChord
	value := *power.Value + *elevatorLift.Value*arm
	added := *elevatorLift.SDOwn * arm
	common := map[string]float64{}
	for _, name := range sourceNames(power.Common) {
		common[name] += power.Common[name]
	}
	for _, name := range sourceNames(elevatorLift.Common) {
		common[name] += elevatorLift.Common[name] * arm
	}
	own := commonSD(power.Common)
	below := randomReach(*power.Value-*power.Low, own)
	above := randomReach(*power.High-*power.Value, own)
	reach := statistic.StudentQuantile(elevatorLift.Degrees) * added
	r.CG, r.HasCG, r.Degrees = cg, true, min(power.Degrees, elevatorLift.Degrees)
	moved := fill(r, value, math.Hypot(*power.SDOwn, added), value-math.Hypot(below, reach), value+math.Hypot(above, reach), common)
	moved.State = power.State
	return moved
}

// randomReach takes the shared errors' part out of one end of an interval.
func randomReach(reach, shared float64) float64 {
	return math.Sqrt(math.Max(0, square(reach)-square(statistic.Normal975*shared)))
}
