package response

import (
	"fmt"
	"math"

	"wingproof/flightlog/statistic"
)

// Input is what was recorded around an aileron input, from some tenths of a second before the first movement to some two seconds after it.
type Input struct {
	Step     float64   // s between samples
	RollRate []float64 // rad/s
	Aileron  []float64 // rad, where the surface was, behind its servo
	Airspeed []float64 // true, m/s, or nil
}

// Roll time constants that are looked for, s: a foam model of a kilogram and a full-size aircraft lie well inside.
const (
	quickestRoll = 0.01
	slowestRoll  = 3.0
)

// lateSurface is by how much the surface is taken to be late to find the effect of an unknown lag, s.
const lateSurface = 0.005

// FindRoll reads the roll off an aileron input: the rate at which the roll rate settles after the ailerons have moved. The Dutch roll of the
// same speed comes from elsewhere, a rudder doublet or the derivatives, since the ailerons move it too.
//
// The roll rate is the response of three motions to the surface: each filters it with its own root, and with the Dutch roll known
// only the root of the roll enters other than linearly. The spiral is so slow that it only adds up the surface:
//
//	p = a·∫e^(λ(t−s))δ(s)ds + (b, c: the same with the Dutch roll) + d·∫δ ds + e·e^(λt) + (f, g: the Dutch roll from before) + h.
//
// An unknown lag of the servo looks like a slower roll: LagEffect says by how much.
func FindRoll(in Input, dutchRoll Mode) Decay {
	out := Decay{Kind: Roll, Airspeed: meanOf(in.Airspeed), Seconds: float64(len(in.RollRate)) * in.Step}
	if why := in.unusable(dutchRoll); why != "" {
		return out.not(why)
	}
	swing := polesOf(dutchRoll.Frequency, dutchRoll.Damping)
	f, err := in.settle(swing)
	if err != nil {
		return out.not("the roll rate does not settle behind the ailerons as one motion")
	}
	out.Root, out.RootSD, out.LagEffect = f.root, f.sd, f.lag
	switch {
	case !statistic.Finite(out.Root, out.RootSD):
		return out.not("the fit gave no finite number")
	case out.RootSD > worstRoll*math.Abs(out.Root):
		return out.not(fmt.Sprintf("its rate of %.1f per second is uncertain by %.1f", -out.Root, out.RootSD))
	case out.Root < -0.8/quickestRoll || out.Root > -1.2/slowestRoll:
		return out.not(fmt.Sprintf("the rate of %.2g per second is not that of a roll", -out.Root))
	}
	out.Determined = true
	return out
}

// worstRoll is the relative standard deviation beyond which a root is not called one. Common practice, no source.
const worstRoll = 0.3

func (d Decay) not(why string) Decay {
	d.Determined = false
	d.Why = "roll not determined, because " + why + "; fly an aileron doublet in calm air, with the servo's lag measured on the bench"
	return d
}

// leastAileron is the movement below which nothing is read, rad. Common practice, no source.
const leastAileron = 1 * math.Pi / 180

func (in Input) unusable(dutchRoll Mode) string {
	low, high := extremes(in.Aileron)
	switch {
	case !(in.Step > 0) || len(in.RollRate) != len(in.Aileron) || float64(len(in.RollRate))*in.Step < 0.5:
		return "there is no second of recording around the input"
	case !statistic.Finite(in.RollRate...) || !statistic.Finite(in.Aileron...):
		return "the roll rate or the aileron has gaps"
	case high-low < leastAileron:
		return "the ailerons did not move"
	case !(dutchRoll.Frequency > 0):
		return "the Dutch roll, which the ailerons move too, is not known"
	}
	return ""
}
