package flightlog

import (
	"fmt"
	"math"

	"wingproof/flightlog/statistic"
	"wingproof/flightlog/unit"
)

// weighed lists the quantities in the order in which the numbers can tell about them: what needs no partner first.
func weighed() []Quantity {
	return []Quantity{StaticPressure, Altitude, ClimbRate, Airspeed, GroundSpeed, GroundTrack, Heading, DownAcceleration, PitchAngle,
		ForwardAcceleration, RollAngle, RollRate, PitchRate, YawRate, RightAcceleration, AngleOfAttack, Throttle, Elevator, Aileron, RudderLeft, RudderRight}
}

// weighNumbers holds every column against what physics gives from the others, and looks for columns without words.
func (d *draft) weighNumbers() {
	if d.grid == nil {
		return
	}
	d.sortAxes()
	d.findUnnamedPitch()
	for _, q := range weighed() {
		if _, there := d.taken[q]; !there {
			d.findUnnamed(q)
		}
		if i, there := d.taken[q]; there && (d.guesses[i].Mapped || d.guesses[i].pulses) {
			d.weigh(q, i)
			d.giveUp(q, i)
		}
	}
	for _, q := range []Quantity{DownAcceleration, GroundTrack, GroundSpeed} { // whose partners may have been found since
		if _, there := d.taken[q]; there {
			continue
		}
		d.findUnnamed(q)
		if i, found := d.taken[q]; found {
			d.weigh(q, i)
		}
	}
	d.weighSpeeds()
}

// weigh lets the numbers speak about one mapped column.
func (d *draft) weigh(q Quantity, i int) {
	g := &d.guesses[i]
	switch q {
	case StaticPressure:
		d.weighPressure(g, i)
	case DownAcceleration:
		d.weighGravity(g, i)
	case Airspeed, GroundSpeed:
		d.weighSpeed(g, q)
	case GroundTrack:
		d.weighTrack(g)
	case RightAcceleration:
		d.weighRight(g, i)
	case Elevator, Aileron, RudderLeft, RudderRight:
		d.weighControl(g, q, i)
	default:
		d.weighRelation(g, d.relationOf(q, d.si(i, q, *g)))
	}
}

// outcome is how a column compares with an expectation.
type outcome struct {
	r, size float64 // correlation; column per expectation
	moved   float64 // spread of the expectation
	n       int
}

func compare(expected, actual []float64) outcome {
	x, y := pairs(expected, actual)
	if len(x) < gridLeast {
		return outcome{}
	}
	o := outcome{r: statistic.Correlation(x, y), moved: spread(x), n: len(x)}
	if o.moved > 0 {
		o.size = o.r * spread(y) / o.moved
	}
	return o
}

// The size of a column may be off by a third before its unit is doubted: delays, noise and mounting do that much; the
// nearest units of a kind lie 10 % apart (ft/s, km/h), most a factor of three.
const (
	sizeTolerance = 1.33
	sameUnit      = 1.15
)

// weighRelation marks a column as confirmed, turns its sign, corrects a unit that nobody wrote, or doubts it.
func (d *draft) weighRelation(g *Guess, r relation) {
	o := compare(r.expected, r.actual)
	if o.n == 0 || o.moved < r.least {
		return
	}
	if math.Abs(o.r) < r.trust {
		if math.Abs(o.r) < 0.3 && o.moved > 4*r.least && r.anchored {
			g.refuted = fmt.Sprintf("its numbers do not go with %s (correlation %.2f)", r.of, o.r)
			g.doubt(g.refuted)
		}
		return
	}
	if size := math.Abs(o.size); !r.signOnly && (size > sizeTolerance || size < 1/sizeTolerance) {
		if !d.otherUnit(g, r.is, size) {
			g.doubt(fmt.Sprintf("its numbers are %.3g times what %s gives: check the unit", size, r.of))
			return
		}
	}
	if o.r > 0 && !r.anchored {
		g.Why += fmt.Sprintf("; it follows %s (correlation %.2f), but both may be turned", r.of, o.r)
		return
	}
	if o.r > 0 {
		g.confirm(o.r, fmt.Sprintf("it follows %s (correlation %.2f)", r.of, o.r))
		return
	}
	if !r.anchored {
		g.seen = doubted
		g.turn(o.r, fmt.Sprintf("it runs against %s (correlation %.2f): one of the two is turned, and this one's sign is changed", r.of, o.r))
		return
	}
	g.turn(o.r, fmt.Sprintf("it runs against %s (correlation %.2f), so the sign is turned", r.of, o.r))
}

