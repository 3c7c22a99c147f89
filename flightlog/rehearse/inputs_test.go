package rehearse

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
)

// everyone is the invented foreplane model and the published aircraft, whose elevators work the other way.
func everyone() map[string]Aircraft {
	all := map[string]Aircraft{"invented": model(3.9)}
	for _, p := range PublishedAircraft() {
		all[p.Name] = p.Aircraft
	}
	return all
}

// prony fits y[k+n] = Σ a[j]·y[k+j] to a free response sampled at dt [s] and turns its roots into those of the motion, 1/s.
func prony(t *testing.T, y []float64, dt float64, order int) []complex128 {
	rows := len(y) - order
	a, b := mat.NewDense(rows, order, nil), mat.NewVecDense(rows, nil)
	for k := range rows {
		for j := range order {
			a.Set(k, j, y[k+j])
		}
		b.SetVec(k, y[k+order])
	}
	var x mat.VecDense
	require.NoError(t, x.SolveVec(a, b))
	companion := mat.NewDense(order, order, nil)
	for j := range order {
		companion.Set(order-1, j, x.AtVec(j))
		if j+1 < order {
			companion.Set(j, j+1, 1)
		}
	}
	roots := eigenvalues(t, companion)
	for i, z := range roots {
		roots[i] = complex(math.Log(math.Hypot(real(z), imag(z)))/dt, math.Atan2(imag(z), real(z))/dt)
	}
	return roots
}

// nearest is the distance of the closest root over the size of the one looked for.
func nearest(roots []complex128, want complex128) float64 {
	best := math.Inf(1)
	for _, r := range roots {
		best = math.Min(best, math.Hypot(real(r-want), imag(r-want)))
	}
	return best / math.Hypot(real(want), imag(want))
}

// After a small doublet and its servo, hands off in still air, the model moves by the roots that aero/stability gives for the flight's own speed
// and density: short period in the pitch rate, Dutch roll in the yaw rate. The fit of a flight that also swings slowly is good to some percent.
func TestFreeResponseHasTheRootsOfTheModel(t *testing.T) {
	for name, ac := range everyone() {
		ac.Continuous = true
		speed := 1.7 * ac.StallSpeed(atmosphere.SeaLevelDensity)
		log, err := Fly(ac, []Card{
			climbing(speed / 1.7), {Kind: Level, Speed: speed, Duration: 20},
			inputCard(Doublet, "elevator", speed, 1*degree, pitchDoublet, 4), {Kind: Level, Speed: speed, Duration: 15},
			inputCard(Doublet, "rudder", speed, 3*degree, yawDoublet, 4),
		}, still(), Instruments{FastRate: 100, AirRate: 100, SatelliteRate: 100}, seeded(1))
		require.NoError(t, err)
		f := frame(t, ac)
		roots := func(stretch, column int, watched float64) ([]complex128, stability.Modes) {
			s := log.Stretches[stretch]
			from := s.From + s.Card.input().length() + 0.3 // the servo has come to rest
			first, end := within(log, from, from+watched)
			d, err := stability.Trimmed(f.d, log.Truth.Lift[first], 0.05)
			require.NoError(t, err)
			d.Reference.Area, d.Reference.Span, d.Reference.MeanChord = f.area, f.span, f.chord
			air, err := atmosphere.Standard(log.Truth.Height[first])
			require.NoError(t, err)
			m, err := stability.FindModes(d, f.Body, stability.Condition{Density: air.Density, Speed: log.Truth.Airspeed[first], AlphaRate: f.alphaRate})
			require.NoError(t, err)
			return prony(t, log.Columns[column][first:end], 0.01, 4), m
		}
		got, m := roots(2, atPitchRate, 2)
		require.Less(t, nearest(got, m.ShortPeriod.Root), 0.06, "%s: %v among %v", name, m.ShortPeriod.Root, got)
		got, m = roots(4, atYawRate, 3.5)
		require.Less(t, nearest(got, m.DutchRoll.Root), 0.015, "%s: %v among %v", name, m.DutchRoll.Root, got)
	}
}

// The sheets of a programme take eight minutes at most by their own limits.
func TestProgrammeSheetsTakeEightMinutesAtMost(t *testing.T) {
	for i, sheet := range [][]Card{TrimAndElevatorCards(14), LateralCards(14), SlowAndTurningCards(14)} {
		total := resting + groundRun
		for _, c := range sheet {
			require.NoError(t, c.check())
			total += c.Duration
			switch {
			case c.Kind == Climb || c.turns():
			case c.Kind == Deceleration:
				total += longestLineUp + longestRecovery
			default:
				total += longestLineUp
			}
		}
		require.LessOrEqual(t, total, 480.0, "sheet %d", i+1)
	}
}

// What inputs are to show: a free response of the length promised with nobody on the stick, and motions well above gusts, far from the stall.
func TestInputsOfTheSheetsExcite(t *testing.T) {
	for name, ac := range everyone() {
		stall := ac.StallSpeed(atmosphere.SeaLevelDensity)
		for _, sheet := range [][]Card{TrimAndElevatorCards(stall), LateralCards(stall)} {
			log, err := Fly(ac, sheet, still(), perfect(), seeded(1))
			require.NoError(t, err)
			for _, s := range log.Stretches {
				if s.Card.Kind != Doublet && s.Card.Kind != Multistep {
					continue
				}
				column, motion, least := atElevator, log.Truth.Alpha, 1.3*degree
				free := pitchFree
				switch s.Card.Control {
				case "rudder":
					column, motion, least, free = atRudderLeft, log.Truth.Beta, 3.5*degree, yawFree
				case "aileron":
					column, motion, least, free = atAileron, log.Truth.Roll, 9*degree, rollFree
				}
				require.InDelta(t, free, s.End-s.From-s.Card.input().length(), 0.03)
				first, end := within(log, s.From, s.End)
				most := 0.0
				for i := first; i < end; i++ {
					most = math.Max(most, math.Abs(motion[i]-motion[first-1]))
					require.Less(t, log.Truth.Lift[i], 0.9*ac.MaxLift, name)
				}
				require.Greater(t, most, least, "%s: %s on the %s at %.1f m/s", name, s.Card.Kind, s.Card.Control, s.Card.Speed)
				first, _ = within(log, s.From+s.Card.input().length()+0.05, s.End)
				for i := first; i < end; i++ {
					require.Equal(t, log.Columns[column][first], log.Columns[column][i], "hands off")
				}
			}
		}
	}
}
