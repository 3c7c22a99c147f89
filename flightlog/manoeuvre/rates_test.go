package manoeuvre_test

import (
	"math"
	"testing"

	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"
)

// thinned keeps one sample of a channel in so many.
func thinned(c flightlog.Channel, every int) flightlog.Channel {
	var out flightlog.Channel
	for i := 0; i < len(c.Time); i += every {
		out.Time, out.Value = append(out.Time, c.Time[i]), append(out.Value, c.Value[i])
	}
	return out
}

// onChange keeps the samples that differ from the last kept one by more than a step.
func onChange(c flightlog.Channel, step float64) flightlog.Channel {
	var out flightlog.Channel
	for i, v := range c.Value {
		if n := len(out.Value); n == 0 || math.Abs(v-out.Value[n-1]) > step {
			out.Time, out.Value = append(out.Time, c.Time[i]), append(out.Value, v)
		}
	}
	return out
}

// The same flights as other loggers would have written them.
func TestOtherLoggers(t *testing.T) {
	count, from := 12, 101
	if testing.Short() {
		count = 3
	}
	logs := flights(t, from, count)
	for _, logger := range []struct {
		name string
		make func(q flightlog.Quantity, c flightlog.Channel) flightlog.Channel
	}{
		{"12 Hz and below", func(q flightlog.Quantity, c flightlog.Channel) flightlog.Channel {
			return thinned(c, max(1, int(math.Round(0.08/c.Step()))))
		}},
		{"controls on change", func(q flightlog.Quantity, c flightlog.Channel) flightlog.Channel {
			switch q {
			case flightlog.Elevator, flightlog.Aileron, flightlog.RudderLeft, flightlog.RudderRight:
				return onChange(c, 0.1*degree)
			case flightlog.Throttle:
				return onChange(c, 0.01)
			}
			return c
		}},
	} {
		t.Run(logger.name, func(t *testing.T) {
			table := newTallies()
			for i, log := range logs {
				rec := log.Recording(logger.name)
				for q, c := range rec.Channels {
					rec.Channels[q] = logger.make(q, c)
				}
				judge(t, uint64(from+i), &log, manoeuvre.Find(&rec), table)
			}
			t.Log(table)
			table.requireAccepted(t)
		})
	}
}
