package estimate

import (
	"math/rand/v2"

	"wingproof/flightlog/identify"
)

// navion is a tail-aft aircraft with published derivatives: Seckel and Morris, FAA-RD-71-6, 1971, as transcribed in a public data file that
// cites it (10,000 ft, 135 kt), made dimensional with a mean chord of 1 m; the drag parabola from its CDmin 0.04 at CL 0.3 and e 0.77. Aileron
// positive rolls right here, so Cl_δa and Cn_δa change sign. κ from its mass and chord; maximum lift and what lies beyond is invented.
func navion() aircraft {
	a := canard()
	a.lift0, a.liftAlpha, a.liftElevator, a.liftRate = 0.25, 6.04, 0.355, 3.8
	a.moment0, a.momentAlpha, a.momentElevator, a.momentRate = 0.05, -0.715, -1.42, -13.39
	a.dragMin, a.k, a.liftMin = 0.04, 0.0683, 0.3
	a.sideBeta, a.sideRudder, a.sideAileron = -0.61, 0.157, 0
	a.rollBeta, a.rollRudder, a.rollAileron = -0.067, 0.107, 0.152
	a.yawBeta, a.yawRudder, a.yawAileron = 0.086, -0.075, -0.0047
	a.kappa, a.maxLift, a.maxLiftPerCG = 0.0063, 1.4, 0.3
	return a
}

// cessna182 likewise: J. Roskam, Airplane Design, appendix B, as stored in a public file that cites it; span efficiency 0.8 from memory,
// control powers about roll and yaw of the other published set, since none were seen.
func cessna182() aircraft {
	a := navion()
	a.lift0, a.liftAlpha, a.liftElevator, a.liftRate = 0.307, 4.41, 0.43, 3.9
	a.moment0, a.momentAlpha, a.momentElevator, a.momentRate = 0.04, -0.65, -1.369, -15.2
	a.dragMin, a.k, a.liftMin = 0.027, 0.0531, 0
	a.sideBeta, a.rollBeta, a.yawBeta = -0.404, -0.0895, 0.0907
	a.kappa = 0.0062
	return a
}

// another draws an aircraft about a: 3 % of the lift slope, 10 % of what else can be told, 0.03 of CL where drag is least.
func (a aircraft) another(random *rand.Rand) aircraft {
	about := func(x *float64, relative float64) { *x *= 1 + relative*random.NormFloat64() }
	about(&a.liftAlpha, 0.03)
	for _, x := range []*float64{&a.liftElevator, &a.momentAlpha, &a.momentElevator, &a.liftRate, &a.momentRate, &a.dragMin, &a.k,
		&a.sideBeta, &a.sideRudder, &a.rollBeta, &a.rollRudder, &a.rollAileron, &a.yawBeta, &a.yawRudder, &a.yawAileron} {
		about(x, 0.1)
	}
	about(&a.maxLift, 0.05)
	a.liftMin += 0.03 * random.NormFloat64()
	a.moment0 += 0.01 * random.NormFloat64()
	return a
}

// drawLoan lends control powers as another road would report them: 4 % of random error, and the gain of the surfaces, which a fit to input
// manoeuvres takes with the other sign.
func (a aircraft) drawLoan(s Systematics, e sharedErrors, random *rand.Rand) Loan {
	lent := func(quantity string, truth float64, source string, gain, sd float64) Lent {
		spread := 0.04 * truth
		value := (truth + spread*random.NormFloat64()) / (1 + gain)
		return Lent{Quantity: quantity, Value: value, SD: abs(spread), Common: map[string]float64{source: -value * sd}}
	}
	return Loan{Derivatives: []Lent{
		lent(identify.RudderPower, a.yawRudder, SourceRudderScale, e.rudderScale, s.RudderScale),
		lent(identify.YawByAileron, a.yawAileron, SourceAileronScale, e.aileronScale, s.AileronScale),
		lent(identify.AileronPower, a.rollAileron, SourceAileronScale, e.aileronScale, s.AileronScale),
		lent(identify.RollByRudder, a.rollRudder, SourceRudderScale, e.rudderScale, s.RudderScale),
	}}
}
