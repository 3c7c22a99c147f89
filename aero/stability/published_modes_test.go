package stability

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"wingproof/aero"
)

// modeNear fails when got leaves want ± tol, with the source and the distance.
func modeNear(t *testing.T, got, want, tol float64, source string) {
	t.Helper()
	require.InDelta(t, want, got, tol, "%s: off by %.3g", source, got-want)
}

// jetTransport is the longitudinal set of a large jet transport at 40,000 ft and Mach 0.8 in any coherent units. The book writes X and Z
// along stability axes and has thrust in C_xu; the drag of the state is then free, since what it adds in one place it takes off in another.
func jetTransport(weight, gravity, area, chord, iy, density, speed float64) (aero.Derivatives, Body, Condition) {
	const drag = 0.043
	lift := 2 * weight / (density * speed * speed * area)
	d := aero.Derivatives{
		Reference:   aero.Reference{Area: area, Span: 7.165 * chord, MeanChord: chord},
		At:          aero.Coefficients{Lift: lift, Drag: drag},
		ByAlpha:     aero.Coefficients{Lift: 4.92 - drag, Drag: lift - 0.2193, Pitch: -1.023},
		ByPitchRate: aero.Coefficients{Lift: 5.92, Pitch: -23.92},
	}
	c := Condition{Density: density, Speed: speed, Gravity: gravity,
		AlphaRate:  aero.Coefficients{Lift: -5.9, Pitch: -6.314},
		SpeedRatio: aero.Coefficients{Lift: 0.106, Drag: 0.1080 - 2*drag, Pitch: 0.1043},
	}
	return d, Body{Mass: weight / gravity, Iy: iy}, c
}

// The derivative by the rate of angle of attack in Z keeps the sign that is printed (+5.9, which the notebook calls a possible erratum):
// the printed roots follow from that one.
func TestJetTransportLongitudinal(t *testing.T) {
	const source = "Etkin and Reid, Dynamics of Flight, 3rd edition, set of p. 165, as quoted with its results in a public notebook"
	d, b, c := jetTransport(2.83176e6, 9.81, 511, 8.324, 0.449e8, 0.3045, 235.9)
	m, err := LongitudinalModes(d, b, c)
	require.NoError(t, err)
	unit := d.Reference.MeanChord / (2 * c.Speed)
	modeNear(t, real(m.ShortPeriod.Root)*unit, -6.55727818e-3, 5e-12, source)
	modeNear(t, imag(m.ShortPeriod.Root)*unit, 1.564731e-2, 5e-9, source)
	modeNear(t, real(m.Phugoid.Root)*unit, -5.80316e-5, 5e-11, source)
	modeNear(t, imag(m.Phugoid.Root)*unit, 1.18576e-3, 5e-9, source)
	modeNear(t, m.Phugoid.Damping, 0.0488821, 5e-8, source)
	modeNear(t, m.Phugoid.Frequency, 0.0672885, 5e-8, source)
	modeNear(t, m.Phugoid.Period(), 93.4886, 5e-5, source)
	modeNear(t, m.ShortPeriod.Period(), 7.08458, 5e-6, source)
	modeNear(t, m.ShortPeriod.TimeToHalf()*0.693/math.Ln2, 1.86459, 5e-6, source+", with 0.693 for ln 2")

	c.AlphaRate.Lift = 5.9 // the other sign does not give the printed digits
	m, err = LongitudinalModes(d, b, c)
	require.NoError(t, err)
	require.Greater(t, math.Abs(m.ShortPeriod.Period()-7.08458), 0.01)
}

