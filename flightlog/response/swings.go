package response

// FindDutchRoll reads the Dutch roll off a stretch after a rudder or aileron input. The first signal is the yaw rate, from which frequency and
// damping come; of others, such as right force and roll rate, only the amplitudes are given.
//
// Those others would add little and cost the honesty of the interval: what a gust does to them depends on amplitudes that a noisy
// stretch does not tell well, and the roll rate has the roll in it too. For the yaw rate nothing but the strength of the gusts is unknown.
//
// One swing above the noise is enough. Asking for more picks the stretches whose damping comes out low: with 1.5 swings the damping of
// those that passed in gusts of 0.5 m/s was too low by 0.016, with one swing by 0.003, at the same coverage.
func FindDutchRoll(s Stretch) Mode {
	return fit(s, kind{
		name: DutchRoll, words: "Dutch roll", trend: 2, seconds: 2, cycles: 1, mostChange: 0.25,
		band:   band{slowest: 1, fastest: 15, leastDamping: -0.2, mostDamping: 0.95, guess: 0.15},
		advice: "fly a rudder doublet in calm air and keep the hands off for 6 s",
	})
}

// FindShortPeriod reads the short period off a stretch after an elevator input: the first signal is the pitch rate. It is damped so
// heavily on most aircraft that it leaves less than a swing, and then it is not determined.
func FindShortPeriod(s Stretch) Mode {
	return fit(s, kind{
		name: ShortPeriod, words: "short period", trend: 2, seconds: 1, cycles: 1, mostChange: 0.25,
		band:   band{slowest: 1.5, fastest: 25, leastDamping: -0.1, mostDamping: 2, guess: 0.5},
		advice: "it is damped too heavily to be read off by itself, or was not excited; rely on the derivatives, which the same doublets give",
	})
}

// FindPhugoid reads the phugoid off twenty seconds and more with the elevator held: the first signal is the pitch rate or the pitch angle.
func FindPhugoid(s Stretch) Mode {
	return fit(s, kind{
		name: Phugoid, words: "phugoid", trend: 2, seconds: 20, cycles: 1.5, mostChange: 0.6,
		band:   band{slowest: 0.15, fastest: 2, leastDamping: -0.4, mostDamping: 0.95, guess: 0.05},
		advice: "disturb the speed by a tenth, then hold the elevator for at least 25 s in calm air",
	})
}
