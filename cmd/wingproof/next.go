package main

import (
	"context"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

type nextOptions struct {
	folderOptions
	rehearse bool
}

func newNextCommand(s streams) *cobra.Command {
	var o nextOptions
	c := &cobra.Command{
		Use:   "next",
		Short: "the flights and measurements that would clear the most shop hours (a forecast)",
		Long: `next tries every step that could be taken now: two more flights of each combination still possible, scales, a proof load,
section data, calibrations. For each it draws what may be true from what is believed, what the step would then find, judges the board
anew, and counts the hours of the parts that come free. It also says what any number of flights would clear, and so what none can.
The page that 'wingproof report' writes shows the same.

--rehearse flies the best three of the flights in simulation, through the same reduction and fits as real ones, and sets what they
would do to the open limits beside the quick forecast. It takes about ten seconds for each.`,
		Example: "  wingproof next\n  wingproof next --program ../sandreed --json",
		Args:    noArguments,
		RunE:    func(c *cobra.Command, _ []string) error { return runNext(c.Context(), s, o) },
	}
	o.addFlags(c)
	o.addDate(c)
	c.Flags().BoolVar(&o.rehearse, "rehearse", false, "fly the best three flight steps in simulation as well")
	return c
}

// nextDocument is what next --json prints. Everything in it is a forecast.
type nextDocument struct {
	Program string `json:"program"`
	Date    string `json:"date"`
	nextForecast
	Rehearsed []nextRehearsal `json:"rehearsed"` // with --rehearse: the best flights, flown in simulation
	Alarms    []string        `json:"alarms"`
}

// nextForecast is a forecast as a document. Hours are of shop work.
type nextForecast struct {
	Forecast bool       `json:"forecast"`
	Waiting  float64    `json:"waiting_hours"`
	Steps    []nextStep `json:"steps"`
	Together []nextStep `json:"best_with_each_other"`
	Endless  nextStep   `json:"any_number_of_flights"`
	Settle   nextStep   `json:"decision"` // sizes that pass every limit together, where none does by itself
}

func nextForecastOf(o decide.Outlook) nextForecast {
	return nextForecast{Forecast: true, Waiting: o.Waiting, Steps: nextSteps(o.Prospects), Together: nextSteps(o.Together), Endless: nextStepOf(o.Endless), Settle: nextStepOf(o.Settle)}
}

type nextStep struct {
	Kind    string      `json:"kind"`
	Do      string      `json:"do"`
	Why     string      `json:"why"`
	Flights int         `json:"flights"`
	Hours   float64     `json:"expected_hours"`
	Parts   []nextPart  `json:"parts"`
	Narrows *nextNarrow `json:"narrows"`
}

type nextPart struct {
	Part      string  `json:"part"`
	Side      string  `json:"side"`
	HoursLeft float64 `json:"hours_left"`
	Chance    float64 `json:"chance"`
}

type nextNarrow struct {
	Limit         string  `json:"limit"`
	Configuration string  `json:"configuration"`
	Quantity      string  `json:"quantity"`
	Unit          string  `json:"unit"`
	Now           float64 `json:"width_now"`
	After         float64 `json:"width_after"`
}

func runNext(ctx context.Context, s streams, o nextOptions) error {
	st, err := o.study(ctx, s, study.Judged)
	if err != nil {
		return err
	}
	if len(st.Verdict.Board) == 0 {
		return usagef("parts.csv: no parts, so no hours to clear; list the shop's parts there, one a row")
	}
	outlook, err := st.Next(ctx, s.progress(false))
	if err != nil {
		return err
	}
	var rehearsed []nextRehearsal
	if o.rehearse {
		if rehearsed, err = rehearseBest(ctx, s, st, outlook); err != nil {
			return err
		}
	}
	if o.json {
		return printJSON(s.Out, nextDocument{Program: st.Program.Name, Date: st.Verdict.Date, nextForecast: nextForecastOf(outlook),
			Rehearsed: append([]nextRehearsal{}, rehearsed...), Alarms: st.Verdict.Alarms})
	}
	if err := report.NextTable(s.Out, outlook, st.Verdict.Alarms, tableWidth); err != nil || !o.rehearse {
		return err
	}
	return report.NextRehearsed(s.Out, rehearsedWords(rehearsed), tableWidth)
}

func nextSteps(list []decide.Prospect) []nextStep {
	out := []nextStep{}
	for _, p := range list {
		out = append(out, nextStepOf(p))
	}
	return out
}

func nextStepOf(p decide.Prospect) nextStep {
	step := nextStep{Kind: p.Candidate.Kind, Do: p.Candidate.Say, Why: p.Candidate.Why, Flights: p.Candidate.Flights, Hours: p.Hours, Parts: []nextPart{}}
	for _, part := range p.Parts {
		step.Parts = append(step.Parts, nextPart(part))
	}
	if n := p.Narrows; n.Limit != "" {
		step.Narrows = &nextNarrow{Limit: n.Limit, Configuration: n.Configuration, Quantity: n.Quantity, Unit: n.Unit, Now: n.Now, After: n.After}
	}
	return step
}
