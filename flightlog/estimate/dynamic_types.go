package estimate

// Stall is the peak of lift in one deceleration: SI and radians; CG in full-size metres aft of datum.
type Stall struct {
	Flight   string
	CG       float64
	Lift     float64
	LiftSD   float64
	Alpha    float64
	AlphaSD  float64
	Slowing  float64 // m/s²
	Reynolds float64
	Broke    bool
	First    string // foreplane, wing or unknown
	Power    string
}

// Slip is a steady-heading sideslip: CG in full-size metres aft of datum; rudder is the mean of both.
type Slip struct {
	Flight                 string
	CG                     float64
	Lift                   float64
	Sideslip, SideslipSD   float64
	Rudder, RudderSD       float64
	Aileron, AileronSD     float64
	Bank                   float64
	SideForce, SideForceSD float64
	RollRate, YawRate      float64 // what was left of turning, made dimensionless with b/2V; 0 when steady
	Power                  string
}

// Load is a steady turn or the peak of a pull-up: CG in full-size metres aft of datum.
type Load struct {
	Flight                   string
	CG                       float64
	Kind                     string // turn, circle, pull_up
	LoadFactor, LoadFactorSD float64
	Lift, LiftSD             float64
	PitchRate                float64 // made dimensionless with c/2V
	Elevator, ElevatorSD     float64
	Power                    string
}
