package report

import (
	"fmt"
	"io"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
)

// FitTable writes what the flights say of each configuration, section by section, as text no wider than width columns: the number with
// its 95 % interval, at which CG, and what it rests on. Where several roads lead to one number, each has a row below it. What cannot be
// told says why below, and what several numbers or flights have in common stands once. missing lists what to fly, by configuration.
func FitTable(w io.Writer, estimates []evidence.Estimate, missing map[string][]string, ratio float64, width int) error {
	names, groups := byConfiguration(estimates)
	for i, name := range names {
		if i > 0 {
			if _, err := fmt.Fprint(w, "\n\n"); err != nil {
				return err
			}
		}
		if err := paragraph(w, strings.ToUpper(plain(sizesWords(name))), width); err != nil {
			return err
		}
		if err := fitGroup(w, groups[name], ratio, width); err != nil {
			return err
		}
		if err := bullets(w, "What these flights cannot tell, and what to fly:", missing[name], width); err != nil {
			return err
		}
	}
	return nil
}

func fitGroup(w io.Writer, estimates []evidence.Estimate, ratio float64, width int) error {
	for _, section := range fitSections() {
		these := section.of(estimates)
		if len(these) == 0 {
			continue
		}
		if _, err := fmt.Fprintln(w); err != nil {
			return err
		}
		levels := ""
		if section.scale == evidence.FullSize {
			levels = handlingWords(estimates, these[0].Configuration)
		}
		if err := fitRows(w, section.heading, these, levels, ratio, width); err != nil {
			return err
		}
	}
	return bullets(w, "What these numbers rest on, and what limits them:", warningLines(estimates), width)
}

// of are the estimates of a section, in its order.
func (section fitSection) of(estimates []evidence.Estimate) []evidence.Estimate {
	var these []evidence.Estimate
	for _, quantity := range section.quantities {
		for _, e := range estimates {
			if e.Quantity == quantity && (section.scale == "" || e.Scale == section.scale) {
				these = append(these, e)
			}
		}
	}
	return these
}

// fitRows writes one section; levels, where there are some, stand in a row of their own below.
func fitRows(w io.Writer, heading string, these []evidence.Estimate, levels string, ratio float64, width int) error {
	wide := columns(w, width) >= 90
	perRadian := slim(these)
	if perRadian {
		heading += ", per radian"
	}
	t := textTable{heads: []string{heading, "value (95 % interval)", "CG", "rests on"}, most: []int{31, 30, 16, 0}, least: 17}
	if wide && ratio > 0 {
		t.heads[2] = "CG (model)"
	}
	several := map[string]int{}
	for _, e := range these {
		several[e.Quantity]++
	}
	last := ""
	for _, e := range these {
		road := ""
		if several[e.Quantity] > 1 {
			road = roadOf(e)
		}
		words := fitWords(e.Quantity)
		if road != "" && e.Quantity == last { // a road below what stands above it
			words, road = "- "+road, ""
		}
		if road != "" {
			words += ", " + road
		}
		last = e.Quantity
		t.add(plain(words), fitValue(e, perRadian), fitStation(e, ratio, wide), plain(restsOn(e)))
	}
	if levels != "" {
		t.add(narrowHandlingRow, levels, "", "")
	}
	return t.write(w, width)
}

// fitValue is a number with its interval, without the unit that stands in the heading.
func fitValue(e evidence.Estimate, perRadian bool) string {
	if perRadian {
		e.Unit = ""
	}
	return estimateWords(e)
}

// fitStation is the CG of a number on one line: full size, with the model's behind it where there is room.
func fitStation(e evidence.Estimate, ratio float64, wide bool) string {
	if e.At.CG == nil {
		return ""
	}
	s := number(*e.At.CG, 3) + " m"
	if wide && ratio > 0 {
		s += " (" + number(1000**e.At.CG*ratio, 0) + " mm)"
	}
	return s
}

// roadOf tells the road to a number of which several stand in a section; empty where rows differ in something else.
func roadOf(e evidence.Estimate) string {
	switch e.Quantity {
	case "elevator_per_lift", "elevator_per_g", "max_lift_coefficient", "stall_alpha":
		return ""
	}
	if e.Method == nil {
		return ""
	}
	road, _, found := strings.Cut(*e.Method, ": ")
	if !found {
		return "all roads together"
	}
	return "by " + road
}

// restsOn names the flights and the power behind a number.
func restsOn(e evidence.Estimate) string {
	var parts []string
	if n := len(e.Flights); n == 1 {
		parts = append(parts, "1 flight")
	} else if n > 1 {
		parts = append(parts, fmt.Sprintf("%d flights", n))
	}
	if e.Power != nil {
		parts = append(parts, *e.Power)
	}
	return strings.Join(parts, ", ")
}

// bullets writes a heading and a line for each item; nothing without items.
func bullets(w io.Writer, heading string, items []string, width int) error {
	if len(items) == 0 {
		return nil
	}
	if _, err := fmt.Fprintln(w); err != nil {
		return err
	}
	if err := paragraph(w, heading, width); err != nil {
		return err
	}
	for _, item := range items {
		if err := paragraph(w, "- "+plain(item), width); err != nil {
			return err
		}
	}
	return nil
}

// Bullets writes a heading and a line for each item, as text no wider than width columns; nothing without items.
func Bullets(w io.Writer, heading string, items []string, width int) error {
	return bullets(w, heading, items, width)
}
