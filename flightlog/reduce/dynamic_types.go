package reduce

// StallPoint is the peak of lift in one deceleration. Model size, SI, radians.
type StallPoint struct {
	Flight          string  `json:"flight"`
	Start           float64 `json:"start_s"` // of the deceleration
	Time            float64 `json:"time_s"`  // of the greatest lift
	Power           Power   `json:"power"`
	Mass            float64 `json:"mass_kg"`
	CG              float64 `json:"cg_m"` // model size, aft of the model's datum
	Slowing         float64 `json:"slowing_m_s2"`
	Airspeed        float64 `json:"true_airspeed_m_s"`
	Reynolds        float64 `json:"reynolds"`
	Lift            float64 `json:"lift_coefficient"` // greatest before the break
	LiftSD          float64 `json:"lift_coefficient_sd"`
	Alpha           float64 `json:"alpha_rad"`
	AlphaSD         float64 `json:"alpha_sd_rad"` // random part
	AlphaAbsoluteSD float64 `json:"alpha_absolute_sd_rad"`
	Elevator        float64 `json:"elevator_rad"`
	Broke           bool    `json:"broke"` // a break showed; without one the lift is a lower bound
	First           string  `json:"first"` // foreplane, wing, or unknown
	Sign            string  `json:"sign"`  // what tells it: the nose dropped, a wing dropped, the nose rose
	Kept            bool    `json:"kept"`
	Reason          string  `json:"reason"`
}

// The surfaces that StallPoint.First names.
const (
	FirstForeplane = "foreplane"
	FirstWing      = "wing" // a danger: print it as one
	FirstUnknown   = "unknown"
)

// SlipPoint is the mean over one steady-heading sideslip.
type SlipPoint struct {
	Flight             string  `json:"flight"`
	Start              float64 `json:"start_s"`
	End                float64 `json:"end_s"`
	Power              Power   `json:"power"`
	Mass               float64 `json:"mass_kg"`
	CG                 float64 `json:"cg_m"`
	Airspeed           float64 `json:"true_airspeed_m_s"`
	Lift               float64 `json:"lift_coefficient"`
	Sideslip           float64 `json:"sideslip_rad"`
	SideslipSD         float64 `json:"sideslip_sd_rad"`          // random part
	SideslipAbsoluteSD float64 `json:"sideslip_absolute_sd_rad"` // with what one flight shares
	Rudder             float64 `json:"rudder_rad"`               // mean of both
	RudderSD           float64 `json:"rudder_sd_rad"`
	Aileron            float64 `json:"aileron_rad"`
	AileronSD          float64 `json:"aileron_sd_rad"`
	Bank               float64 `json:"bank_rad"`
	SideForce          float64 `json:"side_force_coefficient"`
	SideForceSD        float64 `json:"side_force_coefficient_sd"`
	RollRate           float64 `json:"roll_rate_rad_s"` // what was left of turning
	YawRate            float64 `json:"yaw_rate_rad_s"`
	Kept               bool    `json:"kept"`
	Reason             string  `json:"reason"`
}

// LoadPoint is the mean over a steady turn, or the peak of a pull-up: load factor above one at a steady elevator.
type LoadPoint struct {
	Flight       string  `json:"flight"`
	Start        float64 `json:"start_s"`
	End          float64 `json:"end_s"`
	Kind         string  `json:"kind"` // turn, circle, pull_up
	Power        Power   `json:"power"`
	Mass         float64 `json:"mass_kg"`
	CG           float64 `json:"cg_m"`
	Airspeed     float64 `json:"true_airspeed_m_s"`
	LoadFactor   float64 `json:"load_factor"`
	LoadFactorSD float64 `json:"load_factor_sd"`
	Lift         float64 `json:"lift_coefficient"`
	LiftSD       float64 `json:"lift_coefficient_sd"`
	Alpha        float64 `json:"alpha_rad"`
	AlphaSD      float64 `json:"alpha_sd_rad"`
	PitchRate    float64 `json:"pitch_rate_rad_s"`
	Elevator     float64 `json:"elevator_rad"`
	ElevatorSD   float64 `json:"elevator_sd_rad"`
	Kept         bool    `json:"kept"`
	Reason       string  `json:"reason"`
}
