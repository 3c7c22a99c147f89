package report

import (
	"fmt"
	"io"
	"math"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/flightlog/reduce"
)

// manoeuvreTable writes the manoeuvres that were found in each flight, below a line of its own; nothing where there is none.
func manoeuvreTable(w io.Writer, flights []reduce.Reduction, width int) error {
	t := textTable{heads: []string{"flight", "time, s", "manoeuvre", "speed, m/s", "what was seen"}, most: []int{14, 13, 12, 10, 0}}
	for _, f := range flights {
		name := plain(f.Flight)
		for _, m := range f.Manoeuvres {
			t.add(name, number(m.Start, 0)+"–"+number(m.End, 0), plain(string(m.Kind)), number(m.Airspeed, 1), plain(m.Detail))
			name = ""
		}
	}
	if len(t.rows) == 0 {
		return nil
	}
	if _, err := fmt.Fprintln(w, "\nmanoeuvres found; speeds are calibrated airspeeds"); err != nil {
		return err
	}
	if err := t.write(w, width); err != nil {
		return err
	}
	_, err := fmt.Fprintln(w)
	return err
}

// AirWords say what wind a flight met and how far its airspeed tube is off, with 95 % intervals.
func AirWords(a reduce.Air) string {
	const degree = 180 / math.Pi
	words := fmt.Sprintf("wind %s m/s from %s° (± %s m/s at 95 %%), gusts %s m/s rms; ", number(a.WindSpeed, 1), number(a.WindFrom*degree, 0), number(evidence.Normal95*a.WindSD, 1), number(a.Gusts, 1))
	if !a.ScaleKnown {
		return words + "airspeed scale not known: " + plain(a.ScaleWhy)
	}
	way := "high"
	if a.AirspeedScale < 0 {
		way = "low"
	}
	return words + fmt.Sprintf("the airspeed tube reads %s %% %s (± %s %% at 95 %%)", number(100*math.Abs(a.AirspeedScale), 1), way, number(100*evidence.Normal95*a.AirspeedScaleSD, 1))
}
