package rehearse

import (
	"fmt"
	"math"
	"math/rand/v2"

	"wingproof/flightlog"
)

// FaultKind is a way in which real recorders spoil a log.
type FaultKind string

// Faults of a Log, for Spoil. Lengths and sizes are drawn evenly from the ranges stated; all of them are invented, of the
// order that small recorders show.
const (
	Gap           FaultKind = "gap"            // every channel misses 1 to 10 s: the rows are not there
	ChannelGap    FaultKind = "channel gap"    // one channel is blank for 3 to 20 s
	StalledClock  FaultKind = "stalled clock"  // 2 to 20 rows carry one time, then the clock goes on as if nothing had been
	BackwardTime  FaultKind = "backward time"  // the clock steps back by 0.3 to 5 s and goes on from there
	Frozen        FaultKind = "frozen"         // a channel repeats its last value for 4 to 30 s
	Spiked        FaultKind = "spiked"         // 3 to 12 single samples of a channel are far off
	Saturated     FaultKind = "saturated"      // an accelerometer or gyro clips at its range, 1 to 3 % of its samples in flight
	ClippedServo  FaultKind = "clipped servo"  // a command stands at its end stop for 1 to 5 s
	StuckTube     FaultKind = "stuck tube"     // the airspeed stays where it was, to the end of the log
	DrainingTube  FaultKind = "draining tube"  // the airspeed sinks to zero with a time constant of 2 to 8 s
	SealedTube    FaultKind = "sealed tube"    // total pressure is shut in: the airspeed follows static pressure, more when higher
	WrongSign     FaultKind = "wrong sign"     // a channel has the other sign throughout
	WrongUnit     FaultKind = "wrong unit"     // channels of one kind were read in a unit that the log was not written in
	HeavyAircraft FaultKind = "wrong aircraft" // 40 to 80 % heavier than stated; see Heavier, Spoil cannot do it
)

// Fault tells what was done to a log.
type Fault struct {
	Kind       FaultKind
	Channel    flightlog.Quantity   // the spoiled one, or the first of several; empty when all are or none is
	Channels   []flightlog.Quantity // all spoiled ones, when not every one is
	Start, End float64              // s, by the clock of the log before it was spoiled; zero of Heavier, which has no log
	Times      []float64            // s, of each single sample spoiled; only for spikes and clipped samples
	Text       string               // one line
}

// FaultKinds lists what Spoil does, in the order of the constants.
func FaultKinds() []FaultKind {
	return []FaultKind{Gap, ChannelGap, StalledClock, BackwardTime, Frozen, Spiked, Saturated, ClippedServo,
		StuckTube, DrainingTube, SealedTube, WrongSign, WrongUnit}
}

// Spoil gives a log with one fault of a kind, at a random place in flight. The log given stays as it is, and so does
// everything in the new one that the fault does not touch.
//
// A log with a stalled or backward clock should go through WriteCSV and a reader: Recording promises times that rise.
// It returns an error for a kind that is not one of FaultKinds, and for a log with less than a minute of flight.
func Spoil(l Log, kind FaultKind, rng *rand.Rand) (Log, Fault, error) {
	s, err := newSpoiler(l, rng)
	if err != nil {
		return Log{}, Fault{}, err
	}
	s.fault.Kind = kind
	switch kind {
	case Gap:
		s.gap()
	case ChannelGap:
		s.channelGap()
	case StalledClock:
		s.stallClock()
	case BackwardTime:
		s.stepBack()
	case Frozen:
		s.freeze()
	case Spiked:
		s.spike()
	case Saturated:
		s.saturate()
	case ClippedServo:
		s.clipServo()
	case StuckTube, DrainingTube, SealedTube:
		s.blockTube(kind)
	case WrongSign:
		s.turnSign()
	case WrongUnit:
		s.mistakeUnit()
	default:
		return Log{}, Fault{}, fmt.Errorf("rehearse: no fault %q that a log can have; see FaultKinds", kind)
	}
	return s.log, s.fault, nil
}

