package demo

import (
	"fmt"
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/forecast"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

const degree = math.Pi / 180

// The invented model as it is, at model size. Inertias carry the air that moves along.
const (
	modelMass = 16.05 // kg
	modelIx   = 1.32  // kg·m²
	modelIy   = 1.61
	modelIz   = 2.66
)

// shared holds what every flight of the season has in common: the instruments' errors and the scales'.
type shared struct {
	instruments rehearse.Instruments
	massScale   float64 // weighed/true − 1
	cgOffset    float64 // weighed − true, full-size m

	inertiaScale [3]float64 // weighed/true − 1 of Ix, Iy, Iz
	servos       map[string]rehearse.Servo
}

func drawShared(seed uint64, p *program.Program) shared {
	e := p.Model.Errors
	ins := rehearse.DrawInstruments(rehearse.DefaultInstruments(), rehearse.ProgrammeErrors{
		AirspeedScale: e.AirspeedScale, Boresight: e.Alpha, ElevatorZero: e.Elevator, ElevatorScale: e.ElevatorScale,
		AileronScale: e.AileronScale, RudderScale: e.RudderScale,
	}, stream(seed, "instruments"))
	return shared{
		servos:      servosOf(seed, p),
		instruments: ins,
		massScale:   draw(seed, weighingMassSD/modelMass, "scales", "mass"),
		cgOffset:    draw(seed, weighingCGSD, "scales", "cg"),
		inertiaScale: [3]float64{
			draw(seed, weighingInertiaSD, "swings", "ix"), draw(seed, weighingInertiaSD, "swings", "iy"), draw(seed, weighingInertiaSD, "swings", "iz"),
		},
	}
}

// servosOf are the servos as they really are: the bench test's, each with a lag that is off by what the test could not see.
func servosOf(seed uint64, p *program.Program) map[string]rehearse.Servo {
	return forecast.ServosOf(p, func(control string) float64 { return draw(seed, 1, "servo", control) })
}

// fly flies one sortie and returns its log.
func fly(seed uint64, s sortie, t configurationTruth, p *program.Program, sh shared) (rehearse.Log, error) {
	body := stability.Body{Mass: modelMass, Ix: modelIx, Iy: modelIy, Iz: modelIz}
	polar := rehearse.Polar{Min: t.ZeroLiftDrag - t.DragDueToLift*dragMinimumLift*dragMinimumLift, Factor: t.DragDueToLift, LiftAtMin: dragMinimumLift}
	ac := rehearse.DefaultAircraft(t.derivatives, p.Model.LengthRatio, ballast(s.ballast), p.FullSize.EmptyZ.Value, body, polar, t.foreplaneLift(ballast(s.ballast)))
	ac.Elevator = travelOf(p, stability.Elevator)
	ac.Propulsion.WindmillDrag = 0 // the invented propeller folds
	ac.Servos, ac.Continuous = sh.servos, true
	air := fieldAir(seed, s)
	air.VerticalSD = p.Model.Errors.VerticalAir
	sheet := ac
	sheet.MaxLift = t.greatestLift(ac.CGX).Lift
	log, err := rehearse.Fly(ac, cardsOf(s, sheet.StallSpeed(atmosphere.SeaLevelDensity)), air, sh.instruments, stream(seed, "flight", s.name))
	if err != nil {
		return log, fmt.Errorf("flight %s: %w", s.name, err)
	}
	if s.blocked {
		blockTube(log)
	}
	return log, nil
}

// travelOf is the travel of a control as program.toml states it.
func travelOf(p *program.Program, control string) rehearse.Travel {
	travel, _ := forecast.TravelOf(p, control)
	return travel
}

// fieldAir is the weather of a sortie; pressure and temperature are what the crew wrote down.
func fieldAir(seed uint64, s sortie) rehearse.Weather {
	rng := stream(seed, "weather", s.name)
	return rehearse.Weather{
		Pressure:    math.Round(1013+6*rng.NormFloat64()) * 100,
		Temperature: 273.15 + math.Round(9+3*rng.NormFloat64()),
		WindSpeed:   s.wind,
		WindFrom:    2 * math.Pi * rng.Float64(),
		Turbulence:  s.gusts / s.wind,
	}
}

// blockTube freezes the airspeed from the second minute on, as sand in the tube does.
func blockTube(log rehearse.Log) {
	for i, q := range rehearse.Quantities() {
		if q != flightlog.Airspeed {
			continue
		}
		held := math.NaN()
		for row, t := range log.Time {
			v := log.Columns[i][row]
			if math.IsNaN(v) {
				continue
			}
			if t < 75 || math.IsNaN(held) {
				held = v
				continue
			}
			log.Columns[i][row] = held
		}
	}
}
