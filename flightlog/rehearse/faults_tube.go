package rehearse

import (
	"fmt"
	"math"

	"wingproof/aero/atmosphere"
)

// quietTube is the scatter of the airspeed while no air moves in the tube, m/s. Invented: that of the pressure cell alone.
const quietTube = 0.05

// blockTube blocks the airspeed tube between the second tenth and the middle of the flight; it stays blocked.
func (s *spoiler) blockTube(kind FaultKind) {
	start := s.between(s.from+0.1*(s.to-s.from), s.from+0.5*(s.to-s.from))
	lag := s.between(2, 8)
	first, _ := s.rows(start, start)
	column, pressure := s.column(atAirspeed), s.log.Columns[atPressure]
	held, heldPressure := lastBefore(column, first), lastBefore(pressure, first)
	static := heldPressure
	for i := first; i < len(column); i++ {
		if !math.IsNaN(pressure[i]) {
			static = pressure[i]
		}
		if math.IsNaN(column[i]) {
			continue
		}
		speed := held
		switch kind {
		case DrainingTube:
			speed = held * math.Exp(-(s.log.Time[i]-start)/lag)
		case SealedTube:
			speed = sealed(held, heldPressure-static)
		}
		column[i] = math.Max(0, speed+quietTube*s.rng.NormFloat64())
	}
	text := map[FaultKind]string{
		StuckTube:    "the airspeed stays at %.1f m/s",
		DrainingTube: "the airspeed sinks from %.1f m/s to nothing",
		SealedTube:   "the airspeed of %.1f m/s follows static pressure",
	}[kind]
	s.says(start, s.log.Time[len(s.log.Time)-1], fmt.Sprintf(text, held), atAirspeed)
}

// sealed is what a tube shows that has shut in the total pressure of a calibrated airspeed [m/s], after static pressure
// fell by so much [Pa]: V = √(V₀² + 2·Δp/ρ₀), zero when total pressure is below static.
func sealed(speed, fell float64) float64 {
	return math.Sqrt(math.Max(0, speed*speed+2*fell/atmosphere.SeaLevelDensity))
}

// lastBefore is the last filled cell before a row.
func lastBefore(column []float64, row int) float64 {
	for i := row - 1; i >= 0; i-- {
		if !math.IsNaN(column[i]) {
			return column[i]
		}
	}
	return math.NaN()
}
