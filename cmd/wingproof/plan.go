package main

import (
	"context"
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/plan"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

// planOptions are the flags of plan.
type planOptions struct {
	folderOptions
	configurations      []string
	cgs                 []float64
	flights             int
	first               string
	mass                float64
	entry, lowest       float64
	exceed              string
	html                string
	formFeed, write     bool
	entryGiven, lowSaid bool
}

func newPlanCommand(s streams) *cobra.Command {
	var o planOptions
	c := &cobra.Command{
		Use:   "plan",
		Short: "test sheets for the field: where to put the CG, what to fly, how fast, from which height, when to stop",
		Long: `plan prints one test sheet a flight, forward CG first, for a crew to fly from. Each holds mass and CG, how far aft nobody goes,
and the cards in flying order: checks, glides, level runs, inputs on each control, sideslips, turns, a pull-up, and decelerations
to the stall last, where the margin allows them. Each card says speed, lift coefficient, entry height, what to hold and for how
long, when to stop, and what wingproof reads from it.

Speeds follow from the model as weighed, so that each card holds its lift coefficient whatever the ballast.
Without flags it plans the baseline (or what is settled) and then the combinations of levels still possible that no flight has flown yet. What it
assumes stands on every sheet. --write puts the cards into cards.csv, and 'look LOG' then says which ones a log fulfilled.

It never says that the model may be flown. Local rules and the pilot come first.`,
		Example: `  wingproof plan
  wingproof plan --configuration winglet=tall --flights 3 --html sheets.html
  wingproof plan --cg-mm 880,890,900 --lowest-height 50 --entry-height 150 --never-exceed "55 m/s"
  wingproof plan --write
  wingproof plan --program ../sandreed --json`,
		Args: noArguments,
		RunE: func(c *cobra.Command, _ []string) error {
			o.entryGiven, o.lowSaid = c.Flags().Changed("entry-height"), c.Flags().Changed("lowest-height")
			return runPlan(c.Context(), s, o)
		},
	}
	o.addFlags(c)
	f := c.Flags()
	f.StringArrayVar(&o.configurations, "configuration", nil, "`LEVELS` to plan for, such as winglet=mid,foreplane=long; may be given again")
	f.Float64SliceVar(&o.cgs, "cg-mm", nil, "`CGs` in mm aft of the model's datum, such as 880,890 (default: three over the loadings that fly)")
	f.IntVar(&o.flights, "flights", 6, "plan at most this many flights")
	f.StringVar(&o.first, "first-flight", "", "`NAME` of the first flight, such as F19 (default: goes on from flights.csv)")
	f.Float64Var(&o.mass, "mass-kg", 0, "mass of the model in `KG` (default: from the weighing nearest in CG)")
	f.Float64Var(&o.entry, "entry-height", 120, "height above ground in `M` at which cards begin")
	f.Float64Var(&o.lowest, "lowest-height", 40, "height above ground in `M` below which every card is broken off")
	f.StringVar(&o.exceed, "never-exceed", "", "`SPEED` of the model never to exceed, such as 45 (m/s), \"160 km/h\" or \"87 kt\"")
	f.StringVar(&o.html, "html", "", "write one printable page to this `FILE` too")
	f.BoolVar(&o.formFeed, "form-feed", false, "begin a new page of the printer with each sheet")
	f.BoolVar(&o.write, "write", false, "write the cards into cards.csv, behind what stands there")
	return c
}

// planDocument is what plan --json prints.
type planDocument struct {
	plan.Plan
	Page  string `json:"page"`  // empty unless --html
	Cards int    `json:"cards"` // written to cards.csv
}

func runPlan(ctx context.Context, s streams, o planOptions) error {
	limits, err := o.limits()
	if err != nil {
		return err
	}
	st, err := o.study(ctx, s, study.Judged)
	if err != nil {
		return err
	}
	missing, err := st.Stalls(ctx)
	if err != nil {
		return err
	}
	problem, err := o.problem(st, limits)
	if err != nil {
		return err
	}
	if len(missing) > 0 {
		problem.Assumptions = append(problem.Assumptions, "which surface lets go first is not predicted in full: section data (polars) are missing; 'wingproof report' says which")
	}
	doc := planDocument{}
	if doc.Plan, err = plan.Build(problem); err != nil {
		return planRefused(err)
	}
	if len(doc.Sheets) == 0 {
		return usagef("plan: no CG is left to fly: %s", doc.LeftOut[0])
	}
	if o.html != "" {
		if err := report.WritePlan(o.html, doc.Plan); err != nil {
			return err
		}
		doc.Page = o.html
		fmt.Fprintln(s.Err, "page:", o.html)
	}
	if o.write {
		if doc.Cards, err = program.AddCards(st.Program.Dir, planCards(doc.Plan)); err != nil {
			return cardsRefused(err)
		}
		fmt.Fprintf(s.Err, "%s: %d cards written\n", program.CardsFile, doc.Cards)
	}
	if o.json {
		return printJSON(s.Out, doc)
	}
	return report.PlanText(s.Out, doc.Plan, o.formFeed, tableWidth)
}

// planRefused says what to do where never exceed leaves no room.
func planRefused(err error) error {
	var room *plan.RoomError
	if errors.As(err, &room) {
		return usagef("plan: %w; give a --never-exceed that the model stands, or less mass", err)
	}
	return err
}

// cardsRefused tells cards that are in the way as a mistake of the command line.
func cardsRefused(err error) error {
	var other *program.OtherCard
	if errors.As(err, &other) {
		return usagef("plan: %w", err)
	}
	return err
}

// planCards are the cards of a plan that a log can fulfil, as cards.csv has them.
func planCards(p plan.Plan) []program.Card {
	var out []program.Card
	for _, s := range p.Sheets {
		for _, c := range s.Cards {
			if c.Manoeuvre == "" {
				continue
			}
			out = append(out, program.Card{
				Name: s.Flight + " " + c.Name, Flight: s.Flight, Manoeuvre: c.Manoeuvre, Control: c.Control, Speed: c.Speed, SpeedTolerance: c.Tolerance,
				Bank: c.Bank, Repeats: c.Repeats, Levels: s.Levels, Notes: fmt.Sprintf("CG %.0f mm (model), CL %.2f", 1000*s.CG.Model, c.Lift),
			})
		}
	}
	return out
}
