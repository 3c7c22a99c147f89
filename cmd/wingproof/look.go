package main

import (
	"context"
	"fmt"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog"
	"wingproof/flightlog/quality"
	"wingproof/flightlog/reduce"
)

type lookOptions struct {
	folderOptions
	logger  string
	suggest bool
}

func newLookCommand(s streams) *cobra.Command {
	var o lookOptions
	c := &cobra.Command{
		Use:   "look LOG",
		Short: "one log at the field: what is in it, is it good, and how would it be mapped?",
		Long: `look reads one log and lists what is in it and what is wrong with it. With --logger NAME it reads through that map of
program.toml, with --program DIR alone through the folder's only one. Otherwise, or with --suggest, it drafts the
[logger.NAME] part of program.toml from heads, units and values and says how sure it is of each line; copy the draft
into program.toml and correct it.

What "is" may hold: ` + quantityNames() + `.
Signs: roll right, nose up, nose right and climb are positive; accelerations are specific forces forward, right and down (-9.8 m/s² down at
rest); elevator trailing edge down, aileron rolling right, rudders trailing edge left are positive; throttle 0 is idle, 1 full.`,
		Example: "  wingproof look monday.csv --suggest\n  wingproof look logs/F01.csv --logger field-box",
		Args:    exactly(1, "one word: the log to look at"),
		RunE:    func(c *cobra.Command, args []string) error { return runLook(c.Context(), s, o, args[0]) },
	}
	o.addFlags(c)
	c.Flags().StringVar(&o.logger, "logger", "", "name of the logger in program.toml to read with")
	c.Flags().BoolVar(&o.suggest, "suggest", false, "draft a logger map")
	return c
}

// quantityNames lists the quantities of a logger map over lines of help text.
func quantityNames() string {
	var b strings.Builder
	width := len(`What "is" may hold: `)
	for i, q := range flightlog.Quantities() {
		switch {
		case i > 0 && width+len(q)+2 > 120:
			b.WriteString(",\n")
			width = 0
		case i > 0:
			b.WriteString(", ")
			width += 2
		}
		b.WriteString(string(q))
		width += len(q)
	}
	return b.String()
}

// lookDocument is what look --json prints.
type lookDocument struct {
	Log      string              `json:"log"`
	Logger   string              `json:"logger"`
	Drafted  bool                `json:"drafted"`
	Draft    string              `json:"draft,omitempty"`
	Channels []lookChannel       `json:"channels"`
	Findings []flightlog.Finding `json:"findings"`
	Verdict  string              `json:"verdict"`
}

type lookChannel struct {
	Quantity string  `json:"quantity"`
	Samples  int     `json:"samples"`
	From     float64 `json:"from_s"`
	To       float64 `json:"to_s"`
	Hertz    float64 `json:"samples_per_second"`
}

func runLook(_ context.Context, s streams, o lookOptions, path string) error {
	if info, err := os.Stat(path); err != nil || info.IsDir() {
		return usagef("look: there is no log %s; write the path of one, such as logs/F01.csv", path)
	}
	m, draft, err := o.mapFor(path)
	if err != nil {
		return err
	}
	doc := lookDocument{Log: path, Logger: m.Name, Drafted: draft != "", Draft: draft, Channels: []lookChannel{}, Findings: []flightlog.Finding{}}
	if err := doc.read(path, m); err != nil {
		return err
	}
	if o.json {
		return printJSON(s.Out, doc)
	}
	printLook(s, doc)
	return nil
}

