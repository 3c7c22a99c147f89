package main

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/program"
)

type newOptions struct {
	answers map[string]*string
	ask     bool
	json    bool
}

func newNewCommand(s streams) *cobra.Command {
	o := newOptions{answers: map[string]*string{}}
	c := &cobra.Command{
		Use:   "new DIR",
		Short: "write a commented program folder of your own that passes check",
		Long: `new writes a program folder: program.toml with comments, the shape of your aircraft as point tables, sample parts and
empty tables to fill in. Give the sizes as flags, or --ask to be asked for each; what you leave out gets a sensible figure
and a comment that says so. A number may carry its unit: --span "28 ft".`,
		Example: "  wingproof new ../mine --ask\n  wingproof new ../mine --span \"8.2 m\" --winglet-height \"0.7; 1.0\" --logs \"monday.csv; tuesday.csv\"",
		Args:    exactly(1, "one word: the folder to make"),
		RunE:    func(c *cobra.Command, args []string) error { return runNew(c.Context(), s, o, args[0]) },
	}
	for _, q := range program.NewQuestions() {
		text := q.Text
		if q.Unit != "" {
			text += " [" + q.Unit + "]"
		}
		o.answers[q.Key] = c.Flags().String(strings.ReplaceAll(q.Key, "_", "-"), "", text+" (default: "+orNone(q.Default)+")")
	}
	c.Flags().BoolVar(&o.ask, "ask", false, "ask for everything that no flag gives; Enter takes the default")
	c.Flags().BoolVar(&o.json, "json", false, "print one JSON document")
	return c
}

func orNone(s string) string {
	if s == "" {
		return "none"
	}
	return s
}

// newDocument is what new --json prints.
type newDocument struct {
	Program string `json:"program"`
	Folder  string `json:"folder"`
}

func runNew(_ context.Context, s streams, o newOptions, dir string) error {
	options, err := o.options(s)
	if err != nil {
		return err
	}
	if err := program.New(dir, options); err != nil {
		return usageError{err}
	}
	p, err := program.Load(dir)
	if err != nil {
		return fmt.Errorf("the folder just written does not pass: %w", err)
	}
	if o.json {
		return printJSON(s.Out, newDocument{p.Name, dir})
	}
	word := dir
	if strings.ContainsAny(dir, " ()&") {
		word = `"` + dir + `"`
	}
	fmt.Fprintf(s.Out, `wrote %[1]s
  1. Geometry: 'wingproof check --program %[2]s' draws it to %[3]s: look at it; shape/*.csv holds the points.
  2. Figures: replace those of program.toml that are marked so, then sign cautions_read.
  3. Model: one row of weighings.csv for each ballast.
  4. Flights: one row of flights.csv for each; 'wingproof look LOG --suggest' drafts the map of a logger for program.toml.
  5. Parts: parts.csv; 'wingproof parts --program %[2]s' prints the board, 'wingproof report --program %[2]s' writes the page.
`, dir, word, filepath.Join(dir, "report", "check.html"))
	return nil
}

// options takes the answers from the flags and, when asked to, from whoever sits at the keyboard.
func (o newOptions) options(s streams) (program.NewOptions, error) {
	var options program.NewOptions
	lines := bufio.NewReader(s.In)
	for _, q := range program.NewQuestions() {
		answer := *o.answers[q.Key]
		if err := options.Set(q.Key, answer); err != nil {
			return options, usagef("--%s: %w", strings.ReplaceAll(q.Key, "_", "-"), err)
		}
		if answer != "" || !o.ask {
			continue
		}
		q, ask := options.Follows(q)
		if !ask {
			continue
		}
		if err := askOne(s, lines, q, &options); err != nil {
			return options, err
		}
	}
	return options, nil
}

// askOne asks until the answer can be used; the end of input takes the default.
func askOne(s streams, lines *bufio.Reader, q program.Question, options *program.NewOptions) error {
	for {
		fmt.Fprintf(s.Err, "%s [%s] ", q.Text, strings.TrimSpace(q.Default+" "+q.Unit))
		line, err := lines.ReadString('\n')
		if err != nil && err != io.EOF {
			return fmt.Errorf("read the answer: %w", err)
		}
		wrong := options.Set(q.Key, strings.TrimSpace(line))
		if wrong == nil {
			return nil
		}
		fmt.Fprintln(s.Err, " ", wrong)
		if err == io.EOF {
			return usageError{wrong}
		}
	}
}
