package rehearse

import (
	"math/rand/v2"

	"wingproof/aero"
)

// canard is the example's derivative set.
func canard() aero.Derivatives { return exampleDerivatives() }

// model is the example aircraft with its CG at a full-size station.
func model(cg float64) Aircraft {
	ac := ExampleAircraft()
	ac.CGX = cg
	return ac
}

// perfect is a recorder without errors.
func perfect() Instruments {
	return Instruments{FastRate: 25, AirRate: 25, SatelliteRate: 5}
}

func still() Weather { return Weather{} }

func seeded(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 7)) }
