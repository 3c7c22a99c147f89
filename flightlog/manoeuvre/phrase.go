package manoeuvre

import (
	"fmt"
	"math"
	"strings"

	"wingproof/flightlog"
)

func isRudder(q flightlog.Quantity) bool {
	return q == flightlog.RudderLeft || q == flightlog.RudderRight
}

// spoken is the name of a control in a phrase.
func spoken(q flightlog.Quantity) string {
	if isRudder(q) {
		return "rudder"
	}
	return string(q)
}

// side names the way of a positive or negative angle.
func side(x float64) string {
	if x < 0 {
		return "left"
	}
	return "right"
}

// phrase is the plain text of a manoeuvre.
func (m *Manoeuvre) phrase() string {
	seconds := m.End - m.Start
	switch m.Kind {
	case Doublet, Multistep:
		widths := make([]string, len(m.Widths))
		for i, w := range m.Widths {
			widths[i] = fmt.Sprintf("%.1f", w)
		}
		return fmt.Sprintf("%s %s, %.1f° for %s s, then %.1f s hands off",
			spoken(m.Control), m.Kind, math.Abs(m.Size)/degree, strings.Join(widths, " + "), m.HandsOff)
	case Turn, Circle:
		return fmt.Sprintf("%s to the %s at %.0f° of bank through %.0f°", m.Kind, side(m.Bank), math.Abs(m.Bank)/degree, math.Abs(m.Turned)/degree)
	case Sideslip:
		// trailing edge left is positive and turns the nose to the left
		return fmt.Sprintf("sideslip with %.1f° of %s rudder for %.1f s at %.0f° of bank to the %s",
			math.Abs(m.Size)/degree, side(-m.Size), seconds, math.Abs(m.Bank)/degree, side(m.Bank))
	case PullUp:
		return fmt.Sprintf("pull-up to %.1f times the weight, elevator by %.1f° for %.1f s", m.Load, math.Abs(m.Size)/degree, seconds)
	case Deceleration:
		return fmt.Sprintf("deceleration at %.1f m/s² down to %.1f m/s, %s", m.Slowing, m.Lowest, m.ending())
	case Glide:
		return "glide with the throttle closed" + m.length()
	case Level:
		return "level run" + m.length()
	}
	return string(m.Kind) + m.length()
}

// length tells how long and how fast, as far as airspeed was recorded.
func (m *Manoeuvre) length() string {
	text := fmt.Sprintf(" for %.0f s", m.End-m.Start)
	if m.Airspeed > 0 {
		text += fmt.Sprintf(" at %.1f m/s", m.Airspeed)
	}
	return text
}

// ending tells how a deceleration ended.
func (m *Manoeuvre) ending() string {
	if m.Break == 0 {
		return "no break shows"
	}
	return fmt.Sprintf("the nose falls at %.1f s", m.Break)
}
