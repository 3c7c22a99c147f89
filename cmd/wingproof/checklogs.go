package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog"
	"wingproof/flightlog/reduce"
)

// logBeginning is how much of a log shows whether it can be read: preamble, heads and some rows.
const logBeginning = 256 << 10 // bytes

// logDoubts says which flights in use will give nothing, for reasons that the beginning of their logs and their loggers' maps show.
func logDoubts(p *program.Program) []string {
	var out []string
	for _, m := range p.Loggers {
		var flights []program.Flight
		for _, f := range p.Flights {
			if f.Use && f.Log != "" && f.Logger == m.Name {
				flights = append(flights, f)
			}
		}
		if missing := reduce.Unnamed(m); len(missing) > 0 && len(flights) > 0 {
			out = append(out, fmt.Sprintf("program.toml: logger %q names no column for %s; without that %s no test point",
				m.Name, andList(quantityWords(missing)), flightsGive(flights)))
		}
		out = append(out, unreadable(p.Dir, m, flights)...)
	}
	return out
}

// unreadable says which logs cannot be read through their map. Logs with one fault in common are told in one line.
func unreadable(dir string, m flightlog.Map, flights []program.Flight) []string {
	type fault struct {
		first   string
		flights []program.Flight
	}
	var faults []fault
	var kinds []string
	for _, f := range flights {
		for _, mistake := range beginningOf(filepath.Join(dir, filepath.FromSlash(f.Log)), f.Log, m) {
			at := slices.Index(kinds, mistake.What)
			if at < 0 {
				kinds, faults, at = append(kinds, mistake.What), append(faults, fault{first: mistake.Error()}), len(faults)
			}
			faults[at].flights = append(faults[at].flights, f)
		}
	}
	var out []string
	for _, f := range faults {
		out = append(out, f.first+"; until then "+flightsGive(f.flights)+" nothing")
	}
	return out
}

// beginningOf reads the first part of a log. A log that is not there is told elsewhere.
func beginningOf(path, name string, m flightlog.Map) []*flightlog.Mistake {
	f, err := os.Open(path)
	if err != nil {
		return nil
	}
	defer f.Close()
	_, err = flightlog.Read(io.LimitReader(f, logBeginning), name, m)
	return flightlog.Mistakes(err)
}

func quantityWords(all []flightlog.Quantity) []string {
	var out []string
	for _, q := range all {
		out = append(out, strings.ReplaceAll(string(q), "_", " "))
	}
	return out
}

// flightsGive is "flight F1 gives" or "flights F1 and F2 give".
func flightsGive(flights []program.Flight) string {
	var names []string
	for _, f := range flights {
		names = append(names, f.Name)
	}
	if len(names) == 1 {
		return "flight " + names[0] + " gives"
	}
	return "flights " + andList(names) + " give"
}

// mostNamed is how many flights a line names before it counts the others.
const mostNamed = 6

// andList is "a", "a and b" or "a, b and c".
func andList(words []string) string {
	if n := len(words); n > mostNamed {
		words = append(words[:mostNamed-1:mostNamed-1], fmt.Sprintf("%d more", n-mostNamed+1))
	}
	last := len(words) - 1
	if last < 1 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:last], ", ") + " and " + words[last]
}
