package similitude

import (
	"fmt"
	"math"
)

// negligible is the departure, in percent, below which a target counts as met: a frequency then misses by
// less than one percent. Common practice, no source.
const negligible = 2.0

// Spoils says in plain words what a departure [percent of the target] of "mass", "Ix", "Iy" or "Iz" does
// to what the model shows. Derivatives without dimension stay valid in every case.
//
// The figures are first order: speeds at one lift coefficient go with √m, the phugoid period with that
// speed, the short period, Dutch roll and roll with the inertia about their axis.
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
		return fmt.Sprintf("the roll time constant is %s than full size and aileron response looks %s; roll derivatives stay valid",
			change(k, "longer", "shorter"), lazy(k))
	case "Iy":
		return fmt.Sprintf("the short period is %s than full size and its damping differs; pitch derivatives and trim stay valid",
			change(math.Sqrt(1/k), "quicker", "slower"))
	case "Iz":
		return fmt.Sprintf("the Dutch roll is %s than full size and its damping differs; yaw derivatives stay valid",
			change(math.Sqrt(1/k), "quicker", "slower"))
	}
	return "time histories: compare derivatives, not motions"
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
