package rehearse

import (
	"math"

	"wingproof/aero"
	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
)

// Published is an aircraft whose derivatives were published, as a quarter-scale model to fly: truth that comes from no lattice.
//
// The model follows by similitude: lengths λ, mass λ³σ and inertias λ⁵σ with σ the density of sea level over that of the set. Derivatives are those
// of the set about the CG, in body axes that lie along the flight path of the set's lift coefficient; there the elevator is at zero
// and the aircraft in trim. Its elevator is at the tail: trailing edge down lowers the nose. Ailerons roll right and rudders turn left when
// positive, as everywhere here, whatever the sign in the source.
type Published struct {
	Name      string
	Source    string              // of the values, and through whom they came
	Missing   string              // what the source lacks, and what stands in its place
	Aircraft  Aircraft            // the model
	Body      stability.Body      // full size
	Condition stability.Condition // of the set, full size, with the derivatives by the rate of angle of attack
}

// publishedRatio is the length ratio of the models.
const publishedRatio = 0.25

// Units of the sources, exact but for the slug, which is a pound of force over a foot per second squared.
const (
	foot     = 0.3048                            // m
	pound    = 0.45359237                        // kg
	slug     = pound * atmosphere.Gravity / foot // kg
	slugFoot = pound * atmosphere.Gravity * foot // kg·m², of a slug times a foot squared
	density  = slug / (foot * foot * foot)       // kg/m³, of a slug in a cubic foot
	placeCG  = 0.3                               // of the mean chord: a label, since the sets are about the CG
	invented = "Propeller, servos, travels, highest lift and the way of stalling are invented; thrust goes through the CG."
)

// PublishedAircraft lists the aircraft. They are check cases of the field's literature; nothing is claimed about the types.
func PublishedAircraft() []Published { return []Published{navionText(), navionFlight(), cessna182()} }

// finish makes the model.
func (p *Published) finish(d aero.Derivatives, polar Polar, maxLift float64) {
	chord := d.Reference.MeanChord
	d.MomentPoint = placeCG * chord
	p.Condition.Gravity = atmosphere.Gravity
	ratio := publishedRatio
	third := ratio * ratio * ratio * atmosphere.SeaLevelDensity / p.Condition.Density
	fifth := third * ratio * ratio
	body := stability.Body{Mass: third * p.Body.Mass, Ix: fifth * p.Body.Ix, Iy: fifth * p.Body.Iy, Iz: fifth * p.Body.Iz, Ixz: fifth * p.Body.Ixz}
	p.Aircraft = DefaultAircraft(d, ratio, d.MomentPoint, 0, body, polar, maxLift)
	p.Aircraft.AlphaRate = p.Condition.AlphaRate
	p.Aircraft.Stall = Stall{First: WingFirst, Pitch: -0.15}
	p.Aircraft.Continuous = true
}

// navionText is the four-seater of the textbook by Nelson.
func navionText() Published {
	p := Published{
		Name: "Navion, textbook set",
		Source: "Nelson, Flight Stability and Automatic Control: the Navion at sea level, 176 ft/s; longitudinal set, weight and inertias as transcribed in a " +
			"public student script, lateral set as transcribed in a public listing; Cl_δr from memory",
		Missing: "CY_p, CY_r, CY_δa are not in the set: zero. Drag is CDmin + k·CL², both from CD 0.05 and CD_α 0.33 at CL 0.41. " +
			"The listing gives sizes of the aileron's derivatives only: adverse yaw is assumed. Highest lift 1.4. " + invented,
		Body: stability.Body{Mass: 2750 * pound, Ix: 1048 * slugFoot, Iy: 3000 * slugFoot, Iz: 3530 * slugFoot},
		Condition: stability.Condition{
			Density: 0.002378 * density, Speed: 176 * foot, AlphaRate: aero.Coefficients{Pitch: -4.36},
		},
	}
	const lift, drag, liftSlope, dragSlope = 0.41, 0.05, 4.44, 0.33
	const factor = dragSlope / (2 * lift * liftSlope)
	p.finish(aero.Derivatives{
		Reference:   aero.Reference{Area: 184 * foot * foot, Span: 33.4 * foot, MeanChord: 5.7 * foot},
		At:          aero.Coefficients{Lift: lift, Drag: drag},
		ByAlpha:     aero.Coefficients{Lift: liftSlope, Drag: dragSlope, Pitch: -0.683},
		ByPitchRate: aero.Coefficients{Lift: 3.8, Pitch: -9.96},
		ByBeta:      aero.Coefficients{Side: -0.564, Roll: -0.074, Yaw: 0.071},
		ByRollRate:  aero.Coefficients{Roll: -0.410, Yaw: -0.0575},
		ByYawRate:   aero.Coefficients{Roll: 0.107, Yaw: -0.125},
		ByControl: map[string]aero.Coefficients{
			"elevator": {Lift: 0.355, Pitch: -0.923},
			"aileron":  {Roll: 0.134, Yaw: -0.0035},
			"rudder":   {Side: 0.157, Roll: 0.0107, Yaw: -0.072},
		},
	}, Polar{Min: drag - factor*lift*lift, Factor: factor}, 1.4)
	return p
}

