package estimate

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"wingproof/flightlog/identify"
)

// spoken is a quantity's name as one says it.
func spoken(quantity string) string { return strings.ReplaceAll(quantity, "_", " ") }

// flightsWords is "flight F1" or "flights F1, F2 and F3".
func flightsWords(flights []string) string {
	if len(flights) == 1 {
		return "flight " + flights[0]
	}
	return "flights " + withAnd(flights)
}

// whatToFly names the input that shows a quantity.
func whatToFly(quantity string) string {
	switch quantity {
	case identify.AileronPower, identify.RollDamping, identify.YawDueToRoll, identify.YawByAileron, identify.SideForceByAileron, identify.SideForceByRollRate:
		return "aileron doublets or multisteps in smooth air"
	case identify.RudderPower, identify.YawDamping, identify.RollDueToYaw, identify.RollByRudder, identify.SideForceByRudder, identify.SideForceByYawRate:
		return "rudder doublets or multisteps in smooth air"
	case identify.DirectionalStiff, identify.DihedralEffect, identify.SideForceSlope:
		return "rudder doublets, then hands off until the swing has died down"
	default:
		return "elevator doublets or multisteps in smooth air, then hands off"
	}
}

// leftWords names the flights that do not determine the quantity, those with one reason together.
func (s derivativeSet) leftWords() []string {
	var reasons []string
	flights := map[string][]string{}
	for _, l := range s.left {
		if len(flights[l.why]) == 0 {
			reasons = append(reasons, l.why)
		}
		if !slices.Contains(flights[l.why], l.flight) {
			flights[l.why] = append(flights[l.why], l.flight)
		}
	}
	var words []string
	for _, why := range reasons {
		words = append(words, fmt.Sprintf("left out of %s: %s: %s", spoken(s.quantity), flightsWords(flights[why]), why))
	}
	return words
}

// alikeWords says which quantities the input hardly tells apart from this one.
func (s derivativeSet) alikeWords() []string {
	var words []string
	for _, other := range slices.Sorted(maps.Keys(s.alike)) {
		words = append(words, fmt.Sprintf("the input of %s hardly tells %s from %s (correlation over %.2f): if one is wrong the other is wrong with it; fly a multistep with steps of unequal length",
			flightsWords(s.alike[other]), spoken(s.quantity), spoken(other), alikeFrom))
	}
	return words
}

// nothingWords says what to do: go back to the bench where that is what every flight lacks, else fly.
func (s derivativeSet) nothingWords() string {
	var bench []string
	for _, l := range s.left {
		if !strings.HasSuffix(l.why, identify.SwingModel) && !strings.HasSuffix(l.why, identify.TimeServo) {
			bench = nil
			break
		}
		if !slices.Contains(bench, l.why) {
			bench = append(bench, l.why)
		}
	}
	if len(bench) > 0 {
		return fmt.Sprintf("no flight determines %s: %s; until then more flights do not help", spoken(s.quantity), strings.Join(bench, "; "))
	}
	return fmt.Sprintf("no flight determines %s; fly %s", spoken(s.quantity), whatToFly(s.quantity))
}

func apartWords(metres float64) string {
	return fmt.Sprintf("the fits stand about moment points that lie %s apart on the model; move them to one before they are pooled", millimetres(metres))
}

func oneManoeuvreWords(quantity string) string {
	return fmt.Sprintf("one manoeuvre in one flight does not show how far it may be off; fly %s again, in this flight and in another", whatToFly(quantity))
}

func oneFlightWords(quantity string, pooled flightScatter) string {
	if pooled.degrees < 1 {
		return fmt.Sprintf("one flight: what %s differs by from day to day is not in its interval; fly it in a second flight", spoken(quantity))
	}
	return "one flight, taken to scatter as the program's flights do; a second flight would show whether it does"
}

func jointWords(pooled flightScatter) string {
	words := "no flight alone determines it, all in one fit do"
	if pooled.degrees < 1 {
		words += "; what flights differ by is not in the interval"
	}
	return words
}

func ownScatterWords(times float64) string {
	return fmt.Sprintf("these flights scatter %.1f times as much as those of the program together; their own scatter is used", times)
}

func farWords(values []flightValue) []string {
	var words []string
	for _, v := range values {
		if v.weight < 1 {
			words = append(words, fmt.Sprintf("flight %s lies %.1f standard deviations from the others and counts %.0f %%", v.flight, v.distance, 100*v.weight))
		}
	}
	return words
}
