package forecast

import (
	"context"
	"fmt"
	"runtime"
	"slices"
	"strings"
	"sync"

	"golang.org/x/sync/errgroup"

	"wingproof/aero/atmosphere"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog/rehearse"
)

// rehearsal is one draw of everything.
type rehearsal struct {
	study   *study.Study
	program *program.Program // with the planned flights
	seed    uint64
	number  int // of the rehearsal, from 0
	scales  scales
	skies   []study.Flight // that count, for their weather
	offsets map[string]trimOffset
	offset  trimOffset // of configurations that were not flown
	servos  map[string]rehearse.Servo
	shared  shared
}

// Rehearse flies planned flights once and says which intervals to expect behind them. The study must have been judged.
func Rehearse(ctx context.Context, st *study.Study, flights []Planned, seed uint64) (Result, error) {
	return Run(ctx, st, flights, Options{Seed: seed})
}

// Run flies planned flights as many times as asked for, each time with other noise, other weather and, where no flight counts yet, other
// shared errors. The study must have been judged; it is left as it is, and nothing is written.
func Run(ctx context.Context, st *study.Study, flights []Planned, o Options) (Result, error) {
	if len(flights) == 0 {
		return Result{}, &study.InputError{What: "no flight is planned", Right: "name at least one"}
	}
	times := max(o.Times, 1)
	first := rehearsal{study: st, seed: o.Seed, scales: scalesOf(st), skies: usedFlights(st)}
	first.offsets, first.offset = offsets(st)
	sorties, err := first.prepare(flights)
	if err != nil {
		return Result{}, err
	}
	tell := &counter{total: times * (2*len(sorties) + len(st.Flights) + 2), tell: o.Progress}
	c := newComparison(st, sorties)
	for k := range times {
		r := first
		r.number = k
		gave, after, err := r.run(ctx, sorties, tell)
		if err != nil {
			return Result{}, err
		}
		c.add(gave, after)
	}
	out := c.result()
	out.Assumed = append(out.Assumed, first.scales.assumed...)
	out.CGHalf = evidence.Normal95 * first.scales.weighing.CGXSD
	return out, nil
}

// prepare names the flights, makes their cards and recorders ready, and adds their rows to a copy of the program.
func (r *rehearsal) prepare(flights []Planned) ([]sortie, error) {
	p := *r.study.Program
	p.Flights, p.Weighings = slices.Clone(p.Flights), slices.Clone(p.Weighings)
	r.program = &p
	out := make([]sortie, len(flights))
	known := map[string]rates{}
	for i, planned := range flights {
		s, err := r.ready(planned)
		if err != nil {
			return nil, err
		}
		if _, ok := known[s.logger.Name]; !ok {
			known[s.logger.Name] = measuredRates(r.study, s.logger)
		}
		s.name, s.rates = freeName(r.study, fmt.Sprintf("rehearsed %02d", i+1)), known[s.logger.Name]
		w := r.scales.at(s.name, r.study.Date, planned.CG)
		s.row = program.Flight{Name: s.name, Date: r.study.Date, Logger: s.logger.Name, Levels: s.configuration.Levels, Weighing: w.Name,
			Mass: w.Mass, MassSD: w.MassSD, CG: w.CGX, CGSD: w.CGXSD, Use: true}
		p.Flights, p.Weighings = append(p.Flights, s.row), append(p.Weighings, w)
		out[i] = s
	}
	return out, nil
}

// ready looks whether a planned flight can be flown, and makes its cards.
func (r *rehearsal) ready(planned Planned) (s sortie, err error) {
	s.Planned = planned
	if s.configuration, err = configurationOf(r.study, planned.Levels); err != nil {
		return s, err
	}
	if s.logger, s.stated, err = loggerOf(r.study, planned.Logger); err != nil {
		return s, err
	}
	if bound := AftBound(r.study, s.configuration); planned.CG > bound {
		return s, &study.InputError{What: fmt.Sprintf("%s: a CG at %.3f m lies aft of %.3f m, less than 3 %% of the chord ahead of where the neutral point may be", s.configuration.Name, planned.CG, bound),
			Right: "choose a CG further forward"}
	}
	ac, err := r.model(s.configuration, planned.CG, r.scales.cgZ, r.scales.body)
	if err != nil {
		return s, err
	}
	if s.cards, err = cardsFor(planned.Cards, ac.StallSpeed(atmosphere.SeaLevelDensity)); err == nil && len(s.cards) == 0 {
		err = &study.InputError{What: s.configuration.Name + ": a flight without cards", Right: "give it at least one manoeuvre"}
	}
	return s, err
}

// freeName is a name that no flight and no weighing of the program has.
func freeName(st *study.Study, name string) string {
	taken := func(f program.Flight) bool { return strings.EqualFold(f.Name, name) }
	weighed := func(w program.Weighing) bool { return strings.EqualFold(w.Name, name) }
	for slices.ContainsFunc(st.Program.Flights, taken) || slices.ContainsFunc(st.Program.Weighings, weighed) {
		name += "'"
	}
	return name
}

func usedFlights(st *study.Study) []study.Flight {
	return slices.DeleteFunc(slices.Clone(st.Flights), func(f study.Flight) bool { return !f.Used })
}

// run flies all flights, several at a time, and carries the study on with them.
func (r *rehearsal) run(ctx context.Context, sorties []sortie, tell *counter) ([]flown, *study.Study, error) {
	r.shared = r.shares()
	r.servos = r.shared.servos
	gave, failed := make([]flown, len(sorties)), make([]error, len(sorties))
	var group errgroup.Group
	group.SetLimit(runtime.GOMAXPROCS(0))
	for i := range sorties {
		group.Go(func() error {
			gave[i], failed[i] = r.fly(ctx, sorties[i])
			tell.say("flying the model (simulated)")
			return nil
		})
	}
	_ = group.Wait() // every error stands in failed
	for _, err := range failed {
		if err != nil {
			return nil, nil, err
		}
	}
	more := make([]study.Flight, len(gave))
	for i := range gave {
		more[i] = gave[i].Flight
	}
	after, err := r.study.With(ctx, r.program, more, func(_, _ int, what string) { tell.say(what + " (with the rehearsed flights)") })
	return gave, after, err
}

// counter tells progress over all rehearsals; the count never falls.
type counter struct {
	mu          sync.Mutex
	done, total int
	tell        func(done, total int, what string)
}

func (c *counter) say(what string) {
	if c.tell == nil {
		return
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	c.done++
	c.tell(c.done, c.total, what)
}
