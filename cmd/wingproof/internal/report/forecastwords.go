package report

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/flightlog/source"
)

// conclusions are what is left to say: where more flights do not help, how sure each limit will be, and what a rehearsal is not.
func (f Forecast) conclusions(w io.Writer, width int) error {
	var lines []string
	for _, g := range f.Groups {
		lines = append(lines, g.missing()...)
		lines = append(lines, f.ruled(g)...)
	}
	lines = append(lines, f.limits()...)
	lines = append(lines, "A rehearsal never says that a flight is safe: move the centre of gravity aft in small steps, and keep to local rules.")
	for _, line := range lines {
		if _, err := fmt.Fprintln(w); err != nil {
			return err
		}
		if err := paragraph(w, plain(upperFirst(line)), width); err != nil {
			return err
		}
	}
	return nil
}

// missing says what these flights will not determine, by reason.
func (g ForecastGroup) missing() []string {
	var reasons []string
	by := map[string][]string{}
	for _, m := range g.Missing {
		if _, seen := by[m.Why]; !seen {
			reasons = append(reasons, m.Why)
		}
		by[m.Why] = append(by[m.Why], flownWords(m.Quantity))
	}
	var lines []string
	for _, why := range reasons {
		line := fmt.Sprintf("%s: these flights will not determine %s", sizesWords(g.Configuration), joinAnd(by[why]))
		if _, roads, several := strings.Cut(why, " gives a number; "); several {
			why = roads // that no road does is said already
		}
		if why != "" {
			line += " (" + strings.TrimSuffix(why, ".") + ")"
		}
		lines = append(lines, line+".")
	}
	return lines
}

// ruled says which intervals of a configuration errors rule that all flights share: a sentence for each of those that the board asks for, one for all
// others.
func (f Forecast) ruled(g ForecastGroup) []string {
	var lines, others, sources []string
	for _, r := range g.Measured {
		if r.Shared == nil || r.After == nil {
			continue
		}
		switch r.Quantity {
		case evidence.NeutralPoint, evidence.LiftCurveSlope, evidence.ZeroLiftDrag, evidence.DirectionalStiffness:
			lines = append(lines, fmt.Sprintf("%s, %s: of %s, %s are errors that all flights share (%s); more flights do not shrink them; %s.", flownWords(r.Quantity),
				sizesWords(g.Configuration), f.half(r.After, r), f.half(r.Shared, r), strings.Join(sourceNames(r.Because), ", "), f.remedies(r.Because)))
		default:
			others = append(others, flownWords(r.Quantity))
			for _, s := range r.Because {
				if !slices.Contains(sources, s) {
					sources = append(sources, s)
				}
			}
		}
	}
	if len(others) > 0 {
		lines = append(lines, fmt.Sprintf("%s: more flights hardly help these either, since what all flights share is most of their intervals (%s): %s.", sizesWords(g.Configuration),
			fewOf(sourceNames(sources), "error"), strings.Join(others, "; ")))
	}
	return lines
}

// remedies says what would help in place of flights.
func (f Forecast) remedies(sources []string) string {
	var out []string
	for _, s := range sources {
		_, remedy := sourceWords(s)
		if s == source.CG && f.CGHalf > 0 && f.Ratio > 0 {
			remedy += fmt.Sprintf(" than ± %s mm of the model", number(1000*f.Ratio*f.CGHalf, 1))
		}
		if remedy != "" && !slices.Contains(out, remedy) {
			out = append(out, remedy)
		}
	}
	if len(out) == 0 {
		return "no measurement of the shop's makes them smaller"
	}
	return joinAnd(out) + " instead"
}

// certain is the probability from which a limit is as good as sure, and one less it from which it is as good as lost.
const certain = 0.999

// limits says how sure each limit is and will be. What is sure or lost before and behind the flights is told in one sentence for each configuration.
func (f Forecast) limits() []string {
	var lines []string
	var names []string
	sure, lost := map[string][]string{}, map[string][]string{}
	for _, c := range f.Chances {
		if !slices.Contains(names, c.Configuration) {
			names = append(names, c.Configuration)
		}
		switch {
		case c.Now > certain && c.Least > certain:
			sure[c.Configuration] = append(sure[c.Configuration], c.Limit)
			continue
		case c.Now < 1-certain && c.Greatest < 1-certain:
			lost[c.Configuration] = append(lost[c.Configuration], c.Limit)
			continue
		}
		spread := ""
		if f.Times > 1 {
			spread = " [" + percentWords(c.Least) + " to " + percentWords(c.Greatest) + "]"
		}
		lines = append(lines, fmt.Sprintf("%s, %s: holds with %s now, with %s%s after these flights (forecast, if the truth is where it is believed).", c.Limit,
			sizesWords(c.Configuration), percentWords(c.Now), percentWords(c.After), spread))
	}
	for _, name := range names {
		if len(sure[name]) > 0 {
			lines = append(lines, fmt.Sprintf("%s, now and after these flights over 99.9 %% sure to hold: %s.", sizesWords(name), joinAnd(sure[name])))
		}
		if len(lost[name]) > 0 {
			lines = append(lines, fmt.Sprintf("%s, now and after these flights under 0.1 %% sure to hold: %s.", sizesWords(name), joinAnd(lost[name])))
		}
	}
	return lines
}
