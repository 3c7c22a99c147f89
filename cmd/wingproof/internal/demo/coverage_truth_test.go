package demo

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// demoAircraft is the model that fly flies, with servos that follow as stated.
func demoAircraft(p *program.Program, t configurationTruth, cg float64) rehearse.Aircraft {
	polar := rehearse.Polar{Min: t.ZeroLiftDrag - t.DragDueToLift*dragMinimumLift*dragMinimumLift, Factor: t.DragDueToLift, LiftAtMin: dragMinimumLift}
	ac := rehearse.DefaultAircraft(t.derivatives, p.Model.LengthRatio, cg, p.FullSize.EmptyZ.Value,
		stability.Body{Mass: modelMass, Ix: modelIx, Iy: modelIy, Iz: modelIz}, polar, t.foreplaneLift(cg))
	ac.Elevator = travelOf(p, stability.Elevator)
	ac.Propulsion.WindmillDrag = 0
	ac.Continuous = true
	return ac
}

// trimAt is trim at a CG and lift coefficient.
func trimAt(r reality, cg, lift float64) (alpha, elevator float64, err error) {
	return stability.Trim(r.about(cg), lift)
}

// realities are an invented and three published aircraft, for checks of the truth by a second road: flight in still air.
func realities(t *testing.T) map[string]reality {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, writeScenario(dir, 3))
	p, err := program.Load(dir)
	require.NoError(t, err)
	truths, err := truthsOf(context.Background(), p, 3)
	require.NoError(t, err)
	out := map[string]reality{"invented": {aircraft: demoAircraft(p, truths[0], ballast("middle"))}}
	for _, one := range rehearse.PublishedAircraft() {
		one.Aircraft.Propulsion.WindmillDrag = 0
		out[one.Name] = reality{aircraft: one.Aircraft}
	}
	return out
}

// exactly flies cards in still air of sea level with exact instruments.
func exactly(t *testing.T, ac rehearse.Aircraft, cards ...rehearse.Card) rehearse.Log {
	t.Helper()
	log, err := rehearse.Fly(ac, cards, rehearse.Weather{}, rehearse.Instruments{FastRate: 100, AirRate: 100, SatelliteRate: 100}, rand.New(rand.NewPCG(1, 1)))
	require.NoError(t, err)
	return log
}

// over is the mean of a truth over the last seconds of a stretch.
func over(log rehearse.Log, values []float64, s rehearse.Stretch, last float64) float64 {
	sum, n := 0.0, 0.0
	for i, time := range log.Time {
		if time >= s.End-last && time <= s.End {
			sum, n = sum+values[i], n+1
		}
	}
	return sum / n
}

// rate is a column that the exact instruments log.
func rate(log rehearse.Log, q flightlog.Quantity) []float64 {
	for i, other := range log.Quantities() {
		if other == q {
			return log.Columns[i]
		}
	}
	return nil
}

// What the study of coverage calls true is what flights in still air show.
func TestTruthIsWhatFlightsShow(t *testing.T) {
	for name, r := range realities(t) {
		t.Run(name, func(t *testing.T) {
			requireGlides(t, name, r)
			requireTurns(t, name, r)
			requireSideslips(t, name, r)
			requireDutchRoll(t, name, r)
			requireShortPeriod(t, name, r)
		})
	}
}

