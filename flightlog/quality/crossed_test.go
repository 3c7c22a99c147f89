package quality

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/sync/errgroup"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
	"wingproof/flightlog/statistic"
)

var signFlights = flag.Int("signs", 1, "flights of each aircraft with each sheet in TestControlSigns; 1 leaves out half of the sheets")

// flyer is an aircraft, where its elevator sits, and what its rudder does.
type flyer struct {
	name      string
	aircraft  rehearse.Aircraft
	foreplane bool
}

// flyers are the published aircraft, whose elevators sit at the tail, and the invented one.
func flyers() []flyer {
	var out []flyer
	for _, p := range rehearse.PublishedAircraft() {
		out = append(out, flyer{p.Name, p.Aircraft, false})
	}
	invented := inventedModel()
	invented.Continuous = true
	return append(out, flyer{"invented", invented, true})
}

// sheetsOf are all sheets, those of a programme one by one and all three in one flight.
func sheetsOf(stall float64) [][]rehearse.Card {
	programme := [][]rehearse.Card{rehearse.TrimAndElevatorCards(stall), rehearse.LateralCards(stall), rehearse.SlowAndTurningCards(stall)}
	out := append(rehearse.ManoeuvreCards(stall), rehearse.TrimCards(stall))
	out = append(out, programme...)
	var all []rehearse.Card
	for _, cards := range programme {
		all = append(all, cards...)
	}
	return append(out, all)
}

const (
	lateralSheet = 5
	longSheet    = 7
)

// flownSheet changes the sample rate, gusts of 0.1 to 0.4 m/s, wind and the pilot's hand with the seed. A sloppy pilot may lose the model: then another
// one flies.
func flownSheet(ac rehearse.Aircraft, sheet int, seed uint64) (rehearse.Log, error) {
	rng := stream(seed, 11)
	w := rehearse.DefaultWeather()
	w.WindSpeed, w.WindFrom = 5*rng.Float64(), 2*math.Pi*rng.Float64()
	w.Turbulence = 0.1 + 0.3*rng.Float64()
	ins := rehearse.DrawInstruments(rehearse.DefaultInstruments(), rehearse.DefaultProgrammeErrors(), rng)
	ins.FastRate = [...]float64{25, 50}[rng.IntN(2)]
	ins.AirRate = ins.FastRate
	cards := sheetsOf(ac.StallSpeed(atmosphere.SeaLevelDensity))[sheet]
	if rng.IntN(2) == 0 {
		cards = rehearse.Sloppy(cards, stream(seed, 12))
		for i := range cards { // a bank that a card may hold
			cards[i].Bank = math.Max(-1, math.Min(1, cards[i].Bank))
		}
	}
	l, err := rehearse.Fly(ac, cards, w, ins, stream(seed, 13))
	if errors.Is(err, rehearse.ErrGround) {
		return flownSheet(ac, sheet, seed+1000)
	}
	return l, err
}

// signTally is what one flight says of the signs of the controls.
type signTally struct {
	costly, blamed []string
	shown, found   map[flightlog.Quantity]int
}

func tallySigns(f flyer, l rehearse.Log) signTally {
	t := signTally{shown: map[flightlog.Quantity]int{}, found: map[flightlog.Quantity]int{}}
	a := Aircraft{ForeplaneElevator: f.foreplane}
	clean := ofLog(l)
	for _, x := range InspectIn(clean, a) {
		if x.Severity != flightlog.Note {
			t.costly = append(t.costly, fmt.Sprintf("%s %s: %s", x.Severity, x.Channel, x.What))
		}
	}
	for _, qs := range [][]flightlog.Quantity{{flightlog.Elevator}, {flightlog.Aileron}, {flightlog.RudderLeft, flightlog.RudderRight}} {
		if qs[0] == flightlog.RudderLeft && !usesRudder(l) {
			continue
		}
		rec, _, _ := throughout("turned", -1, 0, qs...).spoil(l, clean, nil)
		t.shown[qs[0]]++
		for _, x := range InspectIn(rec, a) {
			switch {
			case x.Severity == flightlog.Note:
			case x.Channel == qs[0]: // one finding about it at most: what else could be said of a sound channel is a false alarm above
				t.found[qs[0]]++
			case x.Channel != qs[len(qs)-1]:
				t.blamed = append(t.blamed, fmt.Sprintf("turned %s, blamed %s: %s", qs[0], x.Channel, x.What))
			}
		}
	}
	return t
}

