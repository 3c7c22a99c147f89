package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

type settleOptions struct {
	folderOptions
	who, why        string
	reopen, signoff bool
	void            int
	voiding         bool // --void was given
	part            string
	against         bool
}

func newSettleCommand(s streams) *cobra.Command {
	var o settleOptions
	c := &cobra.Command{
		Use:   "settle CHOICE LEVEL",
		Short: "record a decision in decisions.csv, with a name and a reason",
		Long: `settle appends one row to decisions.csv: which choice was settled on which level, by whom, why and on
what evidence. Rows are never changed:

  --reopen          opens a settled choice again; sign-offs of the parts that it shapes lapse
  --signoff NAME    records a sign-off that parts wait for; --part limits it to one part
  --void NUMBER     takes one row back, as if it had never been written: for slips of the pen. A void settle no longer
                    decides, a void reopen leaves the choice settled, a void sign-off is wanted again, and a void row can be
                    made void itself. Sign-offs given on what is taken back lapse

The list of files that a decision rests on is kept in evidence/, so that board and report can say what came in since.`,
		Example: "  wingproof settle winglet mid --who \"S. I.\" --why \"spar and flights agree\"\n" +
			"  wingproof settle winglet --reopen --who \"S. I.\" --why \"flutter report\"\n" +
			"  wingproof settle flutter_and_mass_balance --signoff --who \"S. I.\" --why \"report 12\"\n" +
			"  wingproof settle --void 2 --who \"S. I.\" --why \"reopened the wrong choice\"",
		Args: func(c *cobra.Command, args []string) error {
			o.voiding = c.Flags().Changed("void")
			return o.checkWords(c, args)
		},
		RunE: func(c *cobra.Command, args []string) error { return runSettle(c.Context(), s, o, args) },
	}
	o.addFlags(c)
	o.addDate(c)
	c.Flags().StringVar(&o.who, "who", "", "who decides (required)")
	c.Flags().StringVar(&o.why, "why", "", "why, in a sentence (required)")
	c.Flags().BoolVar(&o.reopen, "reopen", false, "open a settled choice again")
	c.Flags().BoolVar(&o.signoff, "signoff", false, "record a sign-off instead of a choice")
	c.Flags().IntVar(&o.void, "void", 0, "take back the row of decisions.csv with this number")
	c.Flags().StringVar(&o.part, "part", "", "with --signoff: for this part alone, such as \"winglet, left\"")
	c.Flags().BoolVar(&o.against, "against-evidence", false, "settle on a level that is out or unproven all the same")
	return c
}

// checkWords refuses words and flags that do not go together.
func (o settleOptions) checkWords(c *cobra.Command, args []string) error {
	kinds := 0
	for _, chosen := range []bool{o.reopen, o.signoff, o.voiding} {
		if chosen {
			kinds++
		}
	}
	switch {
	case kinds > 1:
		return usagef("settle: --reopen, --signoff and --void are decisions of their own; record them one after the other")
	case o.part != "" && !o.signoff:
		return usagef("settle: --part goes with --signoff; what shapes a part stands in parts.csv")
	case o.against && kinds > 0:
		return usagef("settle: --against-evidence goes with a choice and a level")
	case o.voiding:
		return exactly(0, "no word beside --void NUMBER")(c, args)
	case kinds == 1:
		return exactly(1, "one word: the choice to reopen, or the name to sign off")(c, args)
	}
	return exactly(2, "two words: a choice and a level")(c, args)
}

// settleDocument is what settle --json prints: the row as it was written.
type settleDocument struct {
	Number         int    `json:"number"`
	Event          string `json:"event"`
	Date           string `json:"date"`
	Choice         string `json:"choice"`
	Level          string `json:"level"`
	Who            string `json:"who"`
	Why            string `json:"why"`
	InputsSHA256   string `json:"inputs_sha256"`
	PreviousSHA256 string `json:"previous_sha256"`
}

func runSettle(ctx context.Context, s streams, o settleOptions, args []string) error {
	if strings.TrimSpace(o.who) == "" || strings.TrimSpace(o.why) == "" {
		return usagef("settle: a decision needs a name and a reason; add --who \"name\" --why \"reason\"")
	}
	if o.voiding {
		return o.takeBack(s)
	}
	return untilRecorded(func() error { return o.decide(ctx, s, args) })
}

