package report

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
)

// EstimateTable writes estimates as text no wider than width columns (100 when width is 0): what, where,
// the value with its 95 % interval and where it comes from. ratio is model over full size, so that a CG
// stands at both sizes; 0 leaves the model's out.
func EstimateTable(w io.Writer, estimates []evidence.Estimate, ratio float64, width int) error {
	if len(estimates) == 0 {
		return paragraph(w, "nothing to show: no flight was fitted and no configuration computed", width)
	}
	names, groups := byConfiguration(estimates)
	for i, name := range names {
		if i > 0 {
			if _, err := fmt.Fprintln(w); err != nil {
				return err
			}
		}
		if err := paragraph(w, plain(name), width); err != nil {
			return err
		}
		if err := estimateGroup(w, groups[name], ratio, width); err != nil {
			return err
		}
	}
	return nil
}

// byConfiguration sorts estimates into their configurations, in the order in which these first come.
func byConfiguration(estimates []evidence.Estimate) (names []string, groups map[string][]evidence.Estimate) {
	groups = map[string][]evidence.Estimate{}
	for _, e := range estimates {
		if _, seen := groups[e.Configuration]; !seen {
			names = append(names, e.Configuration)
		}
		groups[e.Configuration] = append(groups[e.Configuration], e)
	}
	return names, groups
}

// estimateGroup writes the estimates of one configuration, then their warnings, each once with all that it
// concerns.
func estimateGroup(w io.Writer, estimates []evidence.Estimate, ratio float64, width int) error {
	t := textTable{heads: []string{"quantity", "at", "value (95 % interval)", "origin"}, most: []int{26, 24, 30, 0}}
	var warnings []string
	concerns := map[string][]string{}
	for _, e := range estimates {
		words := quantityWords(e.Quantity)
		t.add(words, plain(atCell(e, ratio)), estimateWords(e), plain(originCell(e)))
		for _, warning := range e.Warnings {
			line := plain(warning)
			if !slices.Contains(warnings, line) {
				warnings = append(warnings, line)
			}
			if !slices.Contains(concerns[line], words) {
				concerns[line] = append(concerns[line], words)
			}
		}
	}
	if err := t.write(w, width); err != nil {
		return err
	}
	for _, line := range warnings {
		if err := paragraph(w, line+" ("+strings.Join(concerns[line], "; ")+")", width); err != nil {
			return err
		}
	}
	return nil
}

// atCell is the loading or the CG that a number belongs to.
func atCell(e evidence.Estimate, ratio float64) string {
	if loading := loadingOf(e); loading != "" {
		return loading
	}
	if e.At.CG == nil {
		return ""
	}
	return cgWords(*e.At.CG, ratio)
}

func originCell(e evidence.Estimate) string {
	e.Warnings = nil
	return strings.TrimSuffix(e.Origin+", "+strings.ReplaceAll(noteOf(e), "; ", ", "), ", ")
}