// Aircraft that were published fly every sheet, with elevators at the tail, sideslips with crossed controls, exact and sloppy hands: no sign is
// called wrong that is right, and each that is turned is found.
func TestControlSigns(t *testing.T) {
	type job struct {
		by    flyer
		sheet int
		seed  uint64
	}
	var jobs []job
	for k, f := range flyers() {
		for sheet := range sheetsOf(10) {
			usual := sheet == lateralSheet || sheet == longSheet
			if !usual && (testing.Short() || *signFlights == 1 && (sheet+k)%2 == 1) {
				continue
			}
			for n := range *signFlights {
				jobs = append(jobs, job{f, sheet, uint64(5000 + 100*n + 10*k + sheet)})
			}
		}
	}
	tallies := make([]signTally, len(jobs))
	var g errgroup.Group
	g.SetLimit(runtime.NumCPU())
	for i, j := range jobs {
		g.Go(func() error {
			l, err := flownSheet(j.by.aircraft, j.sheet, j.seed)
			if err == nil {
				tallies[i] = tallySigns(j.by, l)
			}
			return err
		})
	}
	require.NoError(t, g.Wait())
	shown, found := map[flightlog.Quantity]int{}, map[flightlog.Quantity]int{}
	for i, j := range jobs {
		where := fmt.Sprintf("%s, sheet %d, seed %d", j.by.name, j.sheet, j.seed)
		require.Empty(t, tallies[i].costly, where)
		require.Empty(t, tallies[i].blamed, where)
		for q, n := range tallies[i].shown {
			shown[q], found[q] = shown[q]+n, found[q]+tallies[i].found[q]
		}
	}
	t.Logf("no false loss or refusal in %d flights", len(jobs))
	for q, n := range shown {
		t.Logf("turned %s found in %d of %d", q, found[q], n)
		require.GreaterOrEqual(t, 100*found[q], 95*n, q)
	}
}

// What is fitted for the rudder is its yawing moment, ½ρV²·S·b·Cn_δr/Iz, less what cells of a tenth of a second and a hand that closes loops smear.
// By the right acceleration instead of sideslip it was a tenth of that on one of them.
func TestRudderEffect(t *testing.T) {
	for _, f := range flyers() {
		l, err := flownSheet(f.aircraft, lateralSheet, 5300)
		require.NoError(t, err)
		e, _ := inspect(ofLog(l))
		got, ok := e.responseOf(reaction{control: flightlog.RudderLeft, rate: flightlog.YawRate, beside: flightlog.Aileron, flow: e.slipping(), coupled: flightlog.RollRate})
		require.True(t, ok)
		v := statistic.Median(e.inFlightOnly(flightlog.Airspeed))
		r, scale := f.aircraft.Derivatives.Reference, f.aircraft.LengthRatio
		want := atmosphere.SeaLevelDensity / 2 * v * v * r.Area * r.Span * scale * scale * scale * f.aircraft.Derivatives.ByControl["rudder"].Yaw / f.aircraft.Body.Iz
		t.Logf("%s: %.1f rad/s² per rad (%.0f standard deviations), moment over inertia %.1f", f.name, got.perRadian, got.sigmas, want)
		require.InEpsilon(t, want, got.perRadian, 0.25, f.name)
	}
}

// Where the attitude was not recorded the bank comes from the roll rate, and the rudder's sign is told all the same. Where a mixer moves aileron and
// rudder as one, the aileron's sign is told and the rudder is let alone.
func TestControlSignsWithLess(t *testing.T) {
	f := flyers()[2] // whose rudder is hardest to tell
	l, err := flownSheet(f.aircraft, longSheet, 5301)
	require.NoError(t, err)
	turned, _, _ := throughout("", -1, 0, flightlog.RudderLeft).spoil(l, ofLog(l), nil)
	require.Empty(t, about(Inspect(without(ofLog(l), flightlog.RollAngle)), flightlog.RudderLeft, flightlog.Loss))
	require.Len(t, about(Inspect(without(turned, flightlog.RollAngle)), flightlog.RudderLeft, flightlog.Loss), 1)
	require.Empty(t, about(Inspect(without(turned, flightlog.RollAngle, flightlog.RollRate)), flightlog.RudderLeft, flightlog.Loss), "nothing tells the bank")
	require.Len(t, about(Inspect(without(turned, flightlog.Aileron)), flightlog.RudderLeft, flightlog.Loss), 1)

	mixed := without(turned)
	mixed.Channels[flightlog.RudderLeft] = mixed.Channels[flightlog.Aileron]
	require.Empty(t, about(Inspect(mixed), flightlog.RudderLeft, flightlog.Loss))
	require.Empty(t, about(Inspect(mixed), flightlog.Aileron, flightlog.Loss))
	mixed, _, _ = throughout("", -1, 0, flightlog.Aileron).spoil(l, mixed, nil)
	require.Len(t, about(Inspect(mixed), flightlog.Aileron, flightlog.Loss), 1)
}
