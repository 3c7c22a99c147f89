package rehearse

import (
	"fmt"
	"math"
	"slices"
)

// gap takes the rows out.
func (s *spoiler) gap() {
	first, after := s.rows(s.stretch(1, 10))
	s.says(s.log.Time[first-1], s.log.Time[after], fmt.Sprintf("%d rows of every channel are missing", after-first))
	without := func(v []float64) []float64 { return slices.Concat(v[:first], v[after:]) }
	s.log.Time = without(s.log.Time)
	for i, c := range s.log.Columns {
		s.log.Columns[i] = without(c)
	}
	for _, slice := range s.log.Truth.slices() {
		if len(*slice) > 0 {
			*slice = without(*slice)
		}
	}
}

// channelGap blanks one channel.
func (s *spoiler) channelGap() {
	at := s.one(atPitchRate, atDown, atPitch, atAirspeed, atPressure, atGroundSpeed, atElevator)
	start, end := s.stretch(3, 20)
	first, after := s.rows(start, end)
	for column, i := s.column(at), first; i < after; i++ {
		column[i] = math.NaN()
	}
	s.says(start, end, fmt.Sprintf("%s is blank", Quantities()[at]), at)
}

// stallClock gives several rows one time.
func (s *spoiler) stallClock() {
	first, _ := s.rows(s.stretch(0, 0))
	after := min(first+2+s.rng.IntN(19), len(s.log.Time))
	s.log.Time = append([]float64(nil), s.log.Time...)
	s.says(s.log.Time[first], s.log.Time[after-1], fmt.Sprintf("%d rows carry one time", after-first))
	for i := first + 1; i < after; i++ {
		s.log.Time[i] = s.log.Time[first]
	}
}

// stepBack sets the clock back once. The fault ends where the clock has caught up, by the clock before.
func (s *spoiler) stepBack() {
	back := s.between(0.3, 5)
	first, _ := s.rows(s.stretch(0, 0))
	s.log.Time = append([]float64(nil), s.log.Time...)
	s.says(s.log.Time[first-1], s.log.Time[first]+back, fmt.Sprintf("the clock steps back by %.2f s", back))
	for i := first; i < len(s.log.Time); i++ {
		s.log.Time[i] -= back
	}
}
