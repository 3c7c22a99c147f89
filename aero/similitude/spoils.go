package similitude

import (
	"fmt"
	"math"
)

// Departures below which a target counts as met: in percent of a mass or an inertia, a frequency then misses by less than
// one percent; in percent of the chord for the CG; as a share of the chord for its height. Common practice, no source.
const (
	negligible       = 2.0
	negligibleMargin = 0.5
	negligibleHeight = 0.02
)

// Spoils says in plain words what a departure [percent of the target; of Ixz, percent of Iz] of "mass", "Ix", "Iy", "Iz" or
// "Ixz" does to what the model shows. Derivatives without dimension stay valid in every case: motions do not.
//
// The figures are first order: speeds at one lift coefficient go with √m, the phugoid period with that
// speed, the periods of short period and Dutch roll with the root of the inertia about their axis (half the departure),
// the roll time constant with Ix itself (all of it).
func Spoils(quantity string, departure float64) string {
	if math.Abs(departure) < negligible {
		return fmt.Sprintf("nothing that matters (within %g %%)", negligible)
	}
	k := 1 + departure/100
	switch quantity {
	case "mass":
		return fmt.Sprintf("at the same lift coefficient the model flies %s and its phugoid period is as much %s; "+
			"it is %s for its air, so pull-ups and the short period look different; "+
			"fly by lift coefficient, not by speed; slopes and derivatives stay valid",
			change(math.Sqrt(k), "faster", "slower"), longer(k), heavy(k))
	case "Ix":
		return fmt.Sprintf("the roll time constant is %s than to scale, all of the departure, and aileron response looks %s; roll derivatives stay valid",
			change(k, "longer", "shorter"), lazy(k))
	case "Iy":
		return fmt.Sprintf("the short period takes %s than to scale, about half of the departure, and its damping differs; pitch derivatives and trim stay valid",
			change(math.Sqrt(k), "longer", "shorter"))
	case "Iz":
		return fmt.Sprintf("the Dutch roll takes %s than to scale, about half of the departure, and its damping differs; yaw derivatives stay valid",
			change(math.Sqrt(k), "longer", "shorter"))
	case "Ixz":
		return "roll and yaw mix differently in the Dutch roll and behind aileron and rudder; derivatives stay valid"
	}
	return "time histories: compare derivatives, not motions"
}

// SpoilsCG does the same for a departure [m at the model] of the CG, "cg_x" (aft positive) or "cg_z" (up positive), on a model
// with the given mean chord [m]; 0 where nobody knows it.
//
// Moving the CG by a share of the chord changes the static margin by that share, exactly, and leaves the neutral point
// where it is: Perkins and Hage, Airplane Performance, Stability and Control, 1949, from memory.
func SpoilsCG(quantity string, departure, chord float64) string {
	if !positive(chord) {
		return "static margin and trim are those of this CG, not of the target; the neutral point stays valid"
	}
	share := 100 * departure / chord
	if quantity == "cg_z" {
		if math.Abs(departure) < negligibleHeight*chord {
			return fmt.Sprintf("nothing that matters (within %g %% of the chord)", 100*negligibleHeight)
		}
		return fmt.Sprintf("with the engine on, thrust turns the nose %s than to scale (arm off by %.1f %% of the chord); glides hardly notice",
			upDown(departure), math.Abs(share))
	}
	if math.Abs(share) < negligibleMargin {
		return fmt.Sprintf("nothing that matters (static margin within %g %% of the chord)", negligibleMargin)
	}
	return fmt.Sprintf("the static margin is %.1f %% of the chord %s than to scale, so trim, elevator and the short period are those of another loading; "+
		"the neutral point stays valid", math.Abs(share), smaller(departure))
}

func change(ratio float64, above, below string) string {
	percent := 100 * (ratio - 1)
	if percent < 0 {
		return fmt.Sprintf("%.1f %% %s", -percent, below)
	}
	return fmt.Sprintf("%.1f %% %s", percent, above)
}

func longer(k float64) string {
	if k > 1 {
		return "longer"
	}
	return "shorter"
}

func heavy(k float64) string {
	if k > 1 {
		return "too heavy"
	}
	return "too light"
}

func lazy(k float64) string {
	if k > 1 {
		return "lazier"
	}
	return "livelier"
}

// smaller: aft of the target the margin is smaller.
func smaller(aft float64) string {
	if aft > 0 {
		return "smaller"
	}
	return "larger"
}

// upDown: a CG above the target has the thrust line lower beneath it, which raises the nose.
func upDown(up float64) string {
	if up > 0 {
		return "further up"
	}
	return "further down"
}