// Glides at two speeds show the trim slope and the trimmed lift slope.
func requireGlides(t *testing.T, name string, r reality) {
	t.Helper()
	stall, cg := r.aircraft.StallSpeed(atmosphere.SeaLevelDensity), r.aircraft.CGX
	climb := rehearse.Card{Kind: rehearse.Climb, Speed: 1.55 * stall, Duration: 24, Altitude: 135}
	log := exactly(t, r.aircraft, climb, rehearse.Card{Kind: rehearse.Glide, Speed: 1.35 * stall, Duration: 20}, climb, rehearse.Card{Kind: rehearse.Glide, Speed: 1.8 * stall, Duration: 20})
	slow, fast := log.Stretches[1], log.Stretches[3]
	difference := func(values []float64) float64 { return over(log, values, slow, 3) - over(log, values, fast, 3) }
	lift := difference(log.Truth.Lift)
	_, e0, err := trimAt(r, cg, 0)
	require.NoError(t, err)
	_, e1, err := trimAt(r, cg, 1)
	require.NoError(t, err)
	slope, err := r.trimmedLiftSlope(cg)
	require.NoError(t, err)
	require.InEpsilon(t, e1-e0, difference(log.Truth.Elevator)/lift, 0.01, name)
	require.InEpsilon(t, slope, lift/difference(log.Truth.Alpha), 0.01, name)
	zero, _, err := trimAt(r, cg, 0)
	require.NoError(t, err)
	require.InDelta(t, zero, over(log, log.Truth.Alpha, slow, 3)-over(log, log.Truth.Lift, slow, 3)/slope, 0.05*degree, name)
	x, err := r.neutralPoint()
	require.NoError(t, err)
	flat, err := stability.ElevatorPerLift(r.about(x))
	require.NoError(t, err)
	require.InDelta(t, 0, flat, 1e-9, "the trim slope changes its sign at the neutral point")
}

// A steep turn takes the elevator that lift and pitch rate ask for, and the manoeuvre point is where the elevator for each g is nothing.
func requireTurns(t *testing.T, name string, r reality) {
	t.Helper()
	cg := r.aircraft.CGX
	x, err := r.neutralPoint()
	require.NoError(t, err)
	byDamping := x - r.chord()*r.kappa(atmosphere.SeaLevelDensity)*r.about(x).ByPitchRate.Pitch
	require.InDelta(t, byDamping, r.manoeuvrePoint(atmosphere.SeaLevelDensity), 0.002, name)
	stall := r.aircraft.StallSpeed(atmosphere.SeaLevelDensity)
	log := exactly(t, r.aircraft, rehearse.Card{Kind: rehearse.Climb, Speed: 1.55 * stall, Duration: 24, Altitude: 135},
		rehearse.Card{Kind: rehearse.Level, Speed: 1.8 * stall, Duration: 20}, rehearse.Card{Kind: rehearse.Turn, Speed: 1.8 * stall, Duration: 20, Bank: 0.9})
	level, turn := log.Stretches[1], log.Stretches[2]
	change := func(values []float64) float64 { return over(log, values, turn, 3) - over(log, values, level, 3) }
	lift, speed := change(log.Truth.Lift), over(log, log.Truth.Airspeed, turn, 3)
	q := over(log, rate(log, flightlog.PitchRate), turn, 3) * r.chord() * r.aircraft.LengthRatio / (2 * speed)
	one := over(log, log.Truth.Lift, level, 3)
	density := atmosphere.SeaLevelDensity * 0.9905 // of 100 m, ISO 2533
	// of a pull-up: dδe = perG·dn and q̂ = CL1·κ·dn; the same line in lift and pitch rate as in the turn
	_, e0, err := trimAt(r, cg, 0)
	require.NoError(t, err)
	_, e1, err := trimAt(r, cg, 1)
	require.NoError(t, err)
	byRate := (r.elevatorPerG(cg, one, density)/one - (e1 - e0)) / r.kappa(density)
	require.InDelta(t, change(log.Truth.Elevator), (e1-e0)*lift+byRate*q, 0.05*math.Abs(change(log.Truth.Elevator))+2e-4, name)
}