// Another road to the same aircraft: the matrix in feet and seconds that a public script prints with eight decimals. The set that is put in
// here has the book's rounded weights and lengths, so that a few units of the fourth digit are between the two.
func TestJetTransportMatrix(t *testing.T) {
	const source = "public script of Etkin's jet transport in feet and seconds; weight, inertia and lengths in those units from memory"
	printed := []float64{-0.00686854, 0.01394951, 0, -32.2, -0.09052721, -0.31506319, 773.97653828, 0, 0.00011865, -0.00102552, -0.42843608, 0, 0, 0, 1, 0}
	d, b, c := jetTransport(636636, 32.2, 5500, 27.31, 0.331e8, 0.0005909, 774)
	a, err := Longitudinal(d, b, c)
	require.NoError(t, err)
	for i, want := range printed {
		modeNear(t, a.RawMatrix().Data[i], want, 6e-4*math.Abs(want)+1e-15, source)
	}
	r, err := roots(mat.NewDense(4, 4, printed))
	require.NoError(t, err)
	const recomputed = "roots of the printed matrix, recomputed by another program"
	for i, want := range []complex128{complex(-0.371894, 0.887329), complex(-0.371894, -0.887329), complex(-0.003290, 0.067224), complex(-0.003290, -0.067224)} {
		modeNear(t, real(r[i]), real(want), 5e-7, recomputed)
		modeNear(t, imag(r[i]), imag(want), 5e-7, recomputed)
	}
}

// Lateral motion of the same aircraft. Everything here is from memory: a loose band, and no authority.
func TestJetTransportLateral(t *testing.T) {
	const source = "Etkin and Reid, Dynamics of Flight, lateral example, set and roots from memory"
	d := aero.Derivatives{
		Reference:  aero.Reference{Area: 5500, Span: 195.68, MeanChord: 27.31},
		ByBeta:     aero.Coefficients{Side: -0.8771, Roll: -0.2797, Yaw: 0.1946},
		ByRollRate: aero.Coefficients{Roll: -0.3295, Yaw: -0.04073},
		ByYawRate:  aero.Coefficients{Roll: 0.304, Yaw: -0.2737},
	}
	b := Body{Mass: 636636 / 32.2, Ix: 0.183e8, Iz: 0.497e8, Ixz: -0.156e7}
	m, err := LateralModes(d, b, Condition{Density: 0.0005909, Speed: 774, Gravity: 32.2})
	require.NoError(t, err)
	modeNear(t, real(m.DutchRoll.Root), -0.033011, 3e-4, source)
	modeNear(t, imag(m.DutchRoll.Root), 0.94655, 2e-3, source)
	modeNear(t, m.Roll.Root, -0.56248, 2e-3, source)
	modeNear(t, m.Spiral.Root, -0.0072973, 5e-5, source)
}

// The same light aircraft as navion, from flight tests at 10,000 ft and 135 kt.
func TestNavionFromFlightTests(t *testing.T) {
	const source = "Seckel and Morris, FAA-RD-71-6, 1971, as transcribed in a public data file; roots recomputed by another program, none are published"
	const slugFootFoot, foot, pound = 14.59390 * 0.3048 * 0.3048, 0.3048, 0.45359237
	c := Condition{Density: 0.904637, Speed: 69.45, AlphaRate: aero.Coefficients{Pitch: -4.91}}
	b := Body{Mass: 2948 * pound, Ix: 1284 * slugFootFoot, Iy: 2773 * slugFootFoot, Iz: 3235 * slugFootFoot}
	area := 184 * foot * foot
	d := aero.Derivatives{
		Reference:   aero.Reference{Area: area, Span: 33.38 * foot, MeanChord: 5.7 * foot},
		At:          aero.Coefficients{Lift: 2 * b.Mass * 9.80665 / (c.Density * c.Speed * c.Speed * area), Drag: 0.04},
		ByAlpha:     aero.Coefficients{Lift: 6.04, Pitch: -0.715},
		ByPitchRate: aero.Coefficients{Pitch: -13.39}, // CL_q = 3.8 was left out of the matrix there
		ByBeta:      aero.Coefficients{Side: -0.61, Roll: -0.067, Yaw: 0.086},
		ByRollRate:  aero.Coefficients{Roll: -0.46, Yaw: -0.038},
		ByYawRate:   aero.Coefficients{Roll: 0.069, Yaw: -0.088},
	}
	m, err := FindModes(d, b, c)
	require.NoError(t, err)
	const tol = 3e-6 // the conversions of units have seven digits
	modeNear(t, real(m.ShortPeriod.Root), -3.193281, tol, source)
	modeNear(t, imag(m.ShortPeriod.Root), 3.031234, tol, source)
	modeNear(t, real(m.Phugoid.Root), -0.015932, tol, source)
	modeNear(t, imag(m.Phugoid.Root), 0.158409, tol, source)
	modeNear(t, m.Roll.Root, -7.409016, tol, source)
	modeNear(t, real(m.DutchRoll.Root), -0.368811, tol, source)
	modeNear(t, imag(m.DutchRoll.Root), 2.852318, tol, source)
	modeNear(t, m.Spiral.Root, 0.000121, tol, source)
}

