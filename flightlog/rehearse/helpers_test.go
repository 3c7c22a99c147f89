package rehearse

import (
	"math/rand/v2"

	"wingproof/aero"
	"wingproof/aero/stability"
)

// canard is an invented derivative set with the CG ten percent of the chord ahead of the neutral point.
func canard() aero.Derivatives {
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

// model is a quarter-scale aircraft of 15 kg with that set.
func model(cg float64) Aircraft {
	body := stability.Body{Mass: 15, Ix: 1.2, Iy: 1.3, Iz: 2.3}
	return DefaultAircraft(canard(), 0.25, cg, 0.05, body, Polar{Min: 0.028, Factor: 0.05, LiftAtMin: 0.1}, 1.3)
}

// perfect is a recorder without errors.
func perfect() Instruments {
	return Instruments{FastRate: 25, AirRate: 25, SatelliteRate: 5}
}

func still() Weather { return Weather{} }

func seeded(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 7)) }
