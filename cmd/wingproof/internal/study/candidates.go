package study

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
)

// What a measurement leaves of an error, and how closely things are weighed when somebody takes pains: common practice, no source.
const (
	scalesMass      = 0.0015 // of the empty mass
	scalesX         = 0.003  // m
	scalesZ         = 0.015  // m
	proofLoad       = 0.01   // of what a part carries
	sectionsLeft    = 0.4    // of the Reynolds step and of what section tables leave in doubt
	powerLeft       = 0.4    // of the step from idle to full power
	calibrationLeft = 0.4
	flightsApart    = 1000 // flights of one configuration that stand for flying without end
)

// Candidates lists what could be done next: two flights of each configuration still possible, at the foremost and the aftmost CG that
// the board allows, and the measurements that lessen what flights do not. What a flight tells is what those made so far told, on
// average; before the first it is taken from the stated instrument errors. Endless stands for flying all of them without end.
func (s *Study) Candidates() (candidates []decide.Candidate, endless decide.Candidate, err error) {
	problem, err := s.Problem()
	if err != nil {
		return nil, endless, err
	}
	told := s.toldByFlights(problem)
	endless = decide.Candidate{Kind: "flights", Say: "any number of flights"}
	for _, c := range s.Verdict.Configurations {
		if !c.Live || c.FlyBetween == nil {
			continue
		}
		two := told.flights(c, 1)
		two.Say = fmt.Sprintf("fly %s twice, with the CG at %s and %s", c.Configuration, s.stationWords(c.FlyBetween[0]), s.stationWords(c.FlyBetween[1]))
		candidates = append(candidates, two)
		many := told.flights(c, flightsApart)
		endless.TrimSlopes, endless.Direct = append(endless.TrimSlopes, many.TrimSlopes...), append(endless.Direct, many.Direct...)
	}
	return append(candidates, s.measurements(problem)...), endless, nil
}

// stationWords writes a CG as the crew sets it: millimetres of the model.
func (s *Study) stationWords(x float64) string {
	return fmt.Sprintf("%.0f mm (model)", 1000*x*s.Program.Model.LengthRatio)
}

// told is what one flight tells: the flights made so far, per flight, or what the stated instrument errors make of one.
type told struct {
	study    *Study
	slopeSD  float64            // rad per unit lift coefficient, of one flight at one CG
	relative map[string]float64 // effect of each shared source on a slope, as a share of it
	cg       float64            // m, effect of the CG's own error
	degrees  float64
	direct   []decide.Direct // per flight, with levels of the configuration that they come from
}

// toldByFlights boils down what the flights told.
func (s *Study) toldByFlights(p decide.Problem) told {
	t := told{study: s, relative: map[string]float64{}, degrees: math.Inf(1)}
	var sds []float64
	best := -1
	for i, slopes := range p.TrimSlopes {
		flights := math.Max(1, float64(len(slopes.Flights))/float64(len(slopes.CG)))
		for k := range slopes.CG {
			sds = append(sds, math.Sqrt(slopes.Covariance[k][k]*flights))
		}
		if best < 0 || len(slopes.Flights) > len(p.TrimSlopes[best].Flights) {
			best = i
		}
	}
	if best < 0 {
		return t.fromInstruments()
	}
	slices.Sort(sds)
	t.slopeSD = sds[len(sds)/2]
	from := p.TrimSlopes[best]
	t.degrees = from.Degrees
	rate := s.predictedRate(from.Levels)
	steepest := 0
	for k, slope := range from.Slope {
		if math.Abs(slope) > math.Abs(from.Slope[steepest]) {
			steepest = k
		}
	}
	for source, effect := range from.Common {
		if source == "cg" {
			t.cg = effect[0] / rate
			continue
		}
		t.relative[source] = effect[steepest] / from.Slope[steepest]
	}
	t.direct = perFlight(p.Direct)
	return t
}

// fromInstruments is what a first flight tells, from the stated errors: the slope goes with the square of the airspeed, and its
// scatter is taken as two thousandths of the elevator that moves the CG by a chord.
func (t told) fromInstruments() told {
	const scatter = 0.002
	e := t.study.Program.Model.Errors
	c := t.study.Configurations[0]
	t.slopeSD = scatter * math.Abs(c.ElevatorTrimRate) * c.Airframe.Reference.MeanChord
	t.relative["airspeed_scale"] = 2 * e.AirspeedScale
	t.relative["elevator_scale"] = e.ElevatorScale
	for _, w := range t.study.Program.Weighings {
		t.cg = math.Max(t.cg, w.CGXSD)
	}
	return t
}

// perFlight takes, of each quantity, the number that most flights stand behind, and what one of them would have told.
func perFlight(all []decide.Direct) []decide.Direct {
	byQuantity := map[string]decide.Direct{}
	for _, d := range all {
		if have, ok := byQuantity[d.Quantity]; !ok || len(d.Flights) > len(have.Flights) {
			byQuantity[d.Quantity] = d
		}
	}
	var out []decide.Direct
	for _, quantity := range slices.Sorted(maps.Keys(byQuantity)) {
		d := byQuantity[quantity]
		d.SDOwn *= math.Sqrt(float64(max(1, len(d.Flights))))
		out = append(out, d)
	}
	return out
}

