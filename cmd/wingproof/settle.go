package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
)

type settleOptions struct {
	folderOptions
	who, why        string
	reopen, signoff bool
	against         bool
}

func newSettleCommand(s streams) *cobra.Command {
	var o settleOptions
	c := &cobra.Command{
		Use:   "settle CHOICE LEVEL",
		Short: "record a decision in decisions.csv, with a name and a reason",
		Long: `settle appends one row to decisions.csv: which choice was settled on which level, by whom, why and on
what evidence. Rows are never changed; --reopen takes a settled choice back with a row of its own, and
--signoff NAME records a sign-off that parts wait for.`,
		Example: "  wingproof settle winglet mid --who \"S. I.\" --why \"spar and flights agree\"\n" +
			"  wingproof settle winglet --reopen --who \"S. I.\" --why \"flutter report\"\n" +
			"  wingproof settle flutter_and_mass_balance --signoff --who \"S. I.\" --why \"report 12\"",
		Args: func(c *cobra.Command, args []string) error {
			if o.reopen && o.signoff {
				return usagef("settle: --reopen and --signoff are two decisions; record them one after the other")
			}
			if o.reopen || o.signoff {
				return exactly(1, "one word: the choice to reopen, or the name to sign off")(c, args)
			}
			return exactly(2, "two words: a choice and a level")(c, args)
		},
		RunE: func(c *cobra.Command, args []string) error { return runSettle(c.Context(), s, o, args) },
	}
	o.addFlags(c)
	o.addDate(c)
	c.Flags().StringVar(&o.who, "who", "", "who decides (required)")
	c.Flags().StringVar(&o.why, "why", "", "why, in a sentence (required)")
	c.Flags().BoolVar(&o.reopen, "reopen", false, "take a settled choice back")
	c.Flags().BoolVar(&o.signoff, "signoff", false, "record a sign-off instead of a choice")
	c.Flags().BoolVar(&o.against, "against-evidence", false, "settle on a level that is out or unproven all the same")
	return c
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
	dir, err := o.folder()
	if err != nil {
		return err
	}
	before, fingerprintErr := program.Fingerprint(dir) // a broken folder is better told by the study
	st, err := o.study(ctx, s, study.Judged)
	if err != nil {
		return err
	}
	d, err := o.decision(st, args)
	if err != nil {
		return err
	}
	if d.InputsSHA256, err = unchangedInputs(dir, before, fingerprintErr); err != nil {
		return err
	}
	d, err = program.Settle(st.Program.Dir, d)
	if err != nil {
		return err
	}
	if o.json {
		return printJSON(s.Out, settleDocument(d))
	}
	what := strings.TrimSpace(d.Choice + " " + d.Level)
	fmt.Fprintf(s.Out, "decisions.csv, row %d: %s %s, %s, %s\n", d.Number, d.Event, what, d.Who, d.Date)
	return nil
}

// unchangedInputs returns the fingerprint of what was judged, or an error when a file changed meanwhile: the record
// must name the evidence that the decision was taken on.
func unchangedInputs(dir, before string, err error) (string, error) {
	if err != nil {
		return "", err
	}
	after, err := program.Fingerprint(dir)
	if err != nil {
		return "", err
	}
	if after != before {
		return "", fmt.Errorf("settle: a file of %s changed while the evidence was judged; nothing was recorded, repeat", dir)
	}
	return after, nil
}

// decision checks the words against the program and the verdict.
func (o settleOptions) decision(st *study.Study, args []string) (program.Decision, error) {
	d := program.Decision{Event: "settle", Date: st.Verdict.Date, Choice: args[0], Who: o.who, Why: o.why}
	if d.Date == "" {
		return d, usagef("settle: nothing in the folder carries a date yet; add --date with the day of the decision, such as 2026-03-14")
	}
	if o.signoff {
		d.Event = "signoff"
		return d, knownSignoff(st, args[0])
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
		return d, usagef("settle: %s is settled on %s already; 'wingproof settle %s --reopen' first", d.Choice, choice.Level, typed(d.Choice))
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

// sameName compares names as the tables do: capitals and the number of blanks do not matter.
func sameName(a, b string) bool {
	plain := func(s string) string { return strings.Join(strings.Fields(s), " ") }
	return strings.EqualFold(plain(a), plain(b))
}

// typed is a name as a command line needs it.
func typed(name string) string {
	if strings.ContainsAny(name, " \t&|;'") {
		return `"` + name + `"`
	}
	return name
}

func choiceNamed(choices []decide.ChoiceVerdict, name string) (decide.ChoiceVerdict, error) {
	var names []string
	for _, c := range choices {
		if sameName(c.Choice, name) {
			return c, nil
		}
		names = append(names, c.Choice)
	}
	return decide.ChoiceVerdict{}, usagef("settle: no choice %q in program.toml; it has %s", name, strings.Join(names, ", "))
}

func levelNamed(levels []decide.LevelVerdict, choice, name string) (decide.LevelVerdict, error) {
	var names []string
	for _, l := range levels {
		if l.Choice != choice {
			continue
		}
		if sameName(l.Level, name) {
			return l, nil
		}
		names = append(names, l.Level)
	}
	return decide.LevelVerdict{}, usagef("settle: choice %q has no level %q; it has %s", choice, name, strings.Join(names, ", "))
}
