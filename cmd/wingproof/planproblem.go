package main

import (
	"fmt"
	"math"
	"slices"

	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/plan"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
)

// problem gathers what the sheets rest on, and says every assumption.
func (o planOptions) problem(st *study.Study, limits planLimits) (plan.Problem, error) {
	chosen, err := o.chosen(st)
	if err != nil {
		return plan.Problem{}, err
	}
	p, ref := st.Program, st.Configurations[0].Airframe.Reference
	out := plan.Problem{
		Program: p.Name, LengthRatio: p.Model.LengthRatio, Area: ref.Area, Span: ref.Span, Chord: ref.MeanChord, ChordLeadingEdge: ref.MeanChordLeadingEdge,
		Heights: limits.heights, NeverExceed: limits.neverExceed, Flights: o.flights, Names: o.names(p),
		Airspeed: planAirspeed(st), ElevatorTravel: elevatorTravel(st),
	}
	for _, c := range chosen {
		out.Configurations = append(out.Configurations, planConfiguration(st, c))
	}
	if forward, aft, ok := prediction.LoadedRange(p); ok {
		out.Range = &plan.Range{Forward: forward, Aft: aft}
	}
	for _, x := range o.cgs {
		out.CGs = append(out.CGs, x/1000/p.Model.LengthRatio)
	}
	if err := o.refuseAft(out); err != nil {
		return plan.Problem{}, err
	}
	for _, w := range newestLast(p.Weighings) {
		out.Weighings = append(out.Weighings, plan.Weighing{Name: w.Name, Mass: w.Mass, SD: w.MassSD, CG: w.CGX})
	}
	out.Mass = o.modelMass(st)
	out.DesignDive = designDive(p)
	out.Assumptions = o.assumptions(st, out)
	return out, nil
}

// refuseAft refuses a CG on the command line that lies aft of where a chosen configuration may go.
func (o planOptions) refuseAft(p plan.Problem) error {
	var m mistakes
	for _, c := range p.Configurations {
		limit := decide.AftLimit(c.NeutralPoint, c.NeutralPointSD, p.Chord, c.Proven()) * p.LengthRatio
		for _, x := range o.cgs {
			if x/1000 > limit {
				m.add("--cg-mm: %g is aft of the limit of %s; write %.0f or less", x, c.Name, math.Floor(1000*limit))
			}
		}
	}
	return m.err()
}

func newestLast(weighings []program.Weighing) []program.Weighing {
	out := slices.Clone(weighings)
	slices.SortStableFunc(out, func(a, b program.Weighing) int {
		switch {
		case a.Date < b.Date:
			return -1
		case a.Date > b.Date:
			return 1
		}
		return 0
	})
	return out
}

// modelMass is the mass on the command line, else, without a weighing, that of the newest flight, else the target of dynamic
// similarity. Zero leaves it to the weighings.
func (o planOptions) modelMass(st *study.Study) plan.Mass {
	const unweighed = 0.03 // relative sd of a model that nobody has weighed: common practice, no source
	p := st.Program
	if o.mass > 0 {
		return plan.Mass{Value: o.mass, SD: 0.005 * o.mass, Source: "stated with --mass-kg"}
	}
	if len(p.Weighings) > 0 {
		return plan.Mass{}
	}
	for _, f := range slices.Backward(p.Flights) {
		if f.Mass > 0 {
			return plan.Mass{Value: f.Mass, SD: f.MassSD, Source: "as in flight " + f.Name}
		}
	}
	sheet, err := study.Scale(p)
	if err != nil || len(sheet.Rows) == 0 {
		return plan.Mass{}
	}
	target := sheet.Rows[0].Target
	return plan.Mass{Value: target, SD: unweighed * target, Source: "target of dynamic similarity, not weighed"}
}

// designDive is the dive speed of full size carried to the model, calibrated m/s; 0 when it is not stated.
func designDive(p *program.Program) float64 {
	sheet, err := study.Scale(p)
	if err != nil {
		return 0
	}
	return p.FullSize.DiveSpeed * sheet.Ratios.CalibratedSpeed
}

// planAirspeed is what the logger of the newest flight shows.
func planAirspeed(st *study.Study) plan.Airspeed {
	for _, f := range slices.Backward(st.Flights) {
		for _, c := range st.Airspeeds {
			if f.Used && c.Logger == f.Logger {
				return plan.Airspeed{Logger: c.Logger, Scale: c.Scale, Known: true}
			}
		}
	}
	return plan.Airspeed{}
}

// elevatorTravel is the hinge's travel; nil when the folder does not state it.
func elevatorTravel(st *study.Study) *plan.Travel {
	for _, s := range st.Program.Surfaces {
		for _, h := range s.Hinges {
			if h.Control == stability.Elevator && h.TravelMax > h.TravelMin {
				return &plan.Travel{Least: h.TravelMin, Most: h.TravelMax}
			}
		}
	}
	return nil
}

// planConfiguration is what is believed of one configuration at model scale.
func planConfiguration(st *study.Study, c study.Configuration) plan.Configuration {
	out := plan.Configuration{Name: c.Name, Levels: c.Levels, SpanEfficiency: c.SpanEfficiency, Agree: !(st.Verdict.Agreement.Inflation > 1)}
	for _, e := range st.Verdict.Anchored {
		if e.Configuration == c.Name && e.Quantity == evidence.NeutralPoint && e.Scale == evidence.ModelScale && e.Value != nil && e.SD != nil {
			out.NeutralPoint, out.NeutralPointSD, out.Flights = *e.Value, *e.SD, e.Flights
			out.Source = neutralPointWords(e, st.Verdict.Agreement.Degrees > 0)
		}
	}
	for _, f := range st.Flights {
		if f.Used && evidence.Name(f.Levels) == c.Name {
			out.Flown = append(out.Flown, f.CG)
		}
	}
	slices.Sort(out.Flown)
	out.MaxLift = planMaxLift(st, c)
	out.Stalls = planStalls(c)
	return out
}

// neutralPointWords says what the neutral point rests on; flown tells that some configuration has flights behind it.
func neutralPointWords(e evidence.Estimate, flown bool) string {
	switch n := len(e.Flights); {
	case n == 1:
		return "lattice with its stated error, anchored by one flight of this configuration"
	case n > 1:
		return fmt.Sprintf("lattice with its stated error, anchored by %d flights of this configuration", n)
	case flown:
		return "lattice with its stated error, anchored by flights of other configurations, none of this one"
	}
	return "lattice with its stated error, no flight yet"
}