// flights are so many flights of a configuration at each end of the CGs that it may be flown at.
func (t told) flights(c decide.ConfigurationVerdict, times int) decide.Candidate {
	rate := t.study.predictedRate(c.Levels)
	neutral := t.study.predictedNumber(c.Levels, evidence.NeutralPoint)
	names := []string{"next 1", "next 2"}
	slopes := decide.TrimSlopes{Levels: c.Levels, CG: c.FlyBetween[:], Common: map[string][]float64{}, Degrees: t.degrees, Flights: names, Power: "idle"}
	for i, cg := range slopes.CG {
		row := make([]float64, len(slopes.CG))
		row[i] = t.slopeSD * t.slopeSD / float64(times)
		slopes.Covariance = append(slopes.Covariance, row)
		for source, share := range t.relative {
			slopes.Common[source] = append(slopes.Common[source], share*rate*(cg-neutral))
		}
		if t.cg != 0 {
			slopes.Common["cg"] = append(slopes.Common["cg"], t.cg*rate)
		}
	}
	out := decide.Candidate{Kind: "flights", Flights: len(names) * times, TrimSlopes: []decide.TrimSlopes{slopes},
		Why: "glides and level runs over the speed range, doublets and sideslips, as the flights so far"}
	for _, d := range t.direct {
		scale := t.study.predictedNumber(c.Levels, d.Quantity) / t.study.predictedNumber(d.Levels, d.Quantity)
		switch {
		case d.Quantity == evidence.MaxLift || math.IsNaN(scale):
			continue // stalls are no part of these flights
		case math.Abs(scale) < 0.2 || math.Abs(scale) > 5 || d.Quantity == evidence.DihedralEffect || d.Quantity == evidence.YawDueToRoll:
			scale = 1 // the ratio of numbers near zero says nothing of their errors
		}
		common := map[string]float64{}
		for source, effect := range d.Common {
			common[source] = effect * scale
		}
		d.Levels, d.Common, d.Flights = c.Levels, common, names
		d.SDOwn *= math.Abs(scale) / math.Sqrt(float64(len(names)*times))
		out.Direct = append(out.Direct, d)
	}
	return out
}

// predictedRate is the lattice's elevator trim rate of a configuration.
func (s *Study) predictedRate(levels map[string]string) float64 {
	return s.predictedNumber(levels, evidence.ElevatorTrimRate)
}

// predictedNumber is what the lattice says of a configuration; NaN when it does not.
func (s *Study) predictedNumber(levels map[string]string, quantity string) float64 {
	for _, c := range s.Configurations {
		if evidence.Name(c.Levels) == evidence.Name(levels) {
			p := c.prediction()
			s.believeMotions(c, &p)
			if v, ok := p.Values[quantity]; ok {
				return v
			}
		}
	}
	return math.NaN()
}

// measurements are what lessens the errors that flights do not.
func (s *Study) measurements(p decide.Problem) []decide.Candidate {
	var out []decide.Candidate
	a := p.Aircraft
	if a.EmptyMass.Value > 0 && (a.EmptyMass.Status != "weighed" || a.EmptyX.SD > scalesX) {
		out = append(out, decide.Candidate{Kind: "scales", Say: "put the full-size aircraft, as far as it is built, on scales and list what is missing",
			Why: "empty weight and its centre of gravity are estimated", Scales: &decide.Scales{Mass: scalesMass * a.EmptyMass.Value, X: scalesX, Z: scalesZ}})
	}
	for _, b := range p.Built {
		if b.SD > proofLoad {
			out = append(out, decide.Candidate{Kind: "proof load", Say: "load the " + strings.ReplaceAll(b.Part, "-", " ") + " for proof",
				Why: "what it carries is known to " + fmt.Sprintf("%.0f %%", 100*b.SD) + " only; loading a spar to its limit can break it violently", Proof: map[string]float64{b.Part: proofLoad}})
		}
	}
	out = append(out,
		decide.Candidate{Kind: "sections", Say: "get section data at full-size speed", Why: "the step in Reynolds number, which no model flight lessens",
			Step: map[string]float64{"reynolds": sectionsLeft}, Doubts: sectionsLeft,
			Of: []string{evidence.MaxLift, evidence.StallOrderMargin, evidence.ZeroLiftDrag, evidence.LiftCurveSlope, evidence.TrimmedLiftSlope, evidence.NeutralPoint}},
		decide.Candidate{Kind: "power", Say: "measure the propeller's pull on trim, idle against full power", Why: "the step from idle to power, which glides do not show",
			Step: map[string]float64{"power": powerLeft}, Of: []string{evidence.NeutralPoint, evidence.ElevatorTrimRate, evidence.ZeroLiftElevator, evidence.TrimmedLiftSlope}})
	return append(out, calibrations(p)...)
}

// calibrations are of the sources that the flights share.
func calibrations(p decide.Problem) []decide.Candidate {
	shared := map[string]bool{}
	for _, t := range p.TrimSlopes {
		for source := range t.Common {
			shared[source] = true
		}
	}
	for _, d := range p.Direct {
		for source := range d.Common {
			shared[source] = true
		}
	}
	var out []decide.Candidate
	for _, c := range []struct {
		say, why string
		sources  []string
	}{
		{"weigh the model's centre of gravity again, more closely", "every flight shares the error of the weighing", []string{"cg", "mass"}},
		{"calibrate the airspeed tube", "every flight shares its scale", []string{"airspeed_scale"}},
		{"measure the control surfaces with a protractor, over their whole travel", "every flight shares their scale", []string{"elevator_scale", "aileron_scale", "rudder_scale"}},
		{"swing the model for its inertias again", "every derivative shares their error", []string{"inertia_x", "inertia_y", "inertia_z"}},
		{"film the servos on the bench", "every derivative shares the error of their lag", []string{"surface_lag_elevator", "surface_lag_aileron", "surface_lag_rudder_left", "surface_lag_rudder_right"}},
	} {
		left := map[string]float64{}
		for _, source := range c.sources {
			if shared[source] {
				left[source] = calibrationLeft
			}
		}
		if len(left) > 0 {
			out = append(out, decide.Candidate{Kind: "calibration", Say: c.say, Why: c.why, Calibrated: left})
		}
	}
	return out
}
