package estimate

import (
	"fmt"
	"slices"
	"strings"
)

// withAnd joins words with commas and "and".
func withAnd(words []string) string {
	n := len(words)
	if n < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
}

func roadsMethod(roads []Road, usable []int) string {
	var names []string
	for _, i := range usable {
		names = append(names, roads[i].Name)
	}
	if len(names) == 0 {
		return "no road"
	}
	return "pooled from " + withAnd(names)
}

// noRoadWords gives each road's own reason.
func noRoadWords(quantity string, roads []Road) string {
	if len(roads) == 0 {
		return fmt.Sprintf("nothing was flown that shows %s", spoken(quantity))
	}
	var reasons []string
	for _, road := range roads {
		reason := "no number"
		if n := len(road.Result.Warnings); n > 0 {
			reason = road.Result.Warnings[n-1]
		}
		reasons = append(reasons, road.Name+": "+reason)
	}
	return fmt.Sprintf("no road to %s gives a number; %s", spoken(quantity), strings.Join(reasons, "; "))
}

// otherPower is empty when all roads were flown with one power state; roads that name none go with any.
func otherPower(roads []Road, usable []int) string {
	var states []string
	for _, i := range usable {
		if p := roads[i].Result.Power; p != "" {
			states = append(states, p)
		}
	}
	slices.Sort(states)
	if states = slices.Compact(states); len(states) < 2 {
		return ""
	}
	return fmt.Sprintf("the roads were flown with different power (%s) and are not pooled; each stands by itself", withAnd(states))
}

// disagreeWords prints each road apart.
func disagreeWords(quantity string, roads []Road, times float64) string {
	var each []string
	for _, road := range roads {
		each = append(each, road.Name+" "+intervalWords(road.Result))
	}
	return fmt.Sprintf("the roads to %s disagree by more than their errors allow: %s; the pooled standard deviation is multiplied by %.1f: find out which of them is wrong before relying on it",
		spoken(quantity), strings.Join(each, "; "), times)
}

// intervalWords is "0.121 1/rad (95 % from 0.105 to 0.137)".
func intervalWords(r Result) string {
	if r.Value == nil {
		return "no number"
	}
	words := fmt.Sprintf("%.4g", *r.Value)
	if r.Unit != "" {
		words += " " + r.Unit
	}
	if r.Low == nil || r.High == nil {
		return words
	}
	return fmt.Sprintf("%s (95 %% from %.4g to %.4g)", words, *r.Low, *r.High)
}

func oneFlightRoadsWords(quantity string) string {
	return fmt.Sprintf("all roads stand on one flight: what %s differs by from day to day is not in the interval; fly it in a second flight", spoken(quantity))
}
