package study

import (
	"math"
	"slices"

	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/keep"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/flightlog/estimate"
	"wingproof/flightlog/identify"
)

// modes are the natural motions that the measured derivatives of one configuration give: at model scale as flown, and at full size in the
// cruise at the aftmost loading, where mass and inertias are stated.
func (s *Study) modes(c Configuration, drag polar, flights []Flight, results []estimate.Result, covariance [][]float64) (model, full []estimate.Result) {
	for _, axis := range []identify.Axis{identify.Longitudinal, identify.Lateral} {
		in, ok := s.modeInput(axis, flights, results, covariance)
		if !ok {
			continue
		}
		in = borrowed(in, axis, c)
		in.Aircraft = drag.on(in.Aircraft, c.LiftSlope)
		model = append(model, halfOf(axis, keptModes(s.keep, in))...)
		if aircraft, ok := s.fullSizeAircraft(c); ok {
			in.Aircraft = drag.on(aircraft, c.LiftSlope)
			full = append(full, halfOf(axis, keptModes(s.keep, in))...)
		}
	}
	return model, full
}

// keptModes finds the motions that the same numbers gave before, or works them out.
func keptModes(store *keep.Store, in estimate.ModeInput) []estimate.Result {
	out, _ := keep.Result(store, keep.Work[[]estimate.Result]{Kind: "modes", Inputs: in, Compute: func() ([]estimate.Result, error) { return estimate.Modes(in), nil }})
	return out
}

// modeInput gathers the derivatives of one half of the motion in the state of power with the most of them.
func (s *Study) modeInput(axis identify.Axis, flights []Flight, results []estimate.Result, covariance [][]float64) (in estimate.ModeInput, ok bool) {
	setup := s.setup(axis)
	in = estimate.ModeInput{Reference: setup.Reference, MomentX: setup.MomentX, MomentZ: setup.MomentZ, Seed: s.Program.Seed}
	names := quantitiesOf(axis)
	in.Power = commonPower(results, names)
	var index []int
	for i, r := range results {
		if r.Power != in.Power || !slices.Contains(names, r.Quantity) || r.Value == nil || r.SDOwn == nil {
			continue
		}
		index = append(index, i)
		in.Derivatives = append(in.Derivatives, estimate.ModeDerivative{Quantity: r.Quantity, Value: *r.Value, SD: *r.SDOwn, Common: r.Common})
		in.Lift, in.Degrees = r.Lift, leastDegrees(in.Degrees, r.Degrees)
		in.Points = max(in.Points, r.Points)
		if len(r.Flights) > len(in.Flights) {
			in.Flights = r.Flights
		}
	}
	for _, i := range index {
		row := make([]float64, len(index))
		for b, j := range index {
			row[b] = covariance[i][j]
		}
		in.Covariance = append(in.Covariance, row)
	}
	var segments []identify.Segment
	for _, f := range flights {
		segments = append(segments, segmentsOf(f.Reduction.Segments, axis, in.Power)...)
	}
	if len(segments) == 0 {
		return in, false
	}
	in.Aircraft = s.modelInLevelFlight(segments[0])
	in.Mass = in.Aircraft.Body.Mass
	for _, one := range segments[1:] { // the mean of all
		other := s.modelInLevelFlight(one)
		in.Aircraft.CGX, in.Aircraft.Speed = in.Aircraft.CGX+other.CGX, in.Aircraft.Speed+other.Speed
		in.Aircraft.Density, in.Aircraft.Alpha = in.Aircraft.Density+other.Density, in.Aircraft.Alpha+other.Alpha
	}
	n := float64(len(segments))
	in.Density = in.Aircraft.Density / n
	in.Aircraft.CGX, in.Aircraft.Speed, in.Aircraft.Density, in.Aircraft.Alpha = in.Aircraft.CGX/n, in.Aircraft.Speed/n, in.Aircraft.Density/n, in.Aircraft.Alpha/n
	return in, len(in.Derivatives) > 0
}

// borrowedShare is one standard deviation of what the lattice lends to the motions, over its size. Common practice, no source.
const borrowedShare = 0.5

// borrowed takes from the lattice what matters little and no input told.
func borrowed(in estimate.ModeInput, axis identify.Axis, c Configuration) estimate.ModeInput {
	d := c.Derivatives
	lent := map[string]float64{identify.SideForceByRollRate: d.ByRollRate.Side, identify.SideForceByYawRate: d.ByYawRate.Side}
	names := []string{identify.SideForceByRollRate, identify.SideForceByYawRate}
	if axis == identify.Longitudinal {
		moved := stability.Moved(d, in.MomentX/in.Reference.MeanChord*d.Reference.MeanChord, d.MomentZ)
		lent, names = map[string]float64{identify.LiftByPitchRate: moved.ByPitchRate.Lift}, []string{identify.LiftByPitchRate}
	}
	for _, name := range names {
		if slices.ContainsFunc(in.Derivatives, func(d estimate.ModeDerivative) bool { return d.Quantity == name }) {
			continue
		}
		in.Derivatives = append(slices.Clone(in.Derivatives), estimate.ModeDerivative{Quantity: name, Value: lent[name], SD: borrowedShare * math.Abs(lent[name]), From: "the vortex lattice"})
		in.Covariance = widened(in.Covariance, borrowedShare*lent[name])
	}
	return in
}