// lightSingle is a high-wing four-seater in SI units. No modes were published with this set. Source: Roskam, Airplane Flight Dynamics and
// Automatic Flight Controls, appendix B, as transcribed in a public file.
func lightSingle() (aero.Derivatives, Body, Condition) {
	d := aero.Derivatives{
		Reference:   aero.Reference{Area: 16.16, Span: 11, MeanChord: 1.5},
		At:          aero.Coefficients{Lift: 0.307, Drag: 0.027},
		ByAlpha:     aero.Coefficients{Lift: 4.41, Pitch: -0.65},
		ByPitchRate: aero.Coefficients{Lift: 3.9, Pitch: -15.2},
		ByBeta:      aero.Coefficients{Side: -0.404, Roll: -0.0895, Yaw: 0.0907},
		ByRollRate:  aero.Coefficients{Side: -0.145, Roll: -0.487, Yaw: -0.0649},
		ByYawRate:   aero.Coefficients{Side: 0.267, Roll: 0.1869, Yaw: -0.1199},
	}
	b := Body{Mass: 1202, Ix: 1285, Iy: 1825, Iz: 2667}
	return d, b, Condition{Density: 1.225, Speed: math.Sqrt(2 * 1202 * 9.80665 / (1.225 * 16.16 * 0.307))}
}

// Another road to the modes of that set: the textbook's approximations, which take one motion at a time.
//
// Source: Nelson, Flight Stability and Automatic Control, short-period, Dutch-roll and roll approximations (from memory).
func TestLightSingleAgainstApproximations(t *testing.T) {
	d, b, c := lightSingle()
	m, err := FindModes(d, b, c)
	require.NoError(t, err)
	pressure := 0.5 * c.Density * c.Speed * c.Speed * d.Reference.Area
	chord, span := d.Reference.MeanChord, d.Reference.Span
	zAlpha := pressure * (4.41 + 0.027) / b.Mass / c.Speed
	mAlpha, mq := -0.65*pressure*chord/b.Iy, -15.2*pressure*chord/b.Iy*chord/(2*c.Speed)
	require.InEpsilon(t, math.Sqrt(-mAlpha-mq*zAlpha), m.ShortPeriod.Frequency, 0.02)
	require.InEpsilon(t, (zAlpha-mq)/2, m.ShortPeriod.Frequency*m.ShortPeriod.Damping, 0.02)
	yBeta, nBeta := -0.404*pressure/(b.Mass*c.Speed), 0.0907*pressure*span/b.Iz
	nr := -0.1199 * pressure * span / b.Iz * span / (2 * c.Speed)
	require.InEpsilon(t, math.Sqrt(nBeta+yBeta*nr), m.DutchRoll.Frequency, 0.1)
	require.InEpsilon(t, -0.487*pressure*span/b.Ix*span/(2*c.Speed), m.Roll.Root, 0.1)
}