// decide judges the folder and records the decision on it.
func (o settleOptions) decide(ctx context.Context, s streams, args []string) error {
	inputs, st, err := o.judgedOn(ctx, s)
	if err != nil {
		return err
	}
	d, err := o.decision(st, args)
	if err != nil {
		return err
	}
	basis := basisOf(st.Program, inputs)
	basis.Sheets = nil
	if d, err = program.SettleOn(st.Program.Dir, d, basis); err != nil {
		return err
	}
	if o.json {
		return printJSON(s.Out, settleDocument(d))
	}
	what := strings.TrimSpace(d.Choice + " " + d.Level)
	fmt.Fprintf(s.Out, "decisions.csv, row %d: %s %s, %s, %s\n", d.Number, d.Event, what, d.Who, d.Date)
	return nil
}

// decision checks the words against the program and the verdict.
func (o settleOptions) decision(st *study.Study, args []string) (program.Decision, error) {
	d := program.Decision{Event: "settle", Date: st.Verdict.Date, Choice: args[0], Who: o.who, Why: o.why}
	if d.Date == "" {
		return d, usagef("settle: nothing in the folder carries a date yet; add --date with the day of the decision, such as 2026-03-14")
	}
	if o.signoff {
		d.Event = "signoff"
		if err := knownSignoff(st, args[0]); err != nil {
			return d, err
		}
		var err error
		d.Level, err = o.signedPart(st)
		return d, err
	}
	choice, err := choiceNamed(st.Verdict.Choices, args[0])
	if err != nil {
		return d, err
	}
	d.Choice = choice.Choice
	if o.reopen {
		d.Event = "reopen"
		if choice.State != decide.Settled {
			return d, usagef("settle: %s is not settled, so there is nothing to reopen", d.Choice)
		}
		return d, nil
	}
	level, err := levelNamed(st.Verdict.Levels, d.Choice, args[1])
	if err != nil {
		return d, err
	}
	d.Level = level.Level
	if choice.State == decide.Settled {
		return d, usagef("settle: %s is settled on %s already; 'wingproof settle %s --reopen' first", d.Choice, choice.Level, report.Typed(d.Choice))
	}
	if with := provenWith(st.Verdict, d.Choice, d.Level); level.State == decide.Unproven && with != "" && !o.against {
		d.Why = "proven together with " + with + ": " + d.Why
		return d, nil
	}
	if level.State != decide.Good && !o.against {
		return d, usagef("settle: %s=%s is %s: %s; add --against-evidence to settle on it all the same (the board will repeat it)",
			d.Choice, d.Level, level.State, level.Why)
	}
	if level.State != decide.Good {
		d.Why = "against the evidence (" + level.State + "): " + d.Why
	}
	return d, nil
}

// provenWith names the other sizes with which an unproven one passes every limit, in the first combination still possible that
// does; empty when none does.
func provenWith(v decide.Verdict, choice, level string) string {
	for _, c := range v.Configurations {
		if !c.Live || c.State != decide.Good || c.Levels[choice] != level {
			continue
		}
		var others []string
		for _, other := range v.Choices {
			if other.Choice != choice && other.State != decide.Settled {
				others = append(others, other.Choice+" "+c.Levels[other.Choice])
			}
		}
		return strings.Join(others, " and ")
	}
	return ""
}

// usualSignoff is the sign-off that winglets, foreplanes and control surfaces wait for unless told otherwise.
const usualSignoff = "flutter_and_mass_balance"

// knownSignoff refuses a name that no part waits for: a row is never changed, so a slip of the pen would stay.
func knownSignoff(st *study.Study, name string) error {
	names := []string{usualSignoff}
	for _, part := range st.Program.Parts {
		for _, item := range part.MustPass {
			asked, ok := strings.CutPrefix(item, "signoff:")
			if asked = strings.TrimSpace(asked); ok && !slices.Contains(names, asked) {
				names = append(names, asked)
			}
		}
	}
	plain := strings.NewReplacer("-", "_", " ", "_")
	for _, asked := range names {
		if strings.EqualFold(plain.Replace(asked), plain.Replace(strings.TrimSpace(name))) {
			return nil
		}
	}
	return usagef("settle: no part waits for the sign-off %q; there is %s", name, strings.Join(names, ", "))
}

// signedPart is the one part that a sign-off is for, as the board calls it; empty without --part.
func (o settleOptions) signedPart(st *study.Study) (string, error) {
	if strings.TrimSpace(o.part) == "" {
		return "", nil
	}
	var names []string
	for _, row := range st.Verdict.Board {
		for _, name := range []string{row.Part, report.PartWords(row)} {
			if sameName(name, o.part) {
				return name, nil
			}
		}
		if name := report.PartWords(row); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return "", usagef("settle: no part %q in parts.csv; it lists %s", o.part, strings.Join(names, "; "))
}
