package estimate

import (
	"fmt"
	"math"
	"slices"
)

// leastGlideFlights is the number of flights from which it can be told which of them met odd air: the parabola takes up much of three.
const leastGlideFlights = 4

// playDownGlides finds flights whose glides lie off the polar by more vertical air than the other flights show, the farthest first, and
// plays them down as a wild point is. Nothing is left out of the fit; the scatter that is returned is that of the others. stated is the
// standard deviation of vertical air, m/s; 0 where the flights must tell. See playDownNumbers.
func playDownGlides(sets []glideSet, stated float64) ([]glideSet, glideScatter) {
	out := slices.Clone(sets)
	for i := range out {
		out[i].flights = slices.Clone(out[i].flights)
	}
	for {
		scatter := estimateGlides(tame(out)).withStated(tame(out), stated)
		i, j := farthestGlides(out, scatter)
		if i < 0 {
			return out, scatter
		}
		trial := slices.Clone(out)
		trial[i].flights = slices.Clone(out[i].flights)
		trial[i].flights[j].distance = 1
		others := estimateGlides(tame(trial)).withStated(tame(trial), stated)
		if others.withinDegrees == 0 || others.drawDegrees < 1 {
			return out, scatter
		}
		z := out[i].draw(j, others)
		if !(z > farLimit(others.drawDegrees)) || math.IsInf(z, 0) {
			return out, scatter
		}
		out[i].flights[j].distance = z
	}
}

// playDownGlidesUnder is playDownGlides for one configuration with a known scatter.
func playDownGlidesUnder(g glideSet, scatter glideScatter) glideSet {
	g.flights = slices.Clone(g.flights)
	for scatter.withinDegrees > 0 && scatter.drawDegrees >= 1 {
		_, j := farthestGlides([]glideSet{g}, scatter)
		if j < 0 {
			break
		}
		z := g.draw(j, scatter)
		if !(z > farLimit(scatter.drawDegrees)) || math.IsInf(z, 0) {
			break
		}
		g.flights[j].distance = z
	}
	return g
}

// tame leaves the flights that are played down out, for the yardstick of the others.
func tame(sets []glideSet) []glideSet {
	var out []glideSet
	for _, g := range sets {
		kept := g
		kept.flights, kept.points = nil, nil
		for _, f := range g.flights {
			if f.distance == 0 {
				kept.flights = append(kept.flights, f)
				kept.points = append(kept.points, f.points...)
			}
		}
		out = append(out, kept)
	}
	return out
}

// farthestGlides is the flight of full weight that lies farthest from the others of its configuration.
func farthestGlides(sets []glideSet, scatter glideScatter) (set, place int) {
	set, place = -1, -1
	most := 0.0
	for i, g := range sets {
		if len(g.flights) < leastGlideFlights {
			continue
		}
		for j, f := range g.flights {
			if f.distance > 0 {
				continue
			}
			if z := g.draw(j, scatter); z > most {
				set, place, most = i, j, z
			}
		}
	}
	return set, place
}

// draw is how many standard deviations a flight's vertical air lies from what the polar of the other flights expects: with r its
// residuals, z its draughts and V its covariance, zᵀV⁻¹r/(zᵀV⁻¹z) over its standard deviation, the others' polar included.
func (g glideSet) draw(j int, scatter glideScatter) float64 {
	others := g
	others.flights = slices.Delete(slices.Clone(g.flights), j, j+1)
	within := scatter.within
	if within <= 0 {
		return 0
	}
	fit, err := others.general(within, scatter.between, true)
	if err != nil {
		return 0
	}
	alone := g
	alone.flights = []flight{g.flights[j]}
	alone.flights[0].distance = 0
	rows, response, weight := alone.problem(true)
	alone.whiten(alone.flights[0], rows, response, weight, within, scatter.between)
	z := alone.whitenedDraught(alone.flights[0], scatter)
	square1, along := 0.0, 0.0
	lever := make([]float64, 3)
	for i := range rows {
		r := response[i]
		for k, x := range rows[i] {
			r -= x * fit.Coefficients[k]
			lever[k] += x * z[i]
		}
		square1 += z[i] * z[i]
		along += z[i] * r
	}
	if square1 <= 0 {
		return 0
	}
	variance := 1/square1 + rowForm(lever, fit.Unscaled)/square(square1)
	return math.Abs(along/square1) / math.Sqrt(variance)
}

// wildGlideWords names the flights that are played down.
func (g glideSet) wildGlideWords() []string {
	var words []string
	for _, f := range g.flights {
		if w := f.share(); w < 1 {
			words = append(words, fmt.Sprintf("flight %s: its glides lie %.1f standard deviations of vertical air from the other flights and count %.0f %%: the air moved, or its airspeed is off; fly it again",
				f.name, f.distance, 100*w))
		}
	}
	return words
}
