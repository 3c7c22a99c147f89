package response

import (
	"fmt"
	"math"

	"wingproof/flightlog/statistic"
)

// cyclesAbove counts the swings until the motion sinks below what gusts keep up and below the noise of the instrument.
func (f found) cyclesAbove(gusts, seconds float64) float64 {
	if f.poles.square <= 0 {
		return 0
	}
	noise := math.Hypot(gusts, math.Sqrt(f.trial.variance)/f.size())
	if noise >= 1 {
		return 0
	}
	if f.poles.decay > 0 {
		seconds = math.Min(seconds, -math.Log(noise)/f.poles.decay)
	}
	return seconds * math.Sqrt(f.poles.square) / (2 * math.Pi)
}

// judged says whether the numbers are worth something.
func (m Mode) judged(f found, k kind) Mode {
	switch {
	case !statistic.Finite(m.Frequency, m.FrequencySD, m.Damping, m.DampingSD):
		return m.not("the fit gave no finite number", k)
	case f.poles.square <= 0:
		return m.not(fmt.Sprintf("the motion does not swing: it dies out with %.1f per second", f.poles.decay), k)
	case m.Cycles < k.cycles:
		return m.not(fmt.Sprintf("only %.1f swings stand above noise and gusts, and %.1f are needed", m.Cycles, k.cycles), k)
	case m.FrequencySD > worstFrequency*m.Frequency:
		return m.not(fmt.Sprintf("the frequency of %.1f rad/s is uncertain by %.1f", m.Frequency, m.FrequencySD), k)
	}
	m.Determined = true
	return m
}

// worstFrequency is the relative standard deviation beyond which a frequency is not called one. Common practice, no source.
const worstFrequency = 0.2

// not gives up, in words.
func (m Mode) not(why string, k kind) Mode {
	m.Determined = false
	m.Why = k.words + " not determined, because " + why + "; " + k.advice
	return m
}