// navionFlight is the same type as measured in flight.
func navionFlight() Published {
	p := Published{
		Name:   "Navion, flight-test set",
		Source: "Seckel and Morris, FAA-RD-71-6, 1971: the Navion at 10,000 ft and 135 kt, as transcribed in a public data file that cites the report",
		Missing: "CY_p, CY_r, CY_δa are not in the set: zero. Cl_δr stands there as 0.107, which would put the rudder's force two thirds of the span above " +
			"the CG; it is taken as a slip for 0.0107. The set's aileron rolls left when positive; its signs are turned. Lift and trim are those of level flight. Highest lift 1.5. " + invented,
		Body: stability.Body{Mass: 2948 * pound, Ix: 1284 * slugFoot, Iy: 2773 * slugFoot, Iz: 3235 * slugFoot},
		Condition: stability.Condition{
			Density: 0.904637, Speed: 135 * 1852.0 / 3600, AlphaRate: aero.Coefficients{Pitch: -4.91},
		},
	}
	const area, span = 184 * foot * foot, 33.38 * foot
	lift := 2 * p.Body.Mass * atmosphere.Gravity / (p.Condition.Density * p.Condition.Speed * p.Condition.Speed * area)
	polar := Polar{Min: 0.04, LiftAtMin: 0.3, Factor: area / (math.Pi * 0.77 * span * span)} // span efficiency 0.77
	p.finish(aero.Derivatives{
		Reference:   aero.Reference{Area: area, Span: span, MeanChord: 5.7 * foot},
		At:          aero.Coefficients{Lift: lift, Drag: polar.Min + polar.Factor*(lift-0.3)*(lift-0.3)},
		ByAlpha:     aero.Coefficients{Lift: 6.04, Drag: 2 * polar.Factor * (lift - 0.3) * 6.04, Pitch: -0.715},
		ByPitchRate: aero.Coefficients{Lift: 3.8, Pitch: -13.39},
		ByBeta:      aero.Coefficients{Side: -0.61, Roll: -0.067, Yaw: 0.086},
		ByRollRate:  aero.Coefficients{Roll: -0.46, Yaw: -0.038},
		ByYawRate:   aero.Coefficients{Roll: 0.069, Yaw: -0.088},
		ByControl: map[string]aero.Coefficients{
			"elevator": {Lift: 0.355, Pitch: -1.42},
			"aileron":  {Roll: 0.152, Yaw: -0.0047},
			"rudder":   {Side: 0.157, Roll: 0.0107, Yaw: -0.075},
		},
	}, polar, 1.5)
	return p
}

// cessna182 is a light single of Roskam's appendix.
func cessna182() Published {
	p := Published{
		Name:   "Cessna 182",
		Source: "Roskam, Airplane Flight Dynamics and Automatic Flight Controls, Appendix B, as transcribed in a public file; derivatives of aileron and rudder from memory of the same appendix",
		Missing: "The file names no altitude: sea level is taken. Derivatives by the rate of angle of attack are not in it: zero. " +
			"Drag grows with lift by a span efficiency of 0.8 (common practice, no source). Highest lift 1.5. " + invented,
		Body: stability.Body{Mass: 1202, Ix: 1285, Iy: 1825, Iz: 2667},
	}
	const area, span, lift, drag = 16.16, 11.0, 0.307, 0.027
	p.Condition.Density = atmosphere.SeaLevelDensity
	p.Condition.Speed = math.Sqrt(2 * p.Body.Mass * atmosphere.Gravity / (p.Condition.Density * area * lift))
	factor := area / (math.Pi * 0.8 * span * span)
	p.finish(aero.Derivatives{
		Reference:   aero.Reference{Area: area, Span: span, MeanChord: 1.5},
		At:          aero.Coefficients{Lift: lift, Drag: drag + factor*lift*lift, Pitch: 0.04},
		ByAlpha:     aero.Coefficients{Lift: 4.41, Drag: 2 * factor * lift * 4.41, Pitch: -0.65},
		ByPitchRate: aero.Coefficients{Lift: 3.9, Pitch: -15.2},
		ByBeta:      aero.Coefficients{Side: -0.404, Roll: -0.0895, Yaw: 0.0907},
		ByRollRate:  aero.Coefficients{Side: -0.145, Roll: -0.487, Yaw: -0.0649},
		ByYawRate:   aero.Coefficients{Side: 0.267, Roll: 0.1869, Yaw: -0.1199},
		ByControl: map[string]aero.Coefficients{
			"elevator": {Lift: 0.43, Pitch: -1.369},
			"aileron":  {Roll: 0.229, Yaw: -0.0216},
			"rudder":   {Side: 0.187, Roll: 0.0147, Yaw: -0.0645},
		},
	}, Polar{Min: drag, Factor: factor}, 1.5)
	return p
}
