package similitude

import (
	"fmt"
	"math"

	"wingproof/aero/atmosphere"
)

// Ratios holds model over full size for each kind of quantity under Froude scaling.
type Ratios struct {
	Length              float64 `json:"length"`               // λ
	Area                float64 `json:"area"`                 // λ²
	Volume              float64 `json:"volume"`               // λ³
	Speed               float64 `json:"speed"`                // true airspeed, √λ
	CalibratedSpeed     float64 `json:"calibrated_speed"`     // √(λσ), incompressible; Sheet uses the compressible relation
	Time                float64 `json:"time"`                 // periods, times to half, √λ
	LinearAcceleration  float64 `json:"linear_acceleration"`  // 1: both fly in the same gravity
	AngularRate         float64 `json:"angular_rate"`         // angular velocities and frequencies, 1/√λ
	AngularAcceleration float64 `json:"angular_acceleration"` // 1/λ
	Density             float64 `json:"density"`              // air, σ
	Viscosity           float64 `json:"viscosity"`            // air, dynamic
	Mass                float64 `json:"mass"`                 // λ³σ
	Force               float64 `json:"force"`                // weight, thrust, lift, λ³σ
	WingLoading         float64 `json:"wing_loading"`         // λσ
	DynamicPressure     float64 `json:"dynamic_pressure"`     // λσ
	Moment              float64 `json:"moment"`               // λ⁴σ
	Energy              float64 `json:"energy"`               // work, λ⁴σ
	Momentum            float64 `json:"momentum"`             // impulse, λ^3.5·σ
	AngularMomentum     float64 `json:"angular_momentum"`     // λ^4.5·σ
	Inertia             float64 `json:"inertia"`              // λ⁵σ
	Power               float64 `json:"power"`                // λ^3.5·σ
	Stiffness           float64 `json:"stiffness"`            // bending EI and torsion GJ that deflect alike, λ⁵σ
	Spring              float64 `json:"spring"`               // force per length, λ²σ
	Damper              float64 `json:"damper"`               // force per speed, λ^2.5·σ
	Angle               float64 `json:"angle"`                // 1: angles, lift coefficient, damping ratios, relative density
	Reynolds            float64 `json:"reynolds"`             // λ^1.5·σ over the viscosity ratio
	Mach                float64 `json:"mach"`                 // √λ over the ratio of sound speeds
}

// Froude returns the ratios for a length ratio λ (model/full size) between the air in which the model is
// tested and the air in which the full-size aircraft flies.
//
// It returns an error when λ or an air property is not positive and finite.
//
// Source: NASA TP-1435; density-ratio forms from equal relative density.
func Froude(lengthRatio float64, model, full atmosphere.State) (Ratios, error) {
	n := lengthRatio
	if !positive(n) {
		return Ratios{}, fmt.Errorf("similitude: length ratio %g is not positive; give model over full size, such as 0.25", n)
	}
	for _, air := range []struct {
		where string
		state atmosphere.State
	}{{"model", model}, {"full-size", full}} {
		if !positive(air.state.Density) || !positive(air.state.Viscosity) || !positive(air.state.SoundSpeed) {
			return Ratios{}, fmt.Errorf("similitude: the %s air needs a positive density, viscosity and speed of sound (%g kg/m³, %g Pa·s, %g m/s)",
				air.where, air.state.Density, air.state.Viscosity, air.state.SoundSpeed)
		}
	}
	return froude(n, model.Density/full.Density, model.Viscosity/full.Viscosity, model.SoundSpeed/full.SoundSpeed), nil
}

func froude(n, sigma, viscosity, sound float64) Ratios {
	root := math.Sqrt(n)
	return Ratios{
		Length:              n,
		Area:                n * n,
		Volume:              n * n * n,
		Speed:               root,
		CalibratedSpeed:     math.Sqrt(n * sigma),
		Time:                root,
		LinearAcceleration:  1,
		AngularRate:         1 / root,
		AngularAcceleration: 1 / n,
		Density:             sigma,
		Viscosity:           viscosity,
		Mass:                n * n * n * sigma,
		Force:               n * n * n * sigma,
		WingLoading:         n * sigma,
		DynamicPressure:     n * sigma,
		Moment:              n * n * n * n * sigma,
		Energy:              n * n * n * n * sigma,
		Momentum:            n * n * n * root * sigma,
		AngularMomentum:     n * n * n * n * root * sigma,
		Inertia:             n * n * n * n * n * sigma,
		Power:               n * n * n * root * sigma,
		Stiffness:           n * n * n * n * n * sigma,
		Spring:              n * n * sigma,
		Damper:              n * n * root * sigma,
		Angle:               1,
		Reynolds:            n * root * sigma / viscosity,
		Mach:                root / sound,
	}
}

func positive(x float64) bool { return x > 0 && !math.IsInf(x, 1) }
