package plan

import (
	"errors"
	"fmt"
	"math"

	"wingproof/cmd/wingproof/internal/decide"
)

// Build makes the sheets: configurations in the order given, each from forward CG to aft. When Flights runs out, what is left
// out is what lies aft and what comes later. A CG at which never exceed leaves no room has no sheet.
//
// Errors: a Problem without a chord, an area, a length ratio, a configuration or a mass; *RoomError when no sheet is left for it.
func Build(p Problem) (Plan, error) {
	if err := p.check(); err != nil {
		return Plan{}, err
	}
	out := Plan{Program: p.Program, Cautions: cautions(), Assumptions: append([]string{}, p.Assumptions...), Airspeed: p.airspeedWords(), LeftOut: []string{}, Sheets: []Sheet{}}
	var tight error
	for _, c := range p.Configurations {
		if err := out.plan(p, c); err != nil {
			tight = err
		}
	}
	if len(out.Sheets) == 0 && tight != nil {
		return Plan{}, tight
	}
	for i := range out.Sheets {
		out.Sheets[i].Of = len(out.Sheets)
	}
	return out, nil
}

// plan adds the sheets of one configuration, and returns the last reason for which a CG has none.
func (out *Plan) plan(p Problem, c Configuration) (tight error) {
	stations, cut := p.stations(c)
	if cut {
		out.LeftOut = append(out.LeftOut, p.cutWords(c))
	}
	var planned []float64
	for i, x := range stations {
		if len(out.Sheets) == p.Flights {
			out.LeftOut = append(out.LeftOut, fmt.Sprintf("%s: no flight left for %s", c.called(), plural(len(stations)-i, "CG")))
			return tight
		}
		s, err := p.sheet(c, x, planned)
		if err != nil {
			out.LeftOut, tight = append(out.LeftOut, err.Error()), err
			continue
		}
		s.Number, s.Flight = len(out.Sheets)+1, p.Names[len(out.Sheets)]
		out.Sheets, planned = append(out.Sheets, s), append(planned, x)
	}
	return tight
}

func (p Problem) check() error {
	switch {
	case !(p.Chord > 0 && p.Area > 0 && p.Span > 0 && p.LengthRatio > 0):
		return errors.New("plan: chord, area, span and length ratio must be positive")
	case len(p.Configurations) == 0:
		return errors.New("plan: no configuration to plan for")
	case len(p.Names) < p.Flights:
		return errors.New("plan: fewer names than flights")
	case len(p.Weighings) == 0 && !(p.Mass.Value > 0):
		return errors.New("plan: the mass of the model is not known")
	}
	for _, c := range p.Configurations {
		if len(c.MaxLift) == 0 || !(c.NeutralPointSD >= 0) || math.IsNaN(c.NeutralPoint) {
			return fmt.Errorf("plan: %s lacks its maximum lift or its neutral point", c.called())
		}
		for i, l := range c.MaxLift {
			if !(l.Value > 0) || !(l.SD >= 0) || i > 0 && !(l.CG > c.MaxLift[i-1].CG) {
				return fmt.Errorf("plan: the maximum lift of %s must be positive, by rising CG", c.called())
			}
		}
	}
	return nil
}

// sheet is one flight of a configuration at a CG; before are the CGs planned ahead of it.
func (p Problem) sheet(c Configuration, x float64, before []float64) (Sheet, error) {
	mass, ballast := p.massAt(x)
	lift := c.maxLift(x)
	v, err := p.speedsOf(lift, mass)
	if err != nil {
		return Sheet{}, fmt.Errorf("%s, CG %s: %w", c.called(), modelWords(x*p.LengthRatio, p.grid()), err)
	}
	s := Sheet{
		Configuration: c.Name, Levels: c.Levels, CG: p.place(x), Mass: mass.Value, MassSource: mass.Source, Ballast: ballast, Steps: []Place{},
		NeutralPoint: p.place(c.NeutralPoint), NeutralPointSD: c.NeutralPointSD, NeutralPointWords: c.Source,
		AftLimit: p.place(p.settable(p.limit(c))), LimitRule: c.ruleWords(),
		Margin: 100 * (c.NeutralPoint - x) / p.Chord, LeastMargin: 100 * p.leastMargin(c, x),
		Stalling: v.stalling, StallingSD: v.sd, MaxLift: lift.Value, MaxLiftSD: lift.SD, MaxLiftSource: lift.Source,
	}
	if from, stops := p.way(append(append([]float64{}, c.Flown...), before...), x); len(stops) > 0 {
		start := p.place(from)
		s.From = &start
		for _, stop := range stops {
			s.Steps = append(s.Steps, p.place(stop))
		}
	}
	d := dealer{problem: p, configuration: c, cg: x, speeds: v, sheet: &s}
	d.deal()
	return s, nil
}

// leastMargin is the share of the chord between a CG and the neutral point, two standard deviations off.
func (p Problem) leastMargin(c Configuration, x float64) float64 {
	return (c.NeutralPoint - decide.Sureness*c.NeutralPointSD - x) / p.Chord
}

// massAt is the model at a CG: the weighing whose CG lies nearest, and how the ballast is to be moved from there.
func (p Problem) massAt(x float64) (Mass, string) {
	best, apart := -1, math.Inf(1)
	for i, w := range p.Weighings {
		if d := math.Abs(w.CG - x); d <= apart { // the newer of two
			best, apart = i, d
		}
	}
	const target = "weigh the model with the CG at this station before it flies"
	if best < 0 {
		return p.Mass, "no weighing: " + target + ", and write the row into weighings.csv"
	}
	w := p.Weighings[best]
	m := Mass{w.Mass, w.SD, "weighing " + w.Name}
	if p.Mass.Value > 0 { // stated on the command line
		m = p.Mass
	}
	move := (x - w.CG) * p.LengthRatio
	if math.Abs(move) < p.grid() {
		return m, fmt.Sprintf("ballast as in weighing %s", w.Name)
	}
	way := "aft"
	if move < 0 {
		way = "forward"
	}
	return m, fmt.Sprintf("from weighing %s (CG %s) the CG goes %.0f mm %s: ballast times distance moved %s is %.3f kg·m; %s",
		w.Name, modelWords(w.CG*p.LengthRatio, p.grid()), 1000*math.Abs(move), way, way, m.Value*math.Abs(move), target)
}
