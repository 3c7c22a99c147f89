package stability

import (
	"errors"
	"math"
	"math/cmplx"
	"sort"

	"gonum.org/v1/gonum/mat"

	"wingproof/aero"
)

// Oscillation is one pair of complex roots.
type Oscillation struct {
	Root      complex128 // the one with the positive imaginary part, 1/s
	Frequency float64    // undamped, |root|, rad/s
	Damping   float64    // −Re/|root|; negative grows
}

// Period is 2π over the damped frequency, in s.
func (o Oscillation) Period() float64 { return 2 * math.Pi / imag(o.Root) }

// TimeToHalf is ln 2/|Re| in s: to half amplitude when damped, to double when growing.
func (o Oscillation) TimeToHalf() float64 { return math.Ln2 / math.Abs(real(o.Root)) }

// Decay is one real root.
type Decay struct {
	Root float64 // 1/s; positive grows
}

// TimeConstant is −1/root in s; negative grows.
func (d Decay) TimeConstant() float64 { return -1 / d.Root }

// TimeToDouble is ln 2/root in s; grows is false, and the time zero, when the motion dies out.
func (d Decay) TimeToDouble() (seconds float64, grows bool) {
	if d.Root <= 0 {
		return 0, false
	}
	return math.Ln2 / d.Root, true
}

// Modes are the natural motions of the linear model with controls held. A motion that the roots do not show (an
// overdamped short period, a coupled roll and spiral) is nil, and Notes says so in words.
type Modes struct {
	ShortPeriod, Phugoid *Oscillation
	DutchRoll            *Oscillation
	Roll, Spiral         *Decay
	LongitudinalRoots    []complex128 // by falling |root|
	LateralRoots         []complex128 // by falling |root|
	Notes                []string
}

// FindModes returns the natural motions in steady level flight, the CG at the moment point; see
// Longitudinal and Lateral for what the state must hold.
func FindModes(d aero.Derivatives, b Body, c Condition) (Modes, error) {
	along, err := LongitudinalModes(d, b, c)
	if err != nil {
		return Modes{}, err
	}
	m, err := LateralModes(d, b, c)
	if err != nil {
		return Modes{}, err
	}
	m.ShortPeriod, m.Phugoid, m.LongitudinalRoots = along.ShortPeriod, along.Phugoid, along.LongitudinalRoots
	m.Notes = append(along.Notes, m.Notes...)
	return m, nil
}

// LongitudinalModes is FindModes for short period and phugoid alone; of the inertias it asks for Iy only.
func LongitudinalModes(d aero.Derivatives, b Body, c Condition) (Modes, error) {
	a, err := Longitudinal(d, b, c)
	if err != nil {
		return Modes{}, err
	}
	var m Modes
	if m.LongitudinalRoots, err = roots(a); err != nil {
		return Modes{}, err
	}
	m.nameLongitudinal()
	return m, nil
}

// LateralModes is FindModes for Dutch roll, roll and spiral alone; of the inertias it asks for Ix and Iz only.
func LateralModes(d aero.Derivatives, b Body, c Condition) (Modes, error) {
	a, err := Lateral(d, b, c)
	if err != nil {
		return Modes{}, err
	}
	var m Modes
	if m.LateralRoots, err = roots(a); err != nil {
		return Modes{}, err
	}
	m.nameLateral()
	return m, nil
}

func (m *Modes) nameLongitudinal() {
	pairs, reals := split(m.LongitudinalRoots)
	switch {
	case len(pairs) == 2:
		m.ShortPeriod, m.Phugoid = &pairs[0], &pairs[1]
	case len(pairs) == 1 && pairs[0].Frequency*pairs[0].Frequency < math.Abs(reals[0].Root*reals[1].Root):
		m.Phugoid = &pairs[0]
		m.Notes = append(m.Notes, "the short period does not oscillate: two real roots")
	case len(pairs) == 1:
		m.ShortPeriod = &pairs[0]
		m.Notes = append(m.Notes, "the phugoid does not oscillate: two real roots")
	default:
		m.Notes = append(m.Notes, "neither short period nor phugoid oscillates: four real roots")
	}
	for _, r := range reals {
		if r.Root > 0 {
			m.Notes = append(m.Notes, "a longitudinal motion diverges without oscillating: the aircraft is statically unstable")
			break
		}
	}
}

func (m *Modes) nameLateral() {
	pairs, reals := split(m.LateralRoots)
	switch len(pairs) {
	case 1:
		m.DutchRoll = &pairs[0]
		m.Roll, m.Spiral = &reals[0], &reals[1]
		if reals[0].Root > 0 {
			m.Notes = append(m.Notes, "the fastest real lateral motion diverges; it is listed as the roll")
		}
	case 2:
		m.DutchRoll = &pairs[0]
		m.Notes = append(m.Notes, "roll and spiral are coupled into one slow oscillation")
	default:
		m.Notes = append(m.Notes, "there is no Dutch roll: all lateral roots are real")
	}
}

// roots are the eigenvalues by falling magnitude, each pair with the positive imaginary part first.
func roots(a *mat.Dense) ([]complex128, error) {
	var eigen mat.Eigen
	if ok := eigen.Factorize(a, mat.EigenNone); !ok {
		return nil, errors.New("stability: the eigenvalues did not converge; check the derivatives and inertias for absurd values")
	}
	r := eigen.Values(nil)
	sort.SliceStable(r, func(i, j int) bool {
		a, b := cmplx.Abs(r[i]), cmplx.Abs(r[j])
		if r[i] == cmplx.Conj(r[j]) {
			return imag(r[i]) > imag(r[j])
		}
		return a > b
	})
	return r, nil
}

// split parts complex pairs from real roots, both by falling magnitude.
func split(r []complex128) (pairs []Oscillation, reals []Decay) {
	for _, root := range r {
		switch {
		case imag(root) > 0:
			size := cmplx.Abs(root)
			pairs = append(pairs, Oscillation{Root: root, Frequency: size, Damping: -real(root) / size})
		case imag(root) == 0:
			reals = append(reals, Decay{Root: real(root)})
		}
	}
	return pairs, reals
}
