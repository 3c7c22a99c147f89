package aero

// Coefficients are forces over ½ρV²S and moments over ½ρV²Sb (roll, yaw) and ½ρV²Sc (pitch).
// Lift and Drag stand in wind axes, Side is +Y right, moments are body axes about a stated point:
// roll right, nose up and nose right positive. The same struct holds derivatives of those.
type Coefficients struct {
	Lift, Drag, Side float64
	Roll, Pitch, Yaw float64
}

// Plus returns the sum a + b.
func (a Coefficients) Plus(b Coefficients) Coefficients {
	return Coefficients{a.Lift + b.Lift, a.Drag + b.Drag, a.Side + b.Side, a.Roll + b.Roll, a.Pitch + b.Pitch, a.Yaw + b.Yaw}
}

// Times returns k·a.
func (a Coefficients) Times(k float64) Coefficients {
	return Coefficients{k * a.Lift, k * a.Drag, k * a.Side, k * a.Roll, k * a.Pitch, k * a.Yaw}
}

// Derivatives is the linear model of an aircraft about one state.
//
// The rates are made dimensionless with b/2V (roll, yaw) and c/2V (pitch); angles are radians.
type Derivatives struct {
	Reference   Reference
	MomentPoint float64 // x of the point that moments refer to, m aft of datum
	MomentZ     float64 // z of that point, m above datum
	Alpha       float64 // angle of attack of the datum x axis at the state, rad

	At          Coefficients            // at the state, controls neutral
	ByAlpha     Coefficients            // per rad of angle of attack
	ByBeta      Coefficients            // per rad of sideslip
	ByRollRate  Coefficients            // per pb/2V
	ByPitchRate Coefficients            // per qc/2V
	ByYawRate   Coefficients            // per rb/2V
	ByControl   map[string]Coefficients // per rad: elevator and flap both sides down; aileron left down, right up; rudder both trailing edges left
}
