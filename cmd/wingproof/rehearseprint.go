package main

import (
	"fmt"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/forecast"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

// printForecast writes what a rehearsal found.
func printForecast(s streams, st *study.Study, r forecast.Result) error {
	return report.ForecastTable(s.Out, forecastContent(st, r), tableWidth)
}

// forecastContent turns a result into what the table shows.
func forecastContent(st *study.Study, r forecast.Result) report.Forecast {
	ratio := st.Program.Model.LengthRatio
	out := report.Forecast{Times: r.Times, Ratio: ratio, Flights: len(r.Flights), Assumed: r.Assumed, CGHalf: r.CGHalf}
	for _, f := range r.Flights {
		g := groupOf(&out, f.Configuration)
		g.Flights++
		g.CGs = append(g.CGs, f.CG)
		g.Minutes = max(g.Minutes, f.Seconds/60)
		if f.Used < r.Times {
			g.LeftOut = append(g.LeftOut, fmt.Sprintf("%s was left out in %d of %d rehearsals: %s", f.Name, r.Times-f.Used, r.Times, f.Why))
		}
	}
	for _, i := range r.Intervals {
		g := groupOf(&out, i.Configuration)
		row := report.ForecastRow{Quantity: i.Quantity, Unit: i.Unit, Now: i.Now, After: i.After, Least: i.Least, Greatest: i.Greatest, Factor: i.Factor, Known: i.Known, Weak: 2*i.Weak > r.Times}
		if i.Ruled() {
			row.Shared, row.Because = i.Shared, sourcesThatRule(i)
		}
		if i.Origin == evidence.Measured {
			g.Measured = append(g.Measured, row)
		} else {
			g.Believed = append(g.Believed, row)
		}
	}
	for _, missing := range r.Missing {
		g := groupOf(&out, missing.Configuration)
		g.Missing = append(g.Missing, report.ForecastMissing{Quantity: missing.Quantity, Why: missing.Why})
	}
	out.Chances = chances(r)
	return out
}

func groupOf(f *report.Forecast, configuration string) *report.ForecastGroup {
	at := slices.IndexFunc(f.Groups, func(g report.ForecastGroup) bool { return g.Configuration == configuration })
	if at < 0 {
		f.Groups = append(f.Groups, report.ForecastGroup{Configuration: configuration})
		at = len(f.Groups) - 1
	}
	return &f.Groups[at]
}

// moved is the change of a probability from which a configuration that is not rehearsed is told of too.
const moved = 0.01

// chances are the limits of the rehearsed configurations, and those of live others that the flights move.
func chances(r forecast.Result) []report.ForecastChance {
	var out []report.ForecastChance
	for _, l := range r.Limits {
		if !l.Rehearsed && (!l.Live || l.After-l.Now < moved && l.Now-l.After < moved) {
			continue
		}
		out = append(out, report.ForecastChance{Limit: l.Limit, Configuration: l.Configuration, Now: l.Now, After: l.After, Least: l.Least, Greatest: l.Greatest})
	}
	slices.SortStableFunc(out, func(a, b report.ForecastChance) int {
		return slices.Index(limitOrder(r), a.Limit) - slices.Index(limitOrder(r), b.Limit)
	})
	return out
}

// limitOrder lists the limits in the order in which they first come.
func limitOrder(r forecast.Result) []string {
	var names []string
	for _, l := range r.Limits {
		if !slices.Contains(names, l.Limit) {
			names = append(names, l.Limit)
		}
	}
	return names
}

// sourcesThatRule names the errors that make up most of what is shared, at most three.
func sourcesThatRule(i forecast.Interval) []string {
	var names []string
	left := *i.Shared * *i.Shared
	whole := left
	for _, one := range i.SharedBy {
		if len(names) == 3 || left < 0.2*whole {
			break
		}
		names = append(names, strings.TrimSpace(one.Source))
		left -= one.Half * one.Half
	}
	return names
}
