package study

import (
	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog/estimate"
	"wingproof/flightlog/reduce"
)

// Fit is what the flights of one configuration say.
type Fit struct {
	Configuration    string
	Levels           map[string]string
	MeanChord        float64 // full-size m
	CG               float64 // at which the trimmed curve is stated, full-size m aft of datum
	Points           []estimate.Point
	NeutralPoint     estimate.Result
	TrimSlopes       estimate.TrimSlopes
	TrimmedLiftSlope estimate.Result
	ZeroLiftAlpha    estimate.Result
	LiftSlope        estimate.Result
	ZeroLiftDrag     estimate.Result
	DragDueToLift    estimate.Result
	LiftAtMinDrag    estimate.Result
	SpanEfficiency   estimate.Result
	Systematics      estimate.Systematics
	Scatter          *estimate.Scatter
}

// fit estimates everything for every configuration that has a flight that counts. The scatter between
// flights is pooled over all of them.
func (s *Study) fit() {
	var flown []Configuration
	var points [][]estimate.Point
	for _, c := range s.Configurations {
		flights := s.flightsOf(c.Levels)
		if len(flights) == 0 {
			continue
		}
		flown = append(flown, c)
		points = append(points, pointsOf(flights))
	}
	scatter := estimate.PoolScatter(points)
	shared := systematics(s.Program)
	shared.AirspeedScale = s.airspeedSD()
	for i, c := range flown {
		s.Fits = append(s.Fits, fitOne(c, points[i], shared, scatter))
	}
}

func fitOne(c Configuration, points []estimate.Point, shared estimate.Systematics, scatter *estimate.Scatter) Fit {
	f := Fit{Configuration: c.Name, Levels: c.Levels, MeanChord: c.Airframe.Reference.MeanChord, Points: points, Systematics: shared, Scatter: scatter}
	f.CG = meanCG(points, c.Derivatives.MomentPoint)
	f.NeutralPoint, f.TrimSlopes = estimate.NeutralPoint(points, shared, scatter)
	f.TrimmedLiftSlope, f.ZeroLiftAlpha = estimate.TrimmedLiftCurve(points, f.CG, shared, scatter)
	f.LiftSlope = estimate.LiftCurveSlope(points, shared, scatter)
	f.ZeroLiftDrag, f.DragDueToLift, f.LiftAtMinDrag = estimate.DragPolar(points, shared, scatter)
	f.SpanEfficiency = estimate.SpanEfficiency(f.DragDueToLift, c.Airframe.Reference.AspectRatio())
	return f
}

// meanCG is the middle of the CGs of the points, or other when there is none.
func meanCG(points []estimate.Point, other float64) float64 {
	if len(points) == 0 {
		return other
	}
	sum := 0.0
	for _, p := range points {
		sum += p.CG
	}
	return sum / float64(len(points))
}

// pointsOf collects the kept, steady test points of flights.
func pointsOf(flights []Flight) []estimate.Point {
	var points []estimate.Point
	for _, f := range flights {
		for _, t := range f.Reduction.Points {
			if t.Kept {
				points = append(points, pointOf(t, f.CG))
			}
		}
	}
	return points
}

func pointOf(t reduce.TestPoint, cg float64) estimate.Point {
	return estimate.Point{
		Flight: t.Flight, CG: cg, Alpha: t.Alpha, AlphaSD: t.AlphaSD, Lift: t.Lift, LiftSD: t.LiftSD,
		Elevator: t.Elevator, ElevatorSD: t.ElevatorSD, Drag: t.Drag, DragSD: t.DragSD, HasDrag: t.HasDrag,
		Power: string(t.Power), Reynolds: t.Reynolds, Airspeed: t.Airspeed,
	}
}

// systematics gathers what all flights of the program share: the instruments' errors, and the errors of
// the scales, which weigh every flight alike. Dynamic pressure takes no density, since a tube measures it.
func systematics(p *program.Program) estimate.Systematics {
	e := p.Model.Errors
	out := estimate.Systematics{
		AirspeedScale: e.AirspeedScale, Alpha: e.Alpha, Elevator: e.Elevator,
		ElevatorScale: e.ElevatorScale, GlideVertical: e.VerticalAir, TubeDensity: e.Density,
	}
	for _, f := range p.Flights {
		if !f.Use || f.Mass <= 0 {
			continue
		}
		out.Mass = max(out.Mass, f.MassSD/f.Mass)
		out.CG = max(out.CG, f.CGSD)
	}
	return out
}

// trimEvidence is what the fits hand to the judging.
func (s *Study) trimEvidence() []decide.TrimSlopes {
	var out []decide.TrimSlopes
	for _, f := range s.Fits {
		if len(f.TrimSlopes.Slope) == 0 {
			continue
		}
		t := f.TrimSlopes
		out = append(out, decide.TrimSlopes{Levels: f.Levels, CG: t.CG, Slope: t.Slope, Covariance: t.Covariance,
			Common: t.Common, Degrees: t.Degrees, Flights: t.Flights, Power: t.Power})
	}
	return out
}

// directEvidence is the rest of what the fits say about quantities that the lattice predicts.
func (s *Study) directEvidence() []decide.Direct {
	var out []decide.Direct
	for _, f := range s.Fits {
		r := f.LiftSlope
		if r.State != estimate.Determined || r.Value == nil || r.SDOwn == nil {
			continue
		}
		out = append(out, decide.Direct{Levels: f.Levels, Quantity: evidence.LiftCurveSlope, Value: *r.Value, SDOwn: *r.SDOwn,
			Common: r.Common, Degrees: r.Degrees, Flights: r.Flights})
	}
	return out
}
