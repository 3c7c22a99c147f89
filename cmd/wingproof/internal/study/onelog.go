package study

import (
	"maps"

	"wingproof/aero"
	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog"
	"wingproof/flightlog/quality"
	"wingproof/flightlog/reduce"
)

// ReduceLog reduces a recording as a flight of a program, wherever the log lies, exactly as Run does with the log that
// flights.csv names. why says why the flight cannot count; empty when it does. The error is one of the program's geometry.
func ReduceLog(p *program.Program, f program.Flight, recording *flightlog.Recording) (reduction reduce.Reduction, why string, err error) {
	baseline, _, err := p.Airframe(p.Configurations()[0])
	if err != nil {
		return reduce.Reduction{}, "", err
	}
	out := reductionInputsOf(p, baseline.Reference, f, flightlog.Map{}).reduced(recording)
	return out.Reduction, out.Why, nil
}

// statedAircraft is what the folder says about the model of a flight, for comparing a recording with it.
func statedAircraft(p *program.Program, f program.Flight) (quality.Aircraft, error) {
	levels := maps.Clone(p.Configurations()[0])
	maps.Copy(levels, f.Levels)
	airframe, _, err := p.Airframe(levels)
	if err != nil {
		return quality.Aircraft{}, err
	}
	r, scale := airframe.Reference, p.Model.LengthRatio
	a := quality.Aircraft{Mass: f.Mass, WingArea: r.Area * scale * scale}
	if r.Area > 0 {
		a.AspectRatio = r.Span * r.Span / r.Area
	}
	for _, s := range airframe.Surfaces {
		for _, h := range s.Hinges {
			a.ForeplaneElevator = a.ForeplaneElevator || s.Role == aero.RoleForeplane && h.Control == stability.Elevator
		}
	}
	return a, nil
}
