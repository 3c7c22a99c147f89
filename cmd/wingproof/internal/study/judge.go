package study

import (
	"fmt"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/program"
)

// judge hands predictions and flight evidence to the deciding. The folder's own alarms, such as a broken record of
// decisions, come before those of the verdict.
func (s *Study) judge() error {
	problem, err := s.Problem()
	if err != nil {
		return err
	}
	if s.Verdict, err = s.verdict(problem); err != nil {
		return err
	}
	alarms := append([]string{}, s.Program.Alarms...)
	if held := s.Program.PlaceHolders(); s.Program.CautionsRead == "" {
		alarms = append(alarms, unsigned)
	} else if len(held) > 0 {
		alarms = append(alarms, placeHeld(held))
	}
	s.Verdict.Alarms = append(alarms, s.Verdict.Alarms...)
	return nil
}

// unsigned heads a board that rests on figures which nobody has put a name to, such as those of a new folder.
const unsigned = "nobody has signed program.toml (cautions_read): the figures in it may still be the guesses that a new folder begins with. " +
	"Do not act on this board before somebody has gone through the figures, read the cautions and signed"

// placeHeld heads a board that is signed and still rests on figures of a new folder.
func placeHeld(held []string) string {
	return "these figures of program.toml are still place holders, signed or not: " + strings.Join(held, ", ") +
		". Do not act on this board before they are replaced, each with its source"
}

// InputError is a program folder that asks for what this program cannot compute: bad input, not a failure.
type InputError struct{ What, Right string }

// Error writes finding and remedy as one line.
func (e *InputError) Error() string { return e.What + "; " + e.Right }

// judgeable refuses built parts whose tables lie outboard of what bends: there they would pass for nothing.
func (s *Study) judgeable() error {
	for _, b := range s.Program.Built {
		for _, c := range s.Configurations {
			beam, ok := c.Loads.Beam(b.Surface)
			if !ok || len(b.Y) > 0 && b.Y[0] < beam.Length {
				continue
			}
			from := "the plane of symmetry"
			if beam.Upright {
				from = "its inboard end, along it"
			}
			return &InputError{fmt.Sprintf("program.toml: the table of [built.%s] begins where %q has ended with %s", b.Part, b.Surface, c.Name),
				fmt.Sprintf("count its stations from %s: it ends at %.2f m", from, beam.Length)}
		}
	}
	return nil
}

// Problem gathers everything that a verdict rests on.
func (s *Study) Problem() (decide.Problem, error) {
	if err := s.judgeable(); err != nil {
		return decide.Problem{}, err
	}
	if err := s.slowJudgeable(); err != nil {
		return decide.Problem{}, err
	}
	p, ref := s.Program, s.Configurations[0].Airframe.Reference
	problem := decide.Problem{
		Seed: p.Seed, Date: s.Date, LengthRatio: p.Model.LengthRatio, Choices: decideChoices(p), Errors: TheoryErrors(p, ref.MeanChord),
		TrimSlopes: s.trimEvidence(), Direct: slices.Concat(s.directEvidence(), s.maxLiftEvidence(), s.motionEvidence()),
		Aircraft: decide.Aircraft{
			MeanChord: ref.MeanChord, MeanChordLeadingEdge: ref.MeanChordLeadingEdge,
			EmptyMass: decide.Figure(p.FullSize.EmptyMass), EmptyX: decide.Figure(p.FullSize.EmptyX), EmptyZ: decide.Figure(p.FullSize.EmptyZ),
			Ix: decide.Figure(p.FullSize.Ix), Iy: decide.Figure(p.FullSize.Iy), Iz: decide.Figure(p.FullSize.Iz),
			WingArea: ref.Area, ApproachSpeed: p.FullSize.ApproachSpeed,
			Gear: (*decide.Gear)(p.Gear),
		},
		Decisions: s.Decisions(), WingFirst: s.wingFirst(), Motions: s.motions(),
	}
	for _, c := range s.Configurations {
		prediction := c.prediction()
		s.believeMotions(c, &prediction)
		problem.Predictions = append(problem.Predictions, prediction)
	}
	for _, l := range p.Loadings {
		problem.Aircraft.Loadings = append(problem.Aircraft.Loadings, decideLoading(l))
	}
	for _, l := range p.Limits {
		problem.Limits = append(problem.Limits, decide.Limit(l))
	}
	for _, b := range p.Built {
		problem.Built = append(problem.Built, decideBuilt(b))
	}
	for _, part := range p.Parts {
		problem.Parts = append(problem.Parts, decide.Part(part))
	}
	for _, f := range s.Flights {
		if !f.Used {
			problem.LeftOut = append(problem.LeftOut, decide.LeftOut{Flight: f.Name, Levels: f.Levels, Why: f.Why})
		}
	}
	return problem, nil
}

// Decisions lists the record of decisions as the judging wants it.
func (s *Study) Decisions() []decide.Decision {
	var out []decide.Decision
	for _, d := range s.Program.Decisions {
		out = append(out, decide.Decision{Number: d.Number, Event: d.Event, Date: d.Date, Choice: d.Choice, Level: d.Level, Who: d.Who, Why: d.Why})
	}
	return out
}

func decideLoading(l program.Loading) decide.Loading {
	out := decide.Loading{Name: l.Name, Flies: l.Flies}
	for _, item := range l.Items {
		out.Items = append(out.Items, decide.Item{What: item.What, Mass: item.Mass, X: item.X, Z: item.Z})
	}
	return out
}

// ultimateFactor is what an ultimate allowable carries over a limit one (14 CFR 23.2230, from memory).
const ultimateFactor = 1.5

// decideBuilt turns a part's table into what it carries at limit load.
func decideBuilt(b program.Built) decide.Built {
	factor := b.KnockDown
	if b.Basis == "ultimate" {
		factor /= ultimateFactor
	}
	out := decide.Built{Part: b.Part, Surface: b.Surface, SD: b.SD}
	for i, y := range b.Y {
		out.Allowable = append(out.Allowable, decide.BendingStation{Y: y, Moment: b.Allowable[i] * factor})
	}
	return out
}
