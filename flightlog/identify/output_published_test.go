package identify

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero"
	"wingproof/aero/stability"
	"wingproof/flightlog"
)

const (
	foot = 0.3048
	slug = 14.593903
)

// publishedNavion is the set of Nelson, Flight Stability and Automatic Control, as transcribed in a public student script and a public
// listing; sea level, 176 ft/s. Pitch damping is Cm_q + Cm_α̇, for a model without downwash lag. The elevator is at the tail.
func publishedNavion() (made, float64, float64) {
	d := aero.Derivatives{
		Reference:   aero.Reference{Area: 184 * foot * foot, Span: 33.4 * foot, MeanChord: 5.7 * foot},
		At:          aero.Coefficients{Lift: 0.41, Drag: 0.04},
		ByAlpha:     aero.Coefficients{Lift: 4.44, Pitch: -0.683},
		ByPitchRate: aero.Coefficients{Lift: 3.8, Pitch: -9.96 - 4.36},
		ByBeta:      aero.Coefficients{Side: -0.564, Roll: -0.074, Yaw: 0.071},
		ByRollRate:  aero.Coefficients{Roll: -0.410, Yaw: -0.0575},
		ByYawRate:   aero.Coefficients{Roll: 0.107, Yaw: -0.125},
		ByControl: map[string]aero.Coefficients{
			"elevator": {Lift: 0.355, Pitch: -0.923}, "aileron": {Roll: 0.134, Yaw: -0.0035}, "rudder": {Side: 0.157, Roll: 0.0107, Yaw: -0.072},
		},
	}
	const square = slug * foot * foot
	body := stability.Body{Mass: 2750 / 32.2 * slug, Ix: 1048 * square, Iy: 3000 * square, Iz: 3530 * square}
	return made{d: d, body: body, density: 0.002378 * slug / (foot * foot * foot), bank: 0.06}, 0.02, 176 * foot
}

// publishedCessna is the Cessna 182 of Roskam's appendix B, as stored in a public file that cites it; control derivatives of the lateral
// axis, which that file lacks, are invented.
func publishedCessna() (made, float64, float64) {
	d := aero.Derivatives{
		Reference:   aero.Reference{Area: 16.16, Span: 11, MeanChord: 1.5},
		At:          aero.Coefficients{Lift: 0.307, Drag: 0.027, Pitch: 0},
		ByAlpha:     aero.Coefficients{Lift: 4.41, Pitch: -0.65},
		ByPitchRate: aero.Coefficients{Lift: 3.9, Pitch: -15.2},
		ByBeta:      aero.Coefficients{Side: -0.404, Roll: -0.0895, Yaw: 0.0907},
		ByRollRate:  aero.Coefficients{Side: -0.145, Roll: -0.487, Yaw: -0.0649},
		ByYawRate:   aero.Coefficients{Side: 0.267, Roll: 0.1869, Yaw: -0.1199},
		ByControl: map[string]aero.Coefficients{
			"elevator": {Lift: 0.43, Pitch: -1.369}, "aileron": {Roll: 0.229, Yaw: -0.0216}, "rudder": {Side: 0.187, Roll: 0.0147, Yaw: -0.0645},
		},
	}
	return made{d: d, body: stability.Body{Mass: 1202, Ix: 1285, Iy: 1825, Iz: 2667, Ixz: 60}, density: 1.0, bank: 0.05}, 0.0, 67
}

func TestPublishedSetsComeBack(t *testing.T) {
	for name, published := range map[string]func() (made, float64, float64){"Navion, Nelson": publishedNavion, "Cessna 182, Roskam": publishedCessna} {
		t.Run(name, func(t *testing.T) {
			m, alpha, speed := published()
			m.d.Alpha = alpha
			m.d.At.Drag, m.bank = dragAtZero.mean, dragByLiftSquared.mean // drag of another size shows in the lift slope, see below
			pressure := 0.5 * m.density * speed * speed * m.d.Reference.Area
			m.body.Mass = pressure * m.d.At.Lift / 9.80665 // one g at the published lift coefficient, in a glide
			setup := Setup{Reference: m.d.Reference, Servos: map[flightlog.Quantity]Servo{flightlog.Elevator: {}, flightlog.Aileron: {}, flightlog.RudderLeft: {}}}
			var along, across []Segment
			for i, size := range []float64{0.03, -0.02} {
				width := 1.2 - 0.5*float64(i)
				m.inputs = func(time float64) (e, a, r float64) { return stick(time, 1, width, size), 0, 0 }
				along = append(along, m.segment(alpha, speed, 10, 0.005, flightlog.Elevator))
				m.inputs = func(time float64) (e, a, r float64) {
					return 0.01 * math.Sin(time), stick(time, 1, width, 2*size), stick(time, 4, 1.5*width, 3*size)
				}
				across = append(across, m.segment(alpha, speed, 12, 0.005, flightlog.Aileron))
			}
			least := 16.0
			for axis, segments := range map[Axis][]Segment{Longitudinal: along, Lateral: across} {
				fit, err := Estimate(segments, axis, setup)
				require.NoError(t, err)
				want := truthOf(m.d)
				for _, d := range fit.Derivatives {
					truth := want[d.Quantity]
					if truth == 0 { // no digits to count
						require.InDelta(t, 0, d.Value, 1e-6+5e-6*usualSize(d.Quantity), "%s %s", name, d.Quantity)
						continue
					}
					least = math.Min(least, -math.Log10(math.Abs(d.Value/truth-1)))
					require.InEpsilon(t, truth, d.Value, 1e-5, "%s %s", name, d.Quantity)
				}
				t.Logf("%s: %s, %d iterations, condition %.0f", axis, fit.Method, fit.Iterations, fit.Condition)
			}
			t.Logf("at least %.1f digits", least)
		})
	}
}

// truthOf lists derivatives by name.
func truthOf(d aero.Derivatives) map[string]float64 {
	e, a, r := d.ByControl["elevator"], d.ByControl["aileron"], d.ByControl["rudder"]
	return map[string]float64{
		LiftCurveSlope: d.ByAlpha.Lift, LiftByPitchRate: d.ByPitchRate.Lift, ElevatorLift: e.Lift,
		PitchStiffness: d.ByAlpha.Pitch, PitchDamping: d.ByPitchRate.Pitch, ElevatorPower: e.Pitch,
		SideForceSlope: d.ByBeta.Side, SideForceByRollRate: d.ByRollRate.Side, SideForceByYawRate: d.ByYawRate.Side, SideForceByAileron: a.Side, SideForceByRudder: r.Side,
		DihedralEffect: d.ByBeta.Roll, RollDamping: d.ByRollRate.Roll, RollDueToYaw: d.ByYawRate.Roll, AileronPower: a.Roll, RollByRudder: r.Roll,
		DirectionalStiff: d.ByBeta.Yaw, YawDueToRoll: d.ByRollRate.Yaw, YawDamping: d.ByYawRate.Yaw, YawByAileron: a.Yaw, RudderPower: r.Yaw,
	}
}
