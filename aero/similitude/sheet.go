package similitude

import (
	"fmt"
	"math"

	"wingproof/aero/atmosphere"
)

// FullSize is the aircraft that the model stands for.
type FullSize struct {
	Mass       float64 // kg, at the loading that the model imitates
	Ix, Iy, Iz float64 // kg·m² about the CG in body axes; 0 leaves the row out
	Ixz        float64 // kg·m², ∫ x z dm; 0 leaves the row out
	CG         *Place  // nil leaves the CG out
	WingArea   float64 // m²; 0 leaves the lift coefficients out
	MeanChord  float64 // m, for Reynolds numbers and CGs in percent; 0 leaves them out
	Speeds     []Speed
	Times      []Time
}

// Speed is a named full-size true airspeed in m/s.
type Speed struct {
	Name string
	True float64
}

// Time is a named full-size period or time in s.
type Time struct {
	Name    string
	Seconds float64
}

// SpeedRow is one speed at both sizes.
type SpeedRow struct {
	Name            string  `json:"name"`
	FullTrue        float64 `json:"full_size_true_m_s"`
	FullCalibrated  float64 `json:"full_size_calibrated_m_s"`
	ModelTrue       float64 `json:"model_true_m_s"`
	ModelCalibrated float64 `json:"model_calibrated_m_s"` // what the crew flies when the model is on target

	// Lift is the lift coefficient in straight level flight; null without a wing area.
	Lift *float64 `json:"lift_coefficient"`

	// BallastTrue and BallastCalibrated are the speeds at which the model as weighed flies the same lift
	// coefficient; null when it was not weighed.
	BallastTrue       *float64 `json:"model_as_weighed_true_m_s"`
	BallastCalibrated *float64 `json:"model_as_weighed_calibrated_m_s"`

	FullReynolds  *float64 `json:"full_size_reynolds"` // on the mean chord; null without one
	ModelReynolds *float64 `json:"model_reynolds"`     // at ModelTrue
	FullMach      float64  `json:"full_size_mach"`
	ModelMach     float64  `json:"model_mach"`
}

// TimeRow is one time at both sizes.
type TimeRow struct {
	Name  string  `json:"name"`
	Full  float64 `json:"full_size_s"`
	Model float64 `json:"model_s"`
}

// Sheet is the page that carries a loading from full size to the model.
type Sheet struct {
	Ratios   Ratios           `json:"ratios"`
	ModelAir atmosphere.State `json:"model_air"`
	FullAir  atmosphere.State `json:"full_size_air"`
	Rows     []Row            `json:"rows"`
	CG       []PlaceRow       `json:"cg"` // x and z; empty without a full-size CG
	Speeds   []SpeedRow       `json:"speeds"`
	Times    []TimeRow        `json:"times"`
}

// NewSheet works out the model's targets at the two altitudes [geopotential m, standard atmosphere].
// weighed may be nil.
//
// It returns an error when the length ratio, the mass or a speed is not positive, or when an altitude is
// outside the standard atmosphere.
func NewSheet(lengthRatio float64, full FullSize, modelAltitude, fullAltitude float64, weighed *Weighed) (Sheet, error) {
	modelAir, err := atmosphere.Standard(modelAltitude)
	if err != nil {
		return Sheet{}, fmt.Errorf("similitude: the model's test altitude: %w", err)
	}
	fullAir, err := atmosphere.Standard(fullAltitude)
	if err != nil {
		return Sheet{}, fmt.Errorf("similitude: the full-size altitude: %w", err)
	}
	return SheetIn(lengthRatio, full, modelAir, fullAir, weighed)
}

// SheetIn is NewSheet for measured air at one or both places.
func SheetIn(lengthRatio float64, full FullSize, modelAir, fullAir atmosphere.State, weighed *Weighed) (Sheet, error) {
	r, err := Froude(lengthRatio, modelAir, fullAir)
	if err != nil {
		return Sheet{}, err
	}
	if !positive(full.Mass) {
		return Sheet{}, fmt.Errorf("similitude: full-size mass %g kg is not positive", full.Mass)
	}
	s := Sheet{Ratios: r, ModelAir: modelAir, FullAir: fullAir, Rows: []Row{}, CG: []PlaceRow{}, Speeds: []SpeedRow{}, Times: []TimeRow{}}
	s.Rows = append(s.Rows, massRows(r, full, weighed)...)
	s.CG = append(s.CG, placeRows(r, full, weighed)...)
	for _, v := range full.Speeds {
		if !positive(v.True) {
			return Sheet{}, fmt.Errorf("similitude: full-size speed %q: %g m/s is not positive", v.Name, v.True)
		}
		s.Speeds = append(s.Speeds, speedRow(r, full, modelAir, fullAir, v, weighed))
	}
	for _, t := range full.Times {
		s.Times = append(s.Times, TimeRow{Name: t.Name, Full: t.Seconds, Model: t.Seconds * r.Time})
	}
	return s, nil
}

func speedRow(r Ratios, full FullSize, modelAir, fullAir atmosphere.State, v Speed, weighed *Weighed) SpeedRow {
	row := SpeedRow{
		Name:           v.Name,
		FullTrue:       v.True,
		FullCalibrated: atmosphere.CalibratedAirspeed(v.True, fullAir.Pressure, fullAir.Temperature),
		ModelTrue:      v.True * r.Speed,
	}
	row.ModelCalibrated = atmosphere.CalibratedAirspeed(row.ModelTrue, modelAir.Pressure, modelAir.Temperature)
	row.FullMach, row.ModelMach = row.FullTrue/fullAir.SoundSpeed, row.ModelTrue/modelAir.SoundSpeed
	if full.WingArea > 0 {
		lift := full.Mass * atmosphere.Gravity / (0.5 * fullAir.Density * v.True * v.True * full.WingArea)
		row.Lift = &lift
	}
	if full.MeanChord > 0 {
		atFull := Reynolds(fullAir, row.FullTrue, full.MeanChord)
		atModel := Reynolds(modelAir, row.ModelTrue, full.MeanChord*r.Length)
		row.FullReynolds, row.ModelReynolds = &atFull, &atModel
	}
	if weighed != nil && weighed.Mass > 0 {
		asWeighed := row.ModelTrue * math.Sqrt(weighed.Mass/(full.Mass*r.Mass))
		calibrated := atmosphere.CalibratedAirspeed(asWeighed, modelAir.Pressure, modelAir.Temperature)
		row.BallastTrue, row.BallastCalibrated = &asWeighed, &calibrated
	}
	return row
}

// Reynolds is ρ·V·length/μ, from true airspeed [m/s] and length [m].
func Reynolds(air atmosphere.State, trueAirspeed, length float64) float64 {
	return air.Density * trueAirspeed * length / air.Viscosity
}