// widened adds an independent number to a covariance.
func widened(covariance [][]float64, sd float64) [][]float64 {
	n := len(covariance)
	out := make([][]float64, n+1)
	for i := range out {
		out[i] = make([]float64, n+1)
		if i < n {
			copy(out[i], covariance[i])
		}
	}
	out[n][n] = sd * sd
	return out
}

// leastDegrees is the smaller number of degrees of freedom; 0 is none yet.
func leastDegrees(a, b float64) float64 {
	if a == 0 || b < a {
		return b
	}
	return a
}

// quantitiesOf lists the derivatives of one half of the motion.
func quantitiesOf(axis identify.Axis) []string {
	if axis == identify.Longitudinal {
		return []string{identify.LiftCurveSlope, identify.LiftByPitchRate, identify.ElevatorLift, identify.PitchStiffness, identify.PitchDamping, identify.ElevatorPower,
			identify.PitchByAlphaRate}
	}
	return []string{identify.SideForceSlope, identify.SideForceByRollRate, identify.SideForceByYawRate, identify.SideForceByAileron, identify.SideForceByRudder,
		identify.DihedralEffect, identify.RollDamping, identify.RollDueToYaw, identify.AileronPower, identify.RollByRudder,
		identify.DirectionalStiff, identify.YawDueToRoll, identify.YawDamping, identify.YawByAileron, identify.RudderPower}
}

// commonPower is the state of power in which most of the quantities were determined; the first by name of equals.
func commonPower(results []estimate.Result, names []string) string {
	count := map[string]int{}
	for _, r := range results {
		if r.Value != nil && slices.Contains(names, r.Quantity) {
			count[r.Power]++
		}
	}
	best := ""
	for _, power := range []string{"full", "idle", "level"} {
		if count[power] > count[best] {
			best = power
		}
	}
	return best
}

// halfOf keeps the motions of one half.
func halfOf(axis identify.Axis, all []estimate.Result) []estimate.Result {
	names := modesOf(axis)
	return slices.DeleteFunc(slices.Clone(all), func(r estimate.Result) bool { return !slices.Contains(names, r.Quantity) })
}

// modesOf lists the numbers of the motions of one half.
func modesOf(axis identify.Axis) []string {
	if axis == identify.Longitudinal {
		return []string{estimate.ShortPeriodFrequency, estimate.ShortPeriodDamping, estimate.PhugoidFrequency, estimate.PhugoidDamping}
	}
	return []string{estimate.DutchRollFrequency, estimate.DutchRollDamping, estimate.RollTimeConstant, estimate.SpiralRoot, estimate.SpiralTimeToDouble}
}

// fullSizeAircraft is the aircraft that is being built, in the cruise at its aftmost loading.
func (s *Study) fullSizeAircraft(c Configuration) (estimate.ModeAircraft, bool) {
	full := s.Program.FullSize
	_, aft, loaded := prediction.LoadedRange(s.Program)
	air, err := atmosphere.Standard(full.CruiseAltitude)
	if err != nil || !loaded || full.CruiseSpeed <= 0 || full.Mass.Value <= 0 || full.Ix.Value <= 0 || full.Iy.Value <= 0 || full.Iz.Value <= 0 {
		return estimate.ModeAircraft{}, false
	}
	relative := func(sd, value float64) float64 { return sd / value }
	one := func(name string, sd float64) map[string]float64 { return map[string]float64{name: sd} }
	out := estimate.ModeAircraft{Scale: evidence.FullSize, LengthRatio: 1, Reference: c.Airframe.Reference,
		Body: stability.Body{Mass: full.Mass.Value, Ix: full.Ix.Value, Iy: full.Iy.Value, Iz: full.Iz.Value},
		CGX:  aft, CGZ: c.Derivatives.MomentZ, Speed: full.CruiseSpeed, Density: air.Density, Drag: usualDrag,
		Errors: estimate.ModeErrors{
			Mass:     one(estimate.FullSizeMass, relative(full.Mass.SD, full.Mass.Value)),
			InertiaX: one(estimate.FullSizeInertiaX, relative(full.Ix.SD, full.Ix.Value)),
			InertiaY: one(estimate.FullSizeInertiaY, relative(full.Iy.SD, full.Iy.Value)),
			InertiaZ: one(estimate.FullSizeInertiaZ, relative(full.Iz.SD, full.Iz.Value)),
			CG:       one(estimate.FullSizeCG, full.EmptyX.SD),
		}}
	out.Alpha = cruiseAlpha(c, out)
	return out, true
}

// cruiseAlpha is the angle of attack of the datum axis in the cruise: the lattice's, along its lift slope from the lift at which it was solved.
func cruiseAlpha(c Configuration, a estimate.ModeAircraft) float64 {
	lift := 2 * a.Body.Mass * atmosphere.Gravity / (a.Density * a.Speed * a.Speed * a.Reference.Area)
	return c.TrimAlpha + (lift-PredictionLift)/c.TrimmedLiftSlope
}
