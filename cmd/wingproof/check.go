package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"wingproof/aero"
	"wingproof/aero/lattice"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/plots"
)

// checkOptions are the flags of check.
type checkOptions struct {
	folderOptions
	figures string
}

func newCheckCommand(s streams) *cobra.Command {
	var o checkOptions
	c := &cobra.Command{
		Use:   "check",
		Short: "is everything readable, what is missing for which command, and how does the geometry look?",
		Long: `check reads program.toml, every table and the beginning of every log, names every mistake with its place, says what is
missing for which command, and draws three views to report/check.html, the baseline with the panels of its lattice and each
choice's levels over it: wrong geometry is easier seen than read. --figures writes the same drawings as files of their own.`,
		Example: "  wingproof check\n  wingproof check --figures report/views\n  wingproof check --program ../sandreed",
		Args:    noArguments,
		RunE:    func(c *cobra.Command, _ []string) error { return runCheck(c.Context(), s, o) },
	}
	o.addFlags(c)
	c.Flags().StringVar(&o.figures, "figures", "", "write the three views as files to this `FOLDER` too")
	return c
}

// checkDocument is what check --json prints.
type checkDocument struct {
	Program        string   `json:"program"`
	Configurations []string `json:"configurations"`
	Flights        int      `json:"flights"`
	Parts          int      `json:"parts"`
	Cards          int      `json:"cards"`
	AreaM2         float64  `json:"reference_area_m2"`
	SpanM          float64  `json:"reference_span_m"`
	MeanChordM     float64  `json:"mean_aerodynamic_chord_m"`
	LeadingEdgeM   float64  `json:"mean_aerodynamic_chord_leading_edge_x_m"`
	Missing        []string `json:"missing"`
	Warnings       []string `json:"warnings"`
	Logs           []string `json:"logs"` // why flights in use will give nothing
	Page           string   `json:"page"`
}

func runCheck(_ context.Context, s streams, o checkOptions) error {
	p, err := o.read(s)
	if err != nil {
		return err
	}
	doc, airframes, err := checked(p)
	if err != nil {
		return usageError{err}
	}
	refused := doc.addDoubts(airframes)
	views, err := threeViews(p)
	if err != nil {
		return err
	}
	doc.Page = filepath.Join(p.Dir, "report", "check.html")
	if err := report.WriteFigures(doc.Page, p.Name+": geometry", views); err != nil {
		return err
	}
	if o.figures != "" {
		if err := writeViews(o.figures, p.Name, views); err != nil {
			return err
		}
	}
	if refused != nil {
		fmt.Fprintln(s.Err, "the drawing:", doc.Page)
		return usageError{namedConfiguration(refused, doc.Configurations)}
	}
	if o.json {
		return printJSON(s.Out, doc)
	}
	printCheck(s, doc)
	return nil
}

// checked is what the folder itself says, with the airframe of every configuration.
func checked(p *program.Program) (checkDocument, []aero.Airframe, error) {
	baseline, _, err := p.Airframe(p.Configurations()[0])
	if err != nil {
		return checkDocument{}, nil, err
	}
	ref := baseline.Reference
	doc := checkDocument{Program: p.Name, Flights: len(p.Flights), Parts: len(p.Parts), Cards: len(p.Cards), AreaM2: ref.Area, SpanM: ref.Span,
		MeanChordM: ref.MeanChord, LeadingEdgeM: ref.MeanChordLeadingEdge, Missing: append([]string{}, p.Missing...), Warnings: append([]string{}, p.Warnings...)}
	var airframes []aero.Airframe
	for _, levels := range p.Configurations() {
		airframe, warnings, err := p.Airframe(levels)
		if err != nil {
			return doc, nil, err
		}
		airframes = append(airframes, airframe)
		doc.Configurations = append(doc.Configurations, evidence.Name(levels))
		for _, w := range warnings { // most concern every configuration, and are told once
			if !slices.Contains(doc.Warnings, w) {
				doc.Warnings = append(doc.Warnings, w)
			}
		}
	}
	doc.Logs = append([]string{}, logDoubts(p)...)
	return doc, airframes, nil
}

// addDoubts adds what the lattice doubts about the airframes. The error tells which of them it cannot compute.
func (doc *checkDocument) addDoubts(airframes []aero.Airframe) error {
	doubts, refused := lattice.Check(airframes, lattice.Options{})
	for _, list := range doubts {
		for _, w := range list {
			if text := w.String(); !slices.Contains(doc.Warnings, text) {
				doc.Warnings = append(doc.Warnings, text)
			}
		}
	}
	return refused
}

// namedConfiguration names the configuration that cannot be computed.
func namedConfiguration(err error, names []string) error {
	var one *lattice.AirframeError
	if errors.As(err, &one) && one.Index < len(names) {
		return fmt.Errorf("configuration %s: %w", names[one.Index], one.Err)
	}
	return err
}

// writeViews writes three views as files.
func writeViews(dir, name string, views []plots.Figure) error {
	var named []report.NamedFigure
	for _, v := range views {
		named = append(named, report.NamedFigure{Name: v.Title, Figure: v})
	}
	_, err := report.WriteFigureFiles(dir, "check", name+": geometry", named)
	return err
}

func printCheck(s streams, doc checkDocument) {
	readable := "everything is readable"
	if len(doc.Logs) > 0 {
		readable = "program.toml and the tables are readable, but not every flight will count"
	}
	_ = report.Tell(s.Out, doc.Program+": "+readable+".")
	_ = report.Tell(s.Out, fmt.Sprintf("  wing area %.3f m², span %.3f m, mean aerodynamic chord %.3f m from %.3f m aft of datum", doc.AreaM2, doc.SpanM, doc.MeanChordM, doc.LeadingEdgeM))
	if len(doc.Configurations) > 1 {
		_ = report.Tell(s.Out, fmt.Sprintf("  %d configurations: %s", len(doc.Configurations), strings.Join(doc.Configurations, "; ")))
	} else {
		fmt.Fprintln(s.Out, "  no choice is open: there is one configuration")
	}
	fmt.Fprintf(s.Out, "  %s, %s, %s\n", counted(doc.Flights, "flight"), counted(doc.Parts, "part"), counted(doc.Cards, "planned card"))
	for _, line := range doc.Logs {
		_ = report.Tell(s.Out, "  log: "+line)
	}
	for _, line := range doc.Missing {
		_ = report.Tell(s.Out, "  missing: "+line)
	}
	for _, line := range doc.Warnings {
		_ = report.Tell(s.Out, "  look at: "+line)
	}
	fmt.Fprintln(s.Out, "  three views:", doc.Page)
}
