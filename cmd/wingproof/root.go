package main

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
)

// usageError is a wrong command line, or an input that says something impossible: exit status 2.
type usageError struct{ err error }

func (e usageError) Error() string { return e.err.Error() }
func (e usageError) Unwrap() error { return e.err }

func usagef(format string, args ...any) error { return usageError{fmt.Errorf(format, args...)} }

// run executes one command line and returns its exit status.
func run(ctx context.Context, s streams, args []string) int {
	root := newRootCommand(s)
	root.SetArgs(args)
	err := root.ExecuteContext(ctx)
	if s.line != nil {
		s.line.end()
	}
	if err == nil {
		return 0
	}
	if ctx.Err() != nil && errors.Is(err, context.Canceled) {
		fmt.Fprintln(s.Err, "interrupted: nothing was changed but the cache; run the command again")
		return 1
	}
	fmt.Fprintln(s.Err, placesMarked(s.Err, err))
	var usage usageError
	var mistakes program.Mistakes
	var input *study.InputError
	var refused *program.Refused
	if errors.As(err, &usage) || errors.As(err, &mistakes) || errors.As(err, &input) || errors.As(err, &refused) {
		return 2
	}
	return 1
}

func newRootCommand(s streams) *cobra.Command {
	root := &cobra.Command{
		Use:   "wingproof",
		Short: "which full-size parts may we start, which must wait, and what do the model flights say?",
		Long: `wingproof reads the flights of a radio-controlled scale model of a foreplane aircraft, compares them
with a vortex lattice of its own, carries the result to full size and says which parts may be started.

Exit status: 0 done; 1 could not finish; 2 bad input or usage.

It never says that an aircraft is safe to fly. Local rules and licensed practice come first.`,
		Example:       "  wingproof demo\n  wingproof parts --help",
		SilenceUsage:  true,
		SilenceErrors: true,
		Args:          cobra.ArbitraryArgs,
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) > 0 {
				return usagef("no command %q; 'wingproof --help' lists them", args[0])
			}
			return c.Help()
		},
	}
	root.SetIn(s.In)
	root.SetOut(s.Out)
	root.SetErr(s.Err)
	root.SetFlagErrorFunc(func(c *cobra.Command, err error) error {
		what, _, _ := strings.Cut(err.Error(), " flag: strconv.") // the rest speaks to programmers
		return usagef("%s; '%s --help' lists the flags", what, c.CommandPath())
	})
	root.AddCommand(
		newDemoCommand(s), newNewCommand(s), newCheckCommand(s), newLookCommand(s), newReduceCommand(s), newFitCommand(s),
		newMarginCommand(s), newLatticeCommand(s), newCompareCommand(s), newScaleCommand(s), newWeighCommand(s), newPlanCommand(s), newRehearseCommand(s), newNextCommand(s), newPartsCommand(s), newSettleCommand(s), newReportCommand(s), newServeCommand(s), newCompletionCommand(s), newManCommand(s),
	)
	completeNames(root)
	return root
}

// noArguments refuses stray words with exit status 2.
func noArguments(c *cobra.Command, args []string) error {
	if len(args) > 0 {
		return usagef("%s takes no argument, got %q; '%s --help' shows an example", c.CommandPath(), args[0], c.CommandPath())
	}
	return nil
}

// exactly refuses another number of words than n with exit status 2.
func exactly(n int, names string) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		if len(args) != n {
			return usagef("%s wants %s; '%s --help' shows an example", c.CommandPath(), names, c.CommandPath())
		}
		return nil
	}
}
