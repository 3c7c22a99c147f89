package study

import (
	"math"
)

// AirspeedCalibration is what all flights with one logger say together about the scale of its airspeed, and what was done
// with it.
type AirspeedCalibration struct {
	Logger   string   `json:"logger"`
	Scale    float64  `json:"airspeed_scale"`    // indicated over true − 1, taken off whatever the flights hold
	SD       float64  `json:"airspeed_scale_sd"` // what is left, shared by all flights with the logger
	Declared float64  `json:"declared_sd"`       // what program.toml believed before any flight
	Flights  []string `json:"flights"`           // that turned far enough to tell
	Spread   float64  `json:"spread"`            // of the flights over what their own standard deviations explain; 1 is right
}

// calibrateAirspeed pools the airspeed scale over the flights of each logger and takes it off their test points.
//
// Every flight sees the same tube. Before any flight its scale s is believed to be 0 ± declared. A flight whose headings go
// round gives s_i ± σ_i by the wind triangle within the path reconstruction, σ_i being its own part; flights that scatter more than their σ_i
// explain are widened alike, by √(χ²/df). The triangle sees true airspeed and the tube feels pressure, so that what the density is off by
// enters with half its size, V going with 1/√ρ. That is taken to be the same on every flight and does not shrink: the larger of
// what the logged temperature leaves and what program.toml declares.
func (s *Study) calibrateAirspeed() {
	for _, logger := range s.Program.Loggers {
		c := s.airspeedOf(logger.Name)
		if len(c.Flights) == 0 {
			continue
		}
		s.Airspeeds = append(s.Airspeeds, c)
		for i := range s.Flights {
			if f := &s.Flights[i]; f.Logger == logger.Name {
				f.Reduction = f.Reduction.WithoutAirspeedScale(c.Scale)
			}
		}
	}
}

func (s *Study) airspeedOf(logger string) AirspeedCalibration {
	e := s.Program.Model.Errors
	c := AirspeedCalibration{Logger: logger, Declared: e.AirspeedScale, Flights: []string{}, Spread: 1}
	var values, variances []float64
	shared := e.Density / 2
	for _, f := range s.Flights {
		if a := f.Reduction.Air; f.Used && f.Logger == logger && a.ScaleKnown && a.ScaleOwnSD > 0 {
			values, variances = append(values, a.AirspeedScale), append(variances, a.ScaleOwnSD*a.ScaleOwnSD)
			shared = math.Max(shared, a.ScaleSharedSD)
			c.Flights = append(c.Flights, f.Name)
		}
	}
	if len(values) == 0 || !(e.AirspeedScale > 0) {
		c.Flights = c.Flights[:0] // a scale that is declared to be exact is left alone
		return c
	}
	mean, variance := weightedMean(values, variances)
	chi := 0.0
	for i, v := range values {
		chi += (v - mean) * (v - mean) / variances[i]
	}
	if n := len(values); n > 1 {
		c.Spread = math.Sqrt(chi / float64(n-1))
	}
	inflated := variance*math.Max(1, c.Spread*c.Spread) + shared*shared
	prior := e.AirspeedScale * e.AirspeedScale
	c.Scale = mean * prior / (prior + inflated)
	c.SD = math.Sqrt(prior * inflated / (prior + inflated))
	return c
}

// weightedMean is the mean with weights 1/variance, and its variance.
func weightedMean(values, variances []float64) (mean, variance float64) {
	weights := 0.0
	for i, v := range values {
		mean += v / variances[i]
		weights += 1 / variances[i]
	}
	return mean / weights, 1 / weights
}

// airspeedSD is what is left of the error of the airspeed scale over all loggers in use: the largest, since the points of all are
// fitted together.
func (s *Study) airspeedSD() float64 {
	sd := 0.0
	for _, f := range s.Flights {
		if !f.Used {
			continue
		}
		own := s.Program.Model.Errors.AirspeedScale
		for _, c := range s.Airspeeds {
			if c.Logger == f.Logger {
				own = c.SD
			}
		}
		sd = math.Max(sd, own)
	}
	return sd
}
