package main

import (
	"context"
	"strings"

	"github.com/spf13/cobra"

	"wingproof/flightlog"
)

type lookOptions struct {
	folderOptions
	logger  string
	flight  string
	figure  string
	suggest bool
}

func newLookCommand(s streams) *cobra.Command {
	var o lookOptions
	c := &cobra.Command{
		Use:   "look LOG",
		Short: "one log at the field: what is in it, is it good, or must we fly again?",
		Long: `look reads one log and says what is in it, what is wrong with it and what follows, how the sensors read at rest, which
manoeuvres it holds, and in one sentence at the end whether it is good or must be flown again.

It needs no program folder: then it guesses the logger map from heads, units and numbers, and says how far that
carries. --suggest prints that map, with how sure each line is and why, for program.toml. In a program folder, when
flights.csv names the log or --flight says which flight it is, look uses that flight's logger, mass, CG and marks, and says
which planned cards of cards.csv the log fulfilled and which are still to be flown. --logger alone only lends a map.

Exit status 2 means that the log cannot be read at all. A bad log that can be read is an answer: exit status 0.

What "is" may hold in a logger map: ` + quantityNames() + `.
Signs: roll right, nose up, nose right and climb are positive; accelerations are specific forces forward, right and down
(-9.8 m/s² down at rest); elevator trailing edge down, aileron rolling right, rudders trailing edge left are positive;
throttle 0 is idle, 1 full. Servo pulses need the angles that the bench test gave:
calibration = [[1000, -20], [1500, 0], [2000, 20]], pulse and angle, and unit = "deg". delay_s says how much later than its
instant a channel is written, sensors = { inertial = { x_mm = 900, y_mm = 0, z_mm = 40 } } where a sensor sits (also tube,
vanes, antenna): model size from the model's datum, x aft, y right, z up.`,
		Example: "  wingproof look monday.csv\n  wingproof look monday.csv --suggest\n  wingproof look logs/F01.csv --figure F01.png\n  wingproof look monday.csv --flight F03",
		Args:    exactly(1, "one word: the log to look at"),
		RunE:    func(c *cobra.Command, args []string) error { return runLook(c.Context(), s, o, args[0]) },
	}
	o.addFlags(c)
	c.Flags().StringVar(&o.logger, "logger", "", "`NAME` of the logger in program.toml to read with")
	c.Flags().StringVar(&o.flight, "flight", "", "`NAME` of the flight in flights.csv that this log is of")
	c.Flags().StringVar(&o.figure, "figure", "", "draw the log as a strip chart to this `FILE`, .svg or .png")
	c.Flags().BoolVar(&o.suggest, "suggest", false, "draft a logger map for program.toml and say how sure each line is")
	return c
}

// quantityNames lists the quantities of a logger map over lines of help text.
func quantityNames() string {
	var b strings.Builder
	width := len(`What "is" may hold in a logger map: `)
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

func runLook(ctx context.Context, s streams, o lookOptions, path string) error {
	if err := o.check(path); err != nil {
		return err
	}
	if o.suggest {
		return runSuggest(s, o, path)
	}
	from, err := o.source(s, path)
	if err != nil {
		return err
	}
	recording, err := flightlog.ReadFile(path, from.logger)
	if err != nil {
		return from.unreadable(err)
	}
	l := look{lookSource: from, path: path, recording: recording}
	if err := l.reduce(); err != nil {
		return err
	}
	doc, err := l.document(ctx, s)
	if err != nil {
		return err
	}
	if o.figure != "" {
		if err := l.draw(doc, o.figure); err != nil {
			return err
		}
		doc.Figure = o.figure
	}
	if o.json {
		return printJSON(s.Out, doc)
	}
	return printLook(s.Out, doc)
}
