package study

import (
	"cmp"
	"context"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
)

// Timeline is how well what limits judge was known with the first flights alone: from theory by itself to all flights.
type Timeline struct {
	Flights []TimelineFlight // that count, by date, then by name
	Steps   []TimelineStep   // none first, all last
}

// TimelineFlight is one flight that counts.
type TimelineFlight struct {
	Name, Date, Configuration string
}

// TimelineStep is what the first so many flights tell.
type TimelineStep struct {
	Flights int
	Limits  [][]decide.LimitVerdict // by configuration asked for, then by limit and built part
}

const (
	// mostSteps is how many numbers of flights are judged at most: each costs a quarter of a second of processor time.
	mostSteps = 10
	// stepDraws is the number of joint draws of all steps but the last, which is the board's. The ends of a 95 % interval scatter by
	// three hundredths of its width.
	stepDraws = 5000
)

// Timeline judges the limits of configurations with the first flights alone, by date and then by name. The last step is the verdict itself.
//
// What flights say together is pooled anew at each step: airspeed scale, scatter, roads to one number, beliefs. What a flight says by itself
// stands as it is, reductions and derivatives of its manoeuvres; these hold the airspeed scale that all flights tell. So do the predictions,
// about the mean CG of all flights, and which flights count. Of more numbers of flights than mostSteps some are left out.
func (s *Study) Timeline(ctx context.Context, configurations []string) (Timeline, error) {
	in, err := s.timelineInputs(configurations)
	if err != nil {
		return Timeline{}, err
	}
	out := Timeline{Flights: s.timelineFlights()}
	if out.Steps, err = s.keptSteps(ctx, in, len(out.Flights)); err != nil {
		return Timeline{}, err
	}
	last := TimelineStep{Flights: len(out.Flights)}
	for _, levels := range in.Configurations {
		for _, c := range s.Verdict.Configurations {
			if c.Configuration == evidence.Name(levels) {
				last.Limits = append(last.Limits, c.Limits)
			}
		}
	}
	out.Steps = append(out.Steps, last)
	return out, nil
}

// timelineFlights are the flights that count in their order.
func (s *Study) timelineFlights() []TimelineFlight {
	var out []TimelineFlight
	for _, i := range s.byDate() {
		if f := s.Flights[i]; f.Used {
			out = append(out, TimelineFlight{f.Name, f.Date, evidence.Name(f.Levels)})
		}
	}
	return out
}

// byDate is the order of the flights by date, then by name; places in Flights.
func (s *Study) byDate() []int {
	order := make([]int, len(s.Flights))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		f, g := s.Flights[a], s.Flights[b]
		return cmp.Or(strings.Compare(f.Date, g.Date), inOrder(f.Name, g.Name))
	})
	return order
}

// stepsTo are the numbers of flights that are judged below all of them: every one while they are few, then evenly apart but for the first
// flights, which tell most.
func stepsTo(flights int) []int {
	var out []int
	for n := range flights {
		out = append(out, n)
	}
	const firsts = 4
	if len(out) < mostSteps {
		return out
	}
	out = out[:firsts]
	rest := mostSteps - firsts
	for k := 1; k < rest; k++ {
		out = append(out, firsts-1+(flights-firsts+1)*k/rest)
	}
	return out
}

// firstFlights is the study with what the first n flights that count tell together, and nothing of later ones.
func (s *Study) firstFlights(n int) *Study {
	out := *s
	out.keep, out.Airspeeds, out.Fits = nil, nil, nil
	out.Flights = slices.Clone(s.reduced)
	later := map[string]bool{}
	count := 0
	for _, i := range s.byDate() {
		if count == n && n < len(s.timelineFlights()) {
			out.Flights[i].Used, later[s.Flights[i].Name] = false, true
		}
		if s.Flights[i].Used && count < n {
			count++
		}
	}
	out.calibrateAirspeed()
	program := *s.Program
	program.Flights = nil
	for _, f := range s.Program.Flights {
		if !later[f.Name] {
			program.Flights = append(program.Flights, f)
		}
	}
	out.Program = &program
	for i := range out.Flights {
		f := &out.Flights[i]
		f.Used = f.Used && s.Flights[i].Used
		f.Dynamics = s.Flights[i].Dynamics
	}
	out.fitFlown()
	return &out
}

// limitsAfter judges the limits of configurations with the first n flights; draws 0 is as many as the board takes.
func (s *Study) limitsAfter(n, draws int, configurations []map[string]string) ([][]decide.LimitVerdict, error) {
	problem, err := s.firstFlights(n).Problem()
	if err != nil {
		return nil, err
	}
	problem.Draws = draws
	if s.drawn != nil {
		problem = s.drawn.judging.Lend(problem)
	}
	return decide.LimitVerdicts(problem, configurations)
}
