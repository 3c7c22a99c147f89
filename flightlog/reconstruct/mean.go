package reconstruct

import "math"

// Mean is the mean of the flow angles over a window, with standard deviations of the means.
type Mean struct {
	Alpha, AlphaSD, AlphaCommonSD float64 // rad; Common is the part that a flight shares for minutes and that cancels in changes
	Beta, BetaSD, BetaCommonSD    float64
	Airspeed, AirspeedSD          float64 // m/s
	Samples                       int
}

// Mean averages over start to end [s]. The error of a smoother is correlated in time. What does not come from gusts stays the same over
// a window and enters whole; what comes from gusts forgets itself over T = gust length/airspeed, so that its variance in a mean over
// a window of length L is that at one instant times
//
//	2·(T/L)·[1 − (T/L)·(1 − e^(−L/T))]
//
// the variance of a time average of a first-order process (Bendat & Piersol, Random Data, ch. 8, from memory).
func (p *Path) Mean(start, end float64) Mean {
	var m Mean
	var alpha, alphaCommon, beta, betaCommon, speed float64 // sums of variances
	for i, t := range p.Time {
		if t < start || t > end || math.IsNaN(p.Alpha[i]) {
			continue
		}
		m.Samples++
		m.Alpha += p.Alpha[i]
		m.Beta += p.Beta[i]
		m.Airspeed += p.Airspeed[i]
		alpha += p.AlphaSD[i] * p.AlphaSD[i]
		beta += p.BetaSD[i] * p.BetaSD[i]
		alphaCommon += p.AlphaCommonSD[i] * p.AlphaCommonSD[i]
		betaCommon += p.BetaCommonSD[i] * p.BetaCommonSD[i]
		speed += p.AirspeedSD[i] * p.AirspeedSD[i]
	}
	n := float64(m.Samples)
	if n == 0 {
		nan := math.NaN()
		return Mean{nan, nan, nan, nan, nan, nan, nan, nan, 0}
	}
	m.Alpha, m.Beta, m.Airspeed = m.Alpha/n, m.Beta/n, m.Airspeed/n
	share := averaged(p.GustLength/m.Airspeed, end-start)
	m.AlphaCommonSD, m.BetaCommonSD = math.Sqrt(alphaCommon/n), math.Sqrt(betaCommon/n)
	m.AlphaSD = math.Sqrt((alphaCommon + share*math.Max(0, alpha-alphaCommon)) / n)
	m.BetaSD = math.Sqrt((betaCommon + share*math.Max(0, beta-betaCommon)) / n)
	m.AirspeedSD = math.Sqrt(speed / n)
	return m
}

// averaged is the variance of the mean over a length of a first-order process with a memory, both in s, over that of one instant.
func averaged(memory, length float64) float64 {
	if !(length > 0) || !(memory > 0) {
		return 1
	}
	r := memory / length
	return math.Min(1, 2*r*(1+r*math.Expm1(-1/r)))
}