// otherUnit takes the unit that makes a column fit, where nobody wrote one.
func (d *draft) otherUnit(g *Guess, q Quantity, size float64) bool {
	if g.written {
		return false
	}
	now, ok := unit.Lookup(g.Unit, q.Dimension())
	if !ok {
		return false
	}
	best, least := "", math.Log(sameUnit)
	for _, name := range unit.Of(q.Dimension()) {
		u, _ := unit.Lookup(name, q.Dimension())
		if miss := math.Abs(math.Log(now.Factor / size / u.Factor)); miss < least {
			best, least = name, miss
		}
	}
	if best == "" {
		return false
	}
	g.Unit = best
	g.Why += "; by its size against the other columns it is in " + best
	return true
}

func (g *Guess) confirm(r float64, why string) {
	if g.seen == silent {
		g.seen, g.r = confirmed, r
	}
	g.Why += "; " + why
}

func (g *Guess) turn(r float64, why string) {
	g.Sign = -g.Sign
	if g.seen == silent {
		g.seen, g.r = reversed, r
	}
	g.Why += "; " + why
}

func (g *Guess) doubt(why string) {
	g.seen = doubted
	g.Why += "; " + why
}

// weighPressure believes a static pressure that lies where the air outside does and changes little.
func (d *draft) weighPressure(g *Guess, i int) {
	p := d.si(i, StaticPressure, *g)
	x, _ := pairs(p, p)
	if len(x) < gridLeast {
		return
	}
	middle := statistic.Median(x)
	if middle > 6e4 && middle < 1.08e5 && spread(x) < 0.03*middle {
		g.confirm(1, fmt.Sprintf("its middle is %.4g hPa, as the air outside has", middle/100))
		return
	}
	g.doubt(fmt.Sprintf("its middle is %.4g hPa, which the air outside has not", middle/100))
}

// weighGravity looks for 9.8 m/s² along the down axis, which an aircraft that does not fall shows in the middle.
func (d *draft) weighGravity(g *Guess, i int) {
	z := d.si(i, DownAcceleration, *g)
	x, _ := pairs(z, z)
	if len(x) < gridLeast {
		return
	}
	defer d.shareForceUnit(g)
	middle := statistic.Median(x)
	if size := math.Abs(middle) / gravity; size > 1.2 || size < 0.8 {
		if !d.otherUnit(g, DownAcceleration, size) {
			g.doubt(fmt.Sprintf("its middle is %.3g m/s², where gravity gives −9.8", middle))
			return
		}
	}
	if middle < 0 {
		g.confirm(1, "gravity reads negative, as it must along the axis that points down")
		return
	}
	g.turn(-1, "gravity reads positive here, and specific force along Z is negative at rest, so the sign is turned; if the logger's axes point up and left, its Y axis is turned too")
}

// shareForceUnit gives the other two accelerations the unit that gravity told, where nobody wrote one.
func (d *draft) shareForceUnit(down *Guess) {
	for _, q := range []Quantity{ForwardAcceleration, RightAcceleration} {
		i, there := d.taken[q]
		if g := &d.guesses[i]; there && g.Mapped && !g.written && g.Unit != down.Unit {
			g.Unit = down.Unit
			g.Why += "; taken in " + g.Unit + " like the axis that holds gravity"
		}
	}
}