// shortestFlight is how much flight a fault needs to find its place, s.
const shortestFlight = 60.0

// slowestLog is how many rows a second a fault of a few samples needs, Hz.
const slowestLog = 5.0

// spoiler works on a copy of a log whose columns are shared until they are written to.
type spoiler struct {
	log      Log
	rng      *rand.Rand
	from, to float64 // s, in flight, clear of both ends
	fault    Fault
}

func newSpoiler(l Log, rng *rand.Rand) (*spoiler, error) {
	if len(l.Columns) < columns || len(l.Time) == 0 {
		return nil, fmt.Errorf("rehearse: the log to spoil holds %d columns and %d rows", len(l.Columns), len(l.Time))
	}
	start := resting + groundRun
	if len(l.Stretches) > 0 {
		start = l.Stretches[0].Start
	}
	end := l.Time[len(l.Time)-1]
	if rate := float64(len(l.Time)-1) / (end - l.Time[0]); !(rate >= slowestLog) {
		return nil, fmt.Errorf("rehearse: %.2g rows a second are too few to spoil; record %g", rate, slowestLog)
	}
	if !(end-start >= shortestFlight) {
		return nil, fmt.Errorf("rehearse: %.0f s of flight are too short to spoil; fly %g s", end-start, shortestFlight)
	}
	l.Columns = append([][]float64(nil), l.Columns...)
	const clear = 5.0
	return &spoiler{log: l, rng: rng, from: start + clear, to: end - clear}, nil
}

// between draws evenly.
func (s *spoiler) between(low, high float64) float64 { return low + (high-low)*s.rng.Float64() }

// stretch draws a length from a range and a place for it in flight.
func (s *spoiler) stretch(shortest, longest float64) (start, end float64) {
	length := s.between(shortest, longest)
	start = s.between(s.from, s.to-length)
	return start, start + length
}

// rows gives the first row at or after a time, and the first after another.
func (s *spoiler) rows(start, end float64) (first, after int) {
	for first < len(s.log.Time) && s.log.Time[first] < start {
		first++
	}
	for after = first; after < len(s.log.Time) && s.log.Time[after] <= end; after++ {
	}
	return first, after
}

// column gives a column to write to.
func (s *spoiler) column(at int) []float64 {
	s.log.Columns[at] = append([]float64(nil), s.log.Columns[at]...)
	return s.log.Columns[at]
}

// says completes the fault.
func (s *spoiler) says(start, end float64, text string, at ...int) {
	s.fault.Start, s.fault.End, s.fault.Text = start, end, text
	names := Quantities()
	for _, i := range at {
		s.fault.Channels = append(s.fault.Channels, names[i])
	}
	if len(at) > 0 {
		s.fault.Channel = names[at[0]]
	}
}

// one draws one of some columns.
func (s *spoiler) one(of ...int) int { return of[s.rng.IntN(len(of))] }

// Heavier gives an aircraft 40 to 80 % heavier than the one given, with its inertias and its thrust: what a log looks like when
// the wrong aircraft, or the wrong ballast, was entered. Fly its own cards: it stalls at a higher speed.
func Heavier(ac Aircraft, rng *rand.Rand) (Aircraft, Fault) {
	factor := 1.4 + 0.4*rng.Float64()
	b := &ac.Body
	b.Mass, b.Ix, b.Iy, b.Iz, b.Ixz = b.Mass*factor, b.Ix*factor, b.Iy*factor, b.Iz*factor, b.Ixz*factor
	ac.Propulsion.Static *= factor
	ac.Propulsion.ZeroThrustSpeed *= math.Sqrt(factor)
	return ac, Fault{Kind: HeavyAircraft, Text: fmt.Sprintf("the aircraft weighs %.0f %% more than stated", 100*(factor-1))}
}
