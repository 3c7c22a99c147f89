package identify

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero"
	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// rehearsed is one flight to make segments from.
type rehearsed struct {
	aircraft rehearse.Aircraft
	log      rehearse.Log
	name     string
}

// inputCards are doublets and multisteps of one control after a climb, at three speeds.
func inputCards(ac rehearse.Aircraft, control string, size float64) []rehearse.Card {
	stall := ac.StallSpeed(atmosphere.SeaLevelDensity)
	cards := []rehearse.Card{{Kind: rehearse.Climb, Speed: 1.55 * stall, Duration: 24}}
	for _, k := range []float64{1.5, 1.7} {
		cards = append(cards,
			rehearse.Card{Kind: rehearse.Doublet, Speed: k * stall, Duration: 9, Control: control, Size: size, Width: 0.5},
			rehearse.Card{Kind: rehearse.Multistep, Speed: k * stall, Duration: 10, Control: control, Size: size, Width: 0.3})
	}
	return cards
}

// flown flies cards.
func flownCards(t testing.TB, ac rehearse.Aircraft, cards []rehearse.Card, w rehearse.Weather, ins rehearse.Instruments, seed uint64) rehearsed {
	t.Helper()
	log, err := rehearse.Fly(ac, cards, w, ins, rand.New(rand.NewPCG(seed, 5)))
	require.NoError(t, err)
	return rehearsed{aircraft: ac, log: log, name: fmt.Sprintf("F%02d", seed)}
}

// segments cuts the inputs out of a flight: from two seconds before the first movement to three after the last. Angle of attack and
// sideslip are the true ones, rates and forces as recorded.
func (f rehearsed) segments() []Segment {
	var out []Segment
	for _, s := range f.log.Stretches {
		if s.Card.Kind != rehearse.Doublet && s.Card.Kind != rehearse.Multistep {
			continue
		}
		out = append(out, f.segment(s.Card, s.From-2, s.To))
	}
	return out
}

func (f rehearsed) segment(card rehearse.Card, from, to float64) Segment {
	l := f.log
	var first, end int
	for first < len(l.Time)-1 && l.Time[first] < from {
		first++
	}
	for end = first; end < len(l.Time) && l.Time[end] < to; end++ {
	}
	cut := func(v []float64) []float64 { return append([]float64(nil), v[first:end]...) }
	named := func(q flightlog.Quantity) []float64 { return cut(column(l, string(q))) }
	control := map[string]flightlog.Quantity{"elevator": flightlog.Elevator, "aileron": flightlog.Aileron, "rudder": flightlog.RudderLeft}[card.Control]
	air, _ := atmosphere.Standard(l.Truth.Height[first])
	ratio := f.aircraft.LengthRatio
	return Segment{
		Flight: f.name, Kind: string(card.Kind), Control: control, Power: "level", Start: l.Time[first], Step: l.Time[1] - l.Time[0],
		RollRate: named(flightlog.RollRate), PitchRate: named(flightlog.PitchRate), YawRate: named(flightlog.YawRate),
		ForwardForce: named(flightlog.ForwardAcceleration), RightForce: named(flightlog.RightAcceleration), DownForce: named(flightlog.DownAcceleration),
		Roll: named(flightlog.RollAngle), Pitch: named(flightlog.PitchAngle),
		Airspeed: cut(l.Truth.Airspeed), Alpha: cut(l.Truth.Alpha), Beta: cut(l.Truth.Beta),
		Elevator: named(flightlog.Elevator), Aileron: named(flightlog.Aileron), Rudder: named(flightlog.RudderLeft),
		Density: air.Density, Body: f.aircraft.Body, CGX: f.aircraft.CGX * ratio, CGZ: f.aircraft.CGZ * ratio,
	}
}

// setupOf is what somebody who knows the aircraft would give, moments about its CG.
func setupOf(ac rehearse.Aircraft) Setup {
	ref, k := ac.Derivatives.Reference, ac.LengthRatio
	servo := Servo{Delay: ac.Servo.Delay, Lag: ac.Servo.Lag, Rate: ac.Servo.Rate}
	return Setup{
		Reference: aero.Reference{Area: ref.Area * k * k, Span: ref.Span * k, MeanChord: ref.MeanChord * k, MeanChordLeadingEdge: ref.MeanChordLeadingEdge * k},
		MomentX:   ac.CGX * k, MomentZ: ac.CGZ * k,
		Servos: map[flightlog.Quantity]Servo{flightlog.Elevator: servo, flightlog.Aileron: servo, flightlog.RudderLeft: servo},
	}
}

// truths are the derivatives of an aircraft about setup's moment point, by name.
func truths(ac rehearse.Aircraft, setup Setup) map[string]float64 {
	d := stability.Moved(ac.Derivatives, setup.MomentX/ac.LengthRatio, setup.MomentZ/ac.LengthRatio)
	e, a, r := d.ByControl["elevator"], d.ByControl["aileron"], d.ByControl["rudder"]
	return map[string]float64{
		LiftCurveSlope: d.ByAlpha.Lift, LiftByPitchRate: d.ByPitchRate.Lift, ElevatorLift: e.Lift,
		PitchStiffness: d.ByAlpha.Pitch, PitchDamping: d.ByPitchRate.Pitch, ElevatorPower: e.Pitch,
		SideForceSlope: d.ByBeta.Side, SideForceByRollRate: d.ByRollRate.Side, SideForceByYawRate: d.ByYawRate.Side, SideForceByAileron: a.Side, SideForceByRudder: r.Side,
		DihedralEffect: d.ByBeta.Roll, RollDamping: d.ByRollRate.Roll, RollDueToYaw: d.ByYawRate.Roll, AileronPower: a.Roll, RollByRudder: r.Roll,
		DirectionalStiff: d.ByBeta.Yaw, YawDueToRoll: d.ByRollRate.Yaw, YawDamping: d.ByYawRate.Yaw, YawByAileron: a.Yaw, RudderPower: r.Yaw,
	}
}

// tally counts how far estimates lie from the truth over many seeds.
type tally struct {
	value, sd, truth []float64
}

func (c *tally) add(value, sd, truth float64) {
	c.value, c.sd, c.truth = append(c.value, value), append(c.sd, sd), append(c.truth, truth)
}

// figures are mean and sd of (value − truth)/sd, share within 1.96 sd, mean error, and median sd.
func (c *tally) figures() (mean, sd, covered, bias, width float64) {
	n := float64(len(c.value))
	squares := 0.0
	for i := range c.value {
		z := (c.value[i] - c.truth[i]) / c.sd[i]
		mean += z / n
		squares += z * z / n
		bias += (c.value[i] - c.truth[i]) / n
		width += c.sd[i] / n
		if math.Abs(z) < 1.96 {
			covered += 1 / n
		}
	}
	return mean, math.Sqrt(math.Max(0, squares-mean*mean)), covered, bias, width
}
