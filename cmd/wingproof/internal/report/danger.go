package report

import (
	"fmt"
	"io"

	"wingproof/flightlog/reduce"
)

// Danger is a deceleration in which the wing let go before the foreplane.
type Danger struct {
	Flight        string  `json:"flight"`
	Configuration string  `json:"configuration"`
	Time          float64 `json:"time_s"` // of the greatest lift
	Sign          string  `json:"sign"`   // what told it
}

// Dangers lists the decelerations of a flight in which the wing let go first, those that were left out of the fits too.
func Dangers(f reduce.Reduction, configuration string) []Danger {
	var out []Danger
	for _, s := range f.Stalls {
		if s.First == reduce.FirstWing {
			out = append(out, Danger{f.Flight, configuration, s.Time, s.Sign})
		}
	}
	return out
}

// Words tells a danger in one sentence: flight, time, what was seen and what not to do.
func (d Danger) Words() string {
	where := fmt.Sprintf("flight %s at %s s", plain(d.Flight), number(d.Time, 0))
	if d.Flight == "" {
		where = fmt.Sprintf("this log at %s s", number(d.Time, 0))
	}
	if d.Configuration != "" {
		where += " (" + plain(sizesWords(d.Configuration)) + ")"
	}
	sign := ""
	if d.Sign != "" {
		sign = ", " + plain(d.Sign)
	}
	return "DANGER: the wing seems to have let go before the foreplane in " + where + sign + "; do not slow this configuration to the stall again before the cause is known"
}

// TellDangers writes each danger, with a blank line behind them.
func TellDangers(w io.Writer, dangers []Danger, width int) error {
	for _, d := range dangers {
		if err := paragraph(w, d.Words(), width); err != nil {
			return err
		}
	}
	if len(dangers) == 0 {
		return nil
	}
	_, err := fmt.Fprintln(w)
	return err
}
