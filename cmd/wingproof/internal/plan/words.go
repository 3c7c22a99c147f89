package plan

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"wingproof/cmd/wingproof/internal/decide"
)

// cautions head every sheet.
func cautions() []string {
	return []string{
		"A model of this size can kill. Nobody in its path, under it or in the plane of the propeller; crew behind the pilot.",
		"Local flying rules, the airspace and the field's own rules come first. Range check and fail-safe before every flight.",
		"Kill switch: the pilot has it under a finger, has tried it today, and uses it when in doubt.",
		"The observer calls height and airspeed aloud. At a stop limit the observer calls STOP and the pilot breaks off at once: throttle and wings level first.",
		"The pilot may call off any card, and the flight, without giving a reason. This sheet does not say that the model may be flown.",
	}
}

func (c Configuration) called() string {
	if c.Name == "" {
		return "the one configuration"
	}
	return c.Name
}

// ruleWords says which margin stands in the aft limit, and why.
func (c Configuration) ruleWords() string {
	switch {
	case c.Proven():
		return fmt.Sprintf("two standard deviations and %.0f %% of chord ahead of the neutral point; %d flights of this configuration agree", 100*decide.ProvenMargin, len(c.Flights))
	case len(c.Flights) >= 2:
		return fmt.Sprintf("two standard deviations and %.0f %% of chord ahead of the neutral point, since flights and theory do not agree yet", 100*decide.FirstMargin)
	case len(c.Flights) == 1:
		return fmt.Sprintf("two standard deviations and %.0f %% of chord ahead of the neutral point; one flight of this configuration tells its balance so far", 100*decide.FirstMargin)
	}
	return fmt.Sprintf("two standard deviations and %.0f %% of chord ahead of the neutral point; first flights of this configuration", 100*decide.FirstMargin)
}

func (p Problem) cutWords(c Configuration) string {
	limit := p.settable(p.limit(c))
	return fmt.Sprintf("%s: CGs aft of %s (%.3f m full size) are left out, %s", c.called(), modelWords(limit*p.LengthRatio, p.grid()), limit, c.ruleWords())
}

func (p Problem) airspeedWords() string {
	if !p.Airspeed.Known {
		return "The crew's display is taken to show calibrated airspeed: no flight tells its scale yet."
	}
	return fmt.Sprintf("With logger %s the display shows %+.1f %% against calibrated airspeed, as its flights tell.", p.Airspeed.Logger, 100*p.Airspeed.Scale)
}

// elevatorWords is the rule by which a card is stopped.
func (p Problem) elevatorWords() string {
	const rule = "stop when the elevator is within 3 degrees of its stop"
	if p.ElevatorTravel == nil {
		return rule
	}
	t := p.ElevatorTravel
	return fmt.Sprintf("%s (beyond %s or %s)", rule, signedDegrees(t.Most-stopShort), signedDegrees(t.Least+stopShort))
}

// signedDegrees writes an angle [rad] with its sign, the true minus.
func signedDegrees(x float64) string {
	return strings.Replace(fmt.Sprintf("%+.0f°", x/degree), "-", "−", 1)
}

func speedWords(v float64) string { return fmt.Sprintf("%.1f m/s", v) }

// modelWords is a station of the model in millimetres.
func modelWords(x, grid float64) string {
	decimals := 0
	if grid < 1e-3 {
		decimals = 1
	}
	return strconv.FormatFloat(1000*x+math.Copysign(1e-9, x), 'f', decimals, 64) + " mm"
}

func plural(n int, what string) string {
	if n == 1 {
		return "one " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
