package study

import (
	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog/estimate"
	"wingproof/flightlog/identify"
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
	MaxLifts         []estimate.Result // one for each CG at which decelerations were flown, foremost first
	StallAlphas      []estimate.Result
	ElevatorPower    estimate.Result // by trims over CGs, about the neutral point
	ManoeuvrePoint   estimate.Result
	ElevatorPerG     []estimate.Result
	Sideslip         estimate.SideslipResult
	Manoeuvres       []estimate.Result // derivatives by input manoeuvres
	Dynamics         []identify.Fit    // of each flight, axis and state of power
	Stabilised       []string          // flights in which an active stabiliser moved a surface, and what follows
	Agreements       []estimate.Agreement
	Modes            []estimate.Result // of the model as flown
	FullSizeModes    []estimate.Result // of the aircraft that is being built
	Systematics      estimate.Systematics
	Scatter          *estimate.Scatter
}

// fit estimates everything for every configuration that has a flight that counts. The scatter between
// flights is pooled over all of them.
func (s *Study) fit() {
	flown, pooled := s.fitFlown()
	together(len(flown), func(i int) {
		f, d := &s.Fits[i], flown[i]
		covariance := estimate.DerivativeCovariance(d.dynamics, nil, f.Manoeuvres, pooled.derivatives)
		f.Modes, f.FullSizeModes = s.modes(d.configuration, polarOf(*f), s.flightsOf(d.configuration.Levels), f.Manoeuvres, covariance)
	})
}

// fitFlown estimates everything but the motions, which nothing is judged by.
func (s *Study) fitFlown() ([]flownData, pooledScatter) {
	var flown []flownData
	for _, c := range s.Configurations {
		if flights := s.flightsOf(c.Levels); len(flights) > 0 {
			flown = append(flown, dataOf(c, flights, s.Program.Model.LengthRatio))
		}
	}
	pooled := pool(flown)
	pooled.systematics = systematics(s.Program)
	pooled.systematics.AirspeedScale = s.airspeedSD()
	s.Fits = make([]Fit, len(flown))
	together(len(flown), func(i int) {
		s.Fits[i] = fitOne(flown[i], pooled, s.Program.Model.LengthRatio)
		s.Fits[i].Stabilised = stabilisedIn(s.flightsOf(flown[i].configuration.Levels))
	})
	s.poolDutchRolls(flown, s.Fits, &pooled)
	together(len(flown), func(i int) { s.Fits[i].Agreements = s.agreements(flown[i], s.Fits[i], pooled) })
	return flown, pooled
}

// flownData is all that the flights of one configuration hold.
type flownData struct {
	configuration Configuration
	points        []estimate.Point
	stalls        []estimate.Stall
	loads         []estimate.Load
	slips         []estimate.Slip
	dynamics      []identify.Fit
}

func dataOf(c Configuration, flights []Flight, ratio float64) flownData {
	model := c.Airframe.Reference.Scaled(ratio)
	return flownData{c, pointsOf(flights), stallsOf(flights), loadsOf(flights, model), slipsOf(flights, model), fitsOf(flights)}
}

// pooledScatter is what all configurations of a program share.
type pooledScatter struct {
	systematics estimate.Systematics
	steady      *estimate.Scatter
	derivatives *estimate.DerivativeScatter
	swings      map[string]swinging // by configuration
	dutchRolls  *estimate.DerivativeScatter
}

func pool(flown []flownData) pooledScatter {
	var points [][]estimate.Point
	var stalls [][]estimate.Stall
	var loads [][]estimate.Load
	var slips [][]estimate.Slip
	var dynamics [][]identify.Fit
	for _, d := range flown {
		points, stalls, loads = append(points, d.points), append(stalls, d.stalls), append(loads, d.loads)
		slips, dynamics = append(slips, d.slips), append(dynamics, d.dynamics)
	}
	steady := estimate.PoolScatter(points).PoolStalls(stalls).PoolLoads(loads, points).PoolSlips(slips)
	return pooledScatter{steady: steady, derivatives: estimate.PoolDerivatives(dynamics)}
}

func fitOne(d flownData, pooled pooledScatter, ratio float64) Fit {
	c, points, shared, scatter := d.configuration, d.points, pooled.systematics, pooled.steady
	f := Fit{Configuration: c.Name, Levels: c.Levels, MeanChord: c.Airframe.Reference.MeanChord, Points: points, Dynamics: d.dynamics, Systematics: shared, Scatter: scatter}
	f.CG = meanCG(points, c.Derivatives.MomentPoint)
	f.NeutralPoint, f.TrimSlopes = estimate.NeutralPoint(points, shared, scatter)
	f.TrimmedLiftSlope, f.ZeroLiftAlpha = estimate.TrimmedLiftCurve(points, f.CG, shared, scatter)
	f.LiftSlope = estimate.LiftCurveSlope(points, shared, scatter)
	f.ZeroLiftDrag, f.DragDueToLift, f.LiftAtMinDrag = estimate.DragPolar(points, shared, scatter)
	f.SpanEfficiency = estimate.SpanEfficiency(f.DragDueToLift, c.Airframe.Reference.AspectRatio())
	f.MaxLifts, f.StallAlphas = estimate.MaximumLifts(d.stalls, shared, scatter)
	f.ElevatorPower = estimate.ElevatorPower(points, f.MeanChord, shared, scatter)
	f.ManoeuvrePoint, f.ElevatorPerG = estimate.ManoeuvrePoint(d.loads, points, shared, scatter)
	f.Sideslip = estimate.SideslipSlopes(d.slips, shared, scatter)
	f.Manoeuvres = estimate.Derivatives(d.dynamics, nil, ratio, pooled.derivatives)
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
		ElevatorScale: e.ElevatorScale, AileronScale: e.AileronScale, RudderScale: e.RudderScale, GlideVertical: e.VerticalAir, TubeDensity: e.Density,
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

// directEvidence is the rest of what the fits say about quantities that the lattice predicts: lift slope by trims, directional stiffness by all roads
// unless a stabiliser worked.
func (s *Study) directEvidence() []decide.Direct {
	var out []decide.Direct
	for _, f := range s.Fits {
		if d, ok := direct(f, f.LiftSlope); ok {
			out = append(out, d)
		}
	}
	for _, f := range s.Fits {
		if d, ok := direct(f, f.resting(f.pooled(evidence.DirectionalStiffness))); ok {
			out = append(out, d)
		}
	}
	return out
}