// A steady sideslip with crossed controls takes rudder, aileron and bank as the balance of moments and side force says.
func requireSideslips(t *testing.T, name string, r reality) {
	t.Helper()
	stall := r.aircraft.StallSpeed(atmosphere.SeaLevelDensity)
	slip := func(size float64) rehearse.Card {
		return rehearse.Card{Kind: rehearse.Sideslip, Speed: 1.6 * stall, Duration: 14, Size: size, Crossed: true}
	}
	log := exactly(t, r.aircraft, rehearse.Card{Kind: rehearse.Climb, Speed: 1.55 * stall, Duration: 24, Altitude: 135}, slip(8*degree), slip(-8*degree))
	right, left := log.Stretches[1], log.Stretches[2]
	difference := func(values []float64) float64 { return over(log, values, right, 3) - over(log, values, left, 3) }
	beta := difference(log.Truth.Beta)
	rudder, aileron, _, bank := r.slip(r.aircraft.CGX, over(log, log.Truth.Lift, right, 3))
	t.Logf("%s: rudder %.4f flown %.4f, aileron %.4f flown %.4f, bank %.4f flown %.4f; left of turning %.2f, of rolling %.2f °/s", name,
		rudder, difference(log.Truth.Rudder)/beta, aileron, difference(log.Truth.Aileron)/beta, bank, difference(log.Truth.Roll)/beta,
		difference(rate(log, flightlog.YawRate))/2/degree, difference(rate(log, flightlog.RollRate))/2/degree)
	require.InDelta(t, rudder, difference(log.Truth.Rudder)/beta, 0.03, name)
	require.InDelta(t, aileron, difference(log.Truth.Aileron)/beta, 0.03, name)
	require.InDelta(t, bank, difference(log.Truth.Roll)/beta, 0.04, name)
}

// Without its derivative by the rate of angle of attack, but with effective ones, an aircraft has the same short period.
func requireShortPeriod(t *testing.T, name string, r reality) {
	t.Helper()
	const speed, density = 25, 1.2
	truth, err := r.modes(r.aircraft.CGX, speed, density)
	require.NoError(t, err)
	plain := r
	plain.aircraft.Derivatives = r.effective(r.aircraft.CGX, r.aircraft.CGZ, density)
	plain.aircraft.AlphaRate.Pitch = 0
	m, err := plain.modes(r.aircraft.CGX, speed, density)
	require.NoError(t, err)
	require.InEpsilon(t, truth.ShortPeriod.Frequency, m.ShortPeriod.Frequency, 0.01, name)
	require.InEpsilon(t, truth.ShortPeriod.Damping, m.ShortPeriod.Damping, 0.01, name)
}

// The free response behind a rudder doublet swings with the period of the Dutch roll.
func requireDutchRoll(t *testing.T, name string, r reality) {
	t.Helper()
	stall := r.aircraft.StallSpeed(atmosphere.SeaLevelDensity)
	log := exactly(t, r.aircraft, rehearse.Card{Kind: rehearse.Climb, Speed: 1.55 * stall, Duration: 24, Altitude: 135},
		rehearse.Card{Kind: rehearse.Doublet, Speed: 1.6 * stall, Duration: 12, Control: "rudder", Size: 3 * degree, Width: 0.5})
	s := log.Stretches[1]
	speed := over(log, log.Truth.Airspeed, s, 6)
	m, err := r.modes(r.aircraft.CGX, speed, atmosphere.SeaLevelDensity*0.988) // of 125 m, ISO 2533
	require.NoError(t, err)
	require.InEpsilon(t, m.DutchRoll.Period(), periodOf(log, s.From+1.3, s.End), 0.04, name)
}

// periodOf is twice the mean time between the turning points of the sideslip.
func periodOf(log rehearse.Log, from, to float64) float64 {
	var turns []float64
	b := log.Truth.Beta
	for i := 1; i+1 < len(b); i++ {
		if t := log.Time[i]; t > from && t < to && (b[i]-b[i-1])*(b[i+1]-b[i]) < 0 {
			turns = append(turns, t)
		}
	}
	n := min(len(turns), 4) // behind them little is left
	if n < 3 {
		return math.NaN()
	}
	return 2 * (turns[n-1] - turns[0]) / float64(n-1)
}
