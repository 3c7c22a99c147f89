package decide

import (
	"math"

	"wingproof/cmd/wingproof/internal/evidence"
)

// series is a quantity in every draw, at the loading where it is least and at the one where it is most.
type series struct {
	least, most           []float64
	whereLeast, whereMost string
}

// single is a series without loadings.
func single(values []float64, where string) series {
	return series{least: values, most: values, whereLeast: where, whereMost: where}
}

// overLoadings evaluates a quantity in every draw of the empty aircraft over all loadings of a
// requirement, and names the loading that is most often the extreme one.
func overLoadings(empties []empty, loadings []Loading, value func(empty) float64) series {
	s := series{least: make([]float64, len(empties)), most: make([]float64, len(empties))}
	countLeast, countMost := make([]int, len(loadings)), make([]int, len(loadings))
	for i, e := range empties {
		least, most, iLeast, iMost := math.Inf(1), math.Inf(-1), 0, 0
		for l, loading := range loadings {
			v := value(loaded(e, loading))
			if v < least {
				least, iLeast = v, l
			}
			if v > most {
				most, iMost = v, l
			}
		}
		s.least[i], s.most[i] = least, most
		countLeast[iLeast]++
		countMost[iMost]++
	}
	s.whereLeast, s.whereMost = loadings[largest(countLeast)].Name, loadings[largest(countMost)].Name
	return s
}

func largest(counts []int) int {
	best := 0
	for i, n := range counts {
		if n > counts[best] {
			best = i
		}
	}
	return best
}

// weightValue returns the function of the loaded CG that a requirement on weight asks for; static margin
// and fuel travel ask for the CG station itself.
func weightValue(quantity string, g *Gear) func(empty) float64 {
	switch quantity {
	case evidence.TipBackAngle:
		return g.tipBack
	case evidence.NoseGearShare:
		return g.noseShare
	case evidence.OverturnAngle:
		return g.overturn
	default:
		return func(cg empty) float64 { return cg.x }
	}
}

// finish turns the CG series of a requirement into the judged quantity: static margin with a neutral
// point, or travel of the CG between loadings. Limits on the wheels are judged as they come.
//
// Fuel travel is the distance between the foremost and the aftmost of the limit's loadings that fly. Where
// they differ in more than fuel, the travel of the occupants is in it: name the loadings in the limit to
// judge fuel alone.
func (s series) finish(quantity string, meanChord float64, neutral []float64) series {
	n := len(s.least)
	switch quantity {
	case evidence.StaticMargin:
		margin := series{least: make([]float64, n), most: make([]float64, n), whereLeast: s.whereMost, whereMost: s.whereLeast}
		for i := range n {
			margin.least[i] = 100 * (neutral[i] - s.most[i]) / meanChord
			margin.most[i] = 100 * (neutral[i] - s.least[i]) / meanChord
		}
		return margin
	case evidence.FuelTravel:
		travel := make([]float64, n)
		for i := range n {
			travel[i] = 100 * (s.most[i] - s.least[i]) / meanChord
		}
		return single(travel, "between "+s.whereLeast+" and "+s.whereMost)
	default:
		return s
	}
}
