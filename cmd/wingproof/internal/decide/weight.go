package decide

import (
	"fmt"
	"math"
)

// empty is one state of the empty aircraft: mass [kg], CG station x and height z [m].
type empty struct{ mass, x, z float64 }

// loaded returns mass and CG of the empty aircraft with what a loading carries.
func loaded(e empty, l Loading) empty {
	sum := empty{mass: e.mass, x: e.mass * e.x, z: e.mass * e.z}
	for _, item := range l.Items {
		sum.mass += item.Mass
		sum.x += item.Mass * item.X
		sum.z += item.Mass * item.Z
	}
	return empty{mass: sum.mass, x: sum.x / sum.mass, z: sum.z / sum.mass}
}

// nominal is the empty aircraft as stated.
func (a Aircraft) nominal() empty {
	return empty{mass: a.EmptyMass.Value, x: a.EmptyX.Value, z: a.EmptyZ.Value}
}

// drawEmpty draws empty mass and CG once a draw, for all configurations and limits. A mass far below the
// stated one is held at a tenth of it.
func drawEmpty(seed uint64, n int, a Aircraft) []empty {
	mass := normals(seed, n, "weight", "empty mass")
	x := normals(seed, n, "weight", "empty CG station")
	z := normals(seed, n, "weight", "empty CG height")
	draws := make([]empty, n)
	for i := range draws {
		draws[i] = empty{
			mass: math.Max(0.1*a.EmptyMass.Value, a.EmptyMass.Value+a.EmptyMass.SD*mass[i]),
			x:    a.EmptyX.Value + a.EmptyX.SD*x[i],
			z:    a.EmptyZ.Value + a.EmptyZ.SD*z[i],
		}
	}
	return draws
}

// checkWeights refuses weights that no CG follows from.
func checkWeights(a Aircraft) error {
	if !(a.EmptyMass.Value > 0) {
		return fmt.Errorf("empty mass is %g kg; state the full-size empty mass and its centre of gravity", a.EmptyMass.Value)
	}
	for _, figure := range []Figure{a.EmptyMass, a.EmptyX, a.EmptyZ} {
		if !(figure.SD >= 0) || math.IsNaN(figure.Value) {
			return fmt.Errorf("empty weight or centre of gravity: %g with standard deviation %g; write numbers, the deviation zero or more", figure.Value, figure.SD)
		}
	}
	for _, l := range a.Loadings {
		for _, item := range l.Items {
			if !(item.Mass >= 0) {
				return fmt.Errorf("loading %q: %s weighs %g kg; write zero or more", l.Name, item.What, item.Mass)
			}
		}
	}
	return nil
}
