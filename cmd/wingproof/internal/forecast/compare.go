package forecast

import (
	"math"
	"slices"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog/estimate"
	"wingproof/flightlog/identify"
	"wingproof/flightlog/statistic"
)

// quantities lists what is compared, in the order of tables. All at model scale.
func quantities() []string {
	return []string{
		evidence.NeutralPoint, evidence.ElevatorTrimRate, evidence.LiftCurveSlope, evidence.TrimmedLiftSlope, evidence.ZeroLiftDrag, "drag_due_to_lift",
		identify.PitchStiffness, identify.PitchDamping, identify.ElevatorPower, identify.ElevatorLift,
		identify.DirectionalStiff, identify.SideForceSlope, identify.DihedralEffect, identify.RollDamping, identify.YawDamping, identify.YawDueToRoll, identify.RollDueToYaw,
		identify.AileronPower, identify.RudderPower,
		estimate.ShortPeriodFrequency, estimate.ShortPeriodDamping, estimate.PhugoidFrequency, estimate.PhugoidDamping,
		estimate.DutchRollFrequency, estimate.DutchRollDamping, estimate.RollTimeConstant, estimate.SpiralRoot,
	}
}

// known finds what a study says of a quantity of a configuration: the first of several roads, which is what all say together; nil when nothing.
func known(st *study.Study, configuration, quantity, origin string) *evidence.Estimate {
	for i := range st.Estimates {
		e := &st.Estimates[i]
		if e.Configuration == configuration && e.Quantity == quantity && e.Origin == origin && e.Scale == evidence.ModelScale {
			return e
		}
	}
	return nil
}

// half is the half-width of the 95 % interval; +Inf when there is none.
func half(e *evidence.Estimate) float64 {
	if e == nil || e.State == evidence.NotDetermined || e.Low == nil || e.High == nil {
		return math.Inf(1)
	}
	return (*e.High - *e.Low) / 2
}

// widths are the half-widths of one number now and in each rehearsal.
type widths struct {
	interval Interval
	now      float64
	after    []float64
	shared   []map[string]float64 // by source, of each rehearsal that determined it
	why      string               // it was not determined in the first that left it so
}

// chance is the probability of one limit of one configuration, now and in each rehearsal.
type chance struct {
	limit       LimitChance
	after, half []float64
}

// comparison gathers rehearsals.
type comparison struct {
	before  *study.Study
	times   int
	flights []Flight
	numbers []*widths
	limits  []*chance
}

func newComparison(st *study.Study, sorties []sortie) *comparison {
	c := &comparison{before: st}
	rehearsed := map[string]bool{}
	for _, s := range sorties {
		c.flights = append(c.flights, Flight{Name: s.name, Configuration: s.configuration.Name, Levels: s.configuration.Levels, CG: s.CG, Logger: s.logger.Name, Cards: len(s.Planned.Cards)})
		rehearsed[s.configuration.Name] = true
	}
	for _, one := range st.Configurations {
		if !rehearsed[one.Name] {
			continue
		}
		for _, origin := range []string{evidence.Measured, evidence.Anchored} {
			for _, q := range quantities() {
				w := &widths{interval: Interval{Mark: Mark, Configuration: one.Name, Levels: one.Levels, Quantity: q, Origin: origin, Scale: evidence.ModelScale, SharedBy: []Shared{}}}
				w.now = half(known(st, one.Name, q, origin))
				c.numbers = append(c.numbers, w)
			}
		}
	}
	for _, one := range st.Verdict.Configurations {
		for _, l := range one.Limits {
			c.limits = append(c.limits, &chance{limit: LimitChance{Mark: Mark, Limit: l.Limit, Quantity: l.Quantity, Unit: l.Unit, Configuration: one.Configuration, Levels: one.Levels,
				Live: one.Live, Rehearsed: rehearsed[one.Configuration], Now: l.Probability, NowHalf: finite(l.Range().Width() / 2)}})
		}
	}
	return c
}