// read fills in what the log holds. A draft that cannot read it is still shown, with what to correct.
func (doc *lookDocument) read(path string, m flightlog.Map) error {
	if doc.Drafted && m.Time.Column == "" {
		doc.Verdict = "not read: no column shows that it is time; write its head and its unit into time = { column = \"...\", unit = \"s\" } of the draft"
		return nil
	}
	recording, err := flightlog.ReadFile(path, m)
	if err != nil && doc.Drafted && len(flightlog.Mistakes(err)) > 0 {
		doc.Verdict = "not read with this draft: " + err.Error()
		return nil
	}
	if err != nil {
		return usageError{err}
	}
	for _, q := range flightlog.Quantities() {
		if c, ok := recording.Channels[q]; ok && len(c.Time) > 0 {
			doc.Channels = append(doc.Channels, lookChannel{string(q), len(c.Time), c.Time[0], c.Time[len(c.Time)-1], rate(c)})
		}
	}
	doc.Findings = append(doc.Findings, recording.Findings...)
	doc.Findings = append(doc.Findings, quality.Inspect(recording)...)
	doc.Findings = append(doc.Findings, reduce.Lacking(recording)...)
	doc.Verdict = logVerdict(doc.Findings)
	return nil
}

// mapFor returns the logger map to read with, and its draft when it had to be guessed.
func (o lookOptions) mapFor(path string) (flightlog.Map, string, error) {
	if (o.logger != "" || o.dir != "") && !o.suggest {
		m, err := o.folderMap()
		return m, "", err
	}
	f, err := os.Open(path)
	if err != nil {
		return flightlog.Map{}, "", usageError{err}
	}
	defer f.Close()
	sniffed, err := flightlog.Sniff(f, path)
	if err != nil {
		return flightlog.Map{}, "", usageError{err}
	}
	m, guesses := flightlog.SuggestMap(sniffed)
	m.Name = orName(o.logger)
	return m, program.DraftLogger(m, guesses), nil
}

// folderMap finds the logger map that --logger names in the program folder, else its only one.
func (o lookOptions) folderMap() (flightlog.Map, error) {
	p, err := o.folderProgram()
	if err != nil {
		return flightlog.Map{}, err
	}
	var names []string
	for _, l := range p.Loggers {
		if l.Name == o.logger || (o.logger == "" && len(p.Loggers) == 1) {
			return l, nil
		}
		names = append(names, l.Name)
	}
	switch {
	case len(names) == 0:
		return flightlog.Map{}, usagef("look: program.toml has no [logger.NAME] yet; --suggest drafts one")
	case o.logger == "":
		return flightlog.Map{}, usagef("look: program.toml has several loggers; add --logger with one of %s, or --suggest", strings.Join(names, ", "))
	}
	return flightlog.Map{}, usagef("program.toml has no [logger.%s]; it has %s", o.logger, strings.Join(names, ", "))
}

func orName(name string) string {
	if name == "" {
		return "my-logger"
	}
	return name
}

func (o lookOptions) folderProgram() (*program.Program, error) {
	dir, err := o.folder()
	if err != nil {
		return nil, err
	}
	return program.Load(dir)
}

func rate(c flightlog.Channel) float64 {
	if step := c.Step(); step > 0 {
		return 1 / step
	}
	return 0
}

// logVerdict is the one sentence for the crew.
func logVerdict(findings []flightlog.Finding) string {
	losses := 0
	for _, f := range findings {
		switch f.Severity {
		case flightlog.Refusal:
			return "not usable as it stands: " + f.What + "; " + f.Consequence
		case flightlog.Loss:
			losses++
		}
	}
	if losses > 0 {
		return fmt.Sprintf("good, but with %d stretch(es) lost; see the findings above", losses)
	}
	return "good: nothing wrong was found in this log"
}

func printLook(s streams, doc lookDocument) {
	if doc.Drafted {
		fmt.Fprintf(s.Out, "This is a draft of the logger map. Copy it into program.toml and correct what is wrong:\n\n%s\n", doc.Draft)
	}
	fmt.Fprintf(s.Out, "%s, read as logger %s:\n", doc.Log, doc.Logger)
	for _, c := range doc.Channels {
		fmt.Fprintf(s.Out, "  %-22s %7d samples, %6.1f to %6.1f s, %5.1f a second\n", c.Quantity, c.Samples, c.From, c.To, c.Hertz)
	}
	for _, f := range doc.Findings {
		fmt.Fprintf(s.Out, "  %s, %.1f to %.1f s: %s; %s\n", f.Severity, f.Start, f.End, f.What, f.Consequence)
	}
	fmt.Fprintln(s.Out, doc.Verdict)
}
