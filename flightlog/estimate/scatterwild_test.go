package estimate

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// wildProgramme is one configuration of eight flights at two CGs, and two others to pool with.
func wildProgramme(seed uint64) programme {
	return flyProgramme(rand.New(rand.NewPCG(seed, 5)), canard(), 3, 8, 8, []float64{2.30, 2.40}, Systematics{}, 0.2)
}

// spoil changes everything that one flight reported: lift, as a wrong weighing or a leaking tube does, and the surfaces.
func (p *programme) spoil(flight string) {
	for i := range p.points[0] {
		if q := &p.points[0][i]; q.Flight == flight {
			q.Elevator += 0.35 * q.Lift
			q.Alpha += 0.25*q.Lift + 0.1
			q.Drag += 0.1 * q.Lift
		}
	}
	for i := range p.loads[0] {
		if q := &p.loads[0][i]; q.Flight == flight {
			q.Elevator += 0.35 * q.Lift
		}
	}
	for i := range p.slips[0] {
		if q := &p.slips[0][i]; q.Flight == flight {
			q.Rudder *= 3
		}
	}
	for i := range p.stalls[0] {
		if q := &p.stalls[0][i]; q.Flight == flight {
			q.Lift, q.Alpha = 1.6*q.Lift, q.Alpha+0.4
		}
	}
}

// results fits the first configuration; names of what is asked stand in the results.
func (p programme) results(s Systematics, flight string) []Result {
	points := p.points[0]
	np, _ := NeutralPoint(points, s, p.scatter)
	slope, zero := TrimmedLiftCurve(points, 2.35, s, p.scatter)
	cd0, _, _ := DragPolar(points, s, p.scatter)
	mp, _ := ManoeuvrePoint(p.loads[0], points, s, p.scatter)
	tops, angles := MaximumLifts(p.stalls[0], s, p.scatter)
	at := slices.IndexFunc(tops, func(r Result) bool { return slices.Contains(r.Flights, flight) })
	top, angle := tops[at], angles[at]
	return []Result{np, ElevatorPower(points, 1, s, p.scatter), mp, slope, zero, LiftCurveSlope(points, s, p.scatter), cd0, top, angle,
		SideslipSlopes(p.slips[0], s, p.scatter).Rudder}
}

func TestWildFlightIsPlayedDownAndNamed(t *testing.T) {
	for _, pooled := range []bool{true, false} {
		clean, spoilt := wildProgramme(3), wildProgramme(3)
		spoilt.spoil("F03")
		if pooled {
			clean.pool()
			spoilt.pool()
		}
		before, after := clean.results(Systematics{}, "F03"), spoilt.results(Systematics{}, "F03")
		for i, r := range after {
			if !pooled && (r.Quantity == "max_lift_coefficient" || r.Quantity == "stall_alpha") {
				require.Greater(t, *r.SDOwn, 2**before[i].SDOwn, "%s: three flights at one CG cannot tell which of them is off", r.Quantity)
				continue
			}
			words := strings.Join(r.Warnings, "\n")
			require.Contains(t, words, "flight F03", "%s, pooled %v", r.Quantity, pooled)
			require.Contains(t, words, "standard deviations", r.Quantity)
			require.Contains(t, r.Flights, "F03", "listed, not dropped")
			require.Equal(t, before[i].Points, r.Points, "%s: nothing is dropped", r.Quantity)
			require.NotContains(t, strings.Join(before[i].Warnings, "\n"), "flight F03", before[i].Quantity)
			require.InDelta(t, *before[i].Value, *r.Value, 3**r.SDOwn, "%s: what was spoilt hardly moves it", r.Quantity)
			require.Less(t, *r.SDOwn, 2.5**before[i].SDOwn, "%s: nor does it widen it much", r.Quantity)
		}
	}
}

func TestWildPointIsPlayedDownAndNamed(t *testing.T) {
	p := wildProgramme(4)
	p.points[0][2].Elevator += 0.15
	p.points[0][9].Alpha += 0.15
	p.points[0][17].Drag += 0.05
	p.loads[0][4].Elevator += 0.2
	p.slips[0][5].Rudder += 0.3
	p.stalls[0] = append(p.stalls[0], p.stalls[0][0], p.stalls[0][0]) // three or more in one flight, or nothing tells which is off
	p.stalls[0][len(p.stalls[0])-1].Lift *= 1.5
	p.stalls[0][len(p.stalls[0])-1].Alpha += 0.2
	want := map[string]string{
		"neutral_point": p.points[0][2].Flight, "elevator_power": p.points[0][2].Flight, "trimmed_lift_curve_slope": p.points[0][9].Flight,
		"zero_lift_alpha": p.points[0][9].Flight, "lift_curve_slope": p.points[0][9].Flight, "zero_lift_drag": p.points[0][17].Flight,
		"manoeuvre_point": p.loads[0][4].Flight, "rudder_per_sideslip": p.slips[0][5].Flight, "max_lift_coefficient": p.stalls[0][0].Flight,
		"stall_alpha": p.stalls[0][0].Flight,
	}
	for _, r := range p.results(Systematics{}, p.stalls[0][0].Flight) {
		require.Contains(t, strings.Join(r.Warnings, "\n"), "flight "+want[r.Quantity]+": the ", r.Quantity)
	}
}

// Two flights at one CG that disagree cannot tell which of them is wrong: both are named.
func TestTwoFlightsThatDisagreeAreBothNamed(t *testing.T) {
	numbers := []number{{flight: "A", cg: 2.3, value: 1}, {flight: "B", cg: 2.3, value: 9}, {flight: "C", cg: 2.4, value: 2}}
	out, few := playDownUnder(numbers, component{between: 0.1, factor: 1, degrees: 20})
	require.True(t, few)
	require.Less(t, out[0].weight(), 1.0)
	require.InDelta(t, out[0].weight(), out[1].weight(), 1e-12)
	require.InDelta(t, 1.0, out[2].weight(), 0)
}

// When most flights lie far, it is the yardstick that is wrong.
func TestManyWildFlightsAreScatter(t *testing.T) {
	numbers := []number{{cg: 2, value: 1}, {cg: 2, value: 9}, {cg: 2, value: -20}, {cg: 2, value: 40}, {cg: 2, value: -70}}
	out, few := playDownUnder(numbers, component{between: 0.001, factor: 1, degrees: 20})
	require.False(t, few)
	for _, n := range out {
		require.InDelta(t, 1.0, n.weight(), 0)
	}
}

// Sound points and flights are hardly ever played down: one in two thousand points by design, whatever their number.
func TestSoundFlightsAreNotPlayedDown(t *testing.T) {
	random := rand.New(rand.NewPCG(8, 8))
	points, named, flights, wild := 0, 0, 0, 0
	for range 150 {
		p := flyProgramme(random, canard(), 3, 3, 6, []float64{2.30, 2.40}, usualErrors(), 0.2)
		p.pool()
		np, _ := NeutralPoint(p.points[0], usualErrors(), p.scatter)
		points, flights = points+np.Points, flights+len(np.Flights)
		for _, w := range np.Warnings {
			if strings.Contains(w, "robust standard deviations off") {
				named++
			}
			if strings.Contains(w, "from what the other flights say") {
				wild++
			}
		}
	}
	t.Logf("%d of %d points, %d of %d flights", named, points, wild, flights)
	require.Less(t, float64(named), 0.002*float64(points))
	require.Less(t, float64(wild), 0.005*float64(flights))
}