// add takes one rehearsal in.
func (c *comparison) add(gave []flown, after *study.Study) {
	for i, f := range gave {
		mine := &c.flights[i]
		if c.times == 0 {
			mine.Seconds = f.seconds
		}
		// the study may leave a flight out that the reduction let pass
		at := slices.IndexFunc(after.Flights, func(other study.Flight) bool { return other.Name == f.Name })
		if one := after.Flights[at]; one.Used {
			mine.Used++
		} else if mine.Why == "" {
			mine.Why = one.Why
		}
	}
	c.times++
	for _, w := range c.numbers {
		e := known(after, w.interval.Configuration, w.interval.Quantity, w.interval.Origin)
		w.after = append(w.after, half(e))
		if e == nil {
			continue
		}
		w.interval.Unit = e.Unit
		switch {
		case !math.IsInf(half(e), 1):
			w.shared = append(w.shared, e.Common)
		case w.why == "" && len(e.Warnings) > 0:
			w.why = e.Warnings[0]
		}
		if e.State == evidence.Weak {
			w.interval.Weak++
		}
	}
	for _, l := range c.limits {
		if v, ok := verdictOn(after.Verdict, l.limit); ok {
			l.after, l.half = append(l.after, v.Probability), append(l.half, v.Range().Width()/2)
		}
	}
}

func verdictOn(v decide.Verdict, l LimitChance) (decide.LimitVerdict, bool) {
	for _, c := range v.Configurations {
		for _, one := range c.Limits {
			if c.Configuration == l.Configuration && one.Limit == l.Limit {
				return one, true
			}
		}
	}
	return decide.LimitVerdict{}, false
}

// result puts medians in the place of rehearsals. Numbers that nothing determines, neither now nor afterwards, are left out.
func (c *comparison) result() Result {
	out := Result{Mark: Mark, Times: c.times, Flights: c.flights, Intervals: []Interval{}, Missing: []Missing{}, Limits: []LimitChance{}, Assumed: []string{}}
	for _, w := range c.numbers {
		if w.missing() {
			out.Missing = append(out.Missing, Missing{Mark, w.interval.Configuration, w.interval.Quantity, w.why})
		}
		if i, ok := w.result(); ok {
			out.Intervals = append(out.Intervals, i)
		}
	}
	for _, l := range c.limits {
		if len(l.after) == 0 {
			continue
		}
		one := l.limit
		one.After, one.Least, one.Greatest = statistic.Median(l.after), slices.Min(l.after), slices.Max(l.after)
		one.AfterHalf = finite(middle(l.half))
		out.Limits = append(out.Limits, one)
	}
	return out
}

// result of one number. The median counts a rehearsal that left it undetermined as endless.
func (w *widths) result() (Interval, bool) {
	i := w.interval
	i.Now = finite(w.now)
	for _, h := range w.after {
		if !math.IsInf(h, 1) {
			i.Known++
		}
	}
	if i.Now == nil && i.Known == 0 {
		return i, false
	}
	after := middle(w.after)
	i.After, i.Least, i.Greatest = finite(after), finite(slices.Min(w.after)), finite(slices.Max(w.after))
	if i.Now != nil && i.After != nil && after > 0 {
		factor := w.now / after
		i.Factor = &factor
	}
	i.Shared, i.SharedBy = sharedBy(w.shared)
	return i, true
}

// missing tells whether the number is one that flights are flown for, and most rehearsals leave it undetermined.
func (w *widths) missing() bool {
	asked := []string{evidence.NeutralPoint, evidence.LiftCurveSlope, evidence.ZeroLiftDrag, evidence.DirectionalStiffness}
	return w.interval.Origin == evidence.Measured && slices.Contains(asked, w.interval.Quantity) && math.IsInf(middle(w.after), 1)
}

// middle is the median of values that may be endless; of an even number of them the greater of the two in the middle.
func middle(values []float64) float64 {
	sorted := slices.Sorted(slices.Values(values))
	n := len(sorted)
	if n%2 == 0 && !math.IsInf(sorted[n/2], 1) {
		return (sorted[n/2-1] + sorted[n/2]) / 2
	}
	return sorted[n/2]
}

func finite(x float64) *float64 {
	if math.IsInf(x, 0) || math.IsNaN(x) {
		return nil
	}
	return &x
}
