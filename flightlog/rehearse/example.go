package rehearse

import (
	"wingproof/aero"
	"wingproof/aero/stability"
)

// ExampleAircraft is an invented quarter-scale foreplane model of 15 kg with its CG ten percent of the chord ahead of the
// neutral point, for tests and examples that need something to fly. No aircraft has these numbers.
func ExampleAircraft() Aircraft {
	const lengthRatio, cgX, cgZ, maxLift = 0.25, 3.9, 0.05, 1.3
	body := stability.Body{Mass: 15, Ix: 1.2, Iy: 1.3, Iz: 2.3}
	polar := Polar{Min: 0.028, Factor: 0.05, LiftAtMin: 0.1}
	return DefaultAircraft(exampleDerivatives(), lengthRatio, cgX, cgZ, body, polar, maxLift)
}

// exampleDerivatives are at full size, per radian; invented.
func exampleDerivatives() aero.Derivatives {
	return aero.Derivatives{
		Reference:   aero.Reference{Area: 12.6, Span: 8.6, MeanChord: 1.7, MeanChordLeadingEdge: 4.0},
		MomentPoint: 3.9, MomentZ: 0.05, Alpha: 0.05,
		At:          aero.Coefficients{Lift: 0.35, Drag: 0.03, Pitch: 0.01},
		ByAlpha:     aero.Coefficients{Lift: 4.4, Drag: 0.2, Pitch: -0.44},
		ByBeta:      aero.Coefficients{Side: -0.55, Roll: -0.09, Yaw: 0.06},
		ByRollRate:  aero.Coefficients{Side: -0.05, Roll: -0.45, Yaw: -0.04},
		ByPitchRate: aero.Coefficients{Lift: 3.2, Drag: 0.1, Pitch: -9.5},
		ByYawRate:   aero.Coefficients{Side: 0.25, Roll: 0.12, Yaw: -0.13},
		ByControl: map[string]aero.Coefficients{
			"elevator": {Lift: 0.45, Drag: 0.02, Pitch: 0.95},
			"aileron":  {Roll: 0.15, Yaw: -0.01},
			"rudder":   {Side: 0.12, Roll: 0.01, Yaw: -0.05},
		},
	}
}
