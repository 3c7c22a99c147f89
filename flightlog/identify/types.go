package identify

import (
	"wingproof/aero"
	"wingproof/aero/stability"
	"wingproof/flightlog"
)

// Axis tells the two halves of the motion apart.
type Axis string

// The two halves of the motion.
const (
	Longitudinal Axis = "longitudinal"
	Lateral      Axis = "lateral"
)

// Names of the derivatives that fits give, all per radian; rates are made dimensionless with b/2V, c/2V and b/2V. What is measured
// as pitch damping is Cm_q + (1 − κ·CL_q)·Cm_α̇ and as pitch stiffness Cm_α − κ·CL_α·Cm_α̇ with κ = ρSc/(4m), as yaw damping Cn_r − Cn_β̇·cos α.
// Pitch by alpha rate is what of the pitching moment goes with gc/(2V²), the rate at which weight turns the path: Cm_α̇, where no
// propeller's force changes with speed.
const (
	LiftCurveSlope      = "lift_curve_slope" // CL_α
	LiftByPitchRate     = "lift_by_pitch_rate"
	ElevatorLift        = "elevator_lift"   // CL_δe
	PitchStiffness      = "pitch_stiffness" // Cm_α
	PitchDamping        = "pitch_damping"
	ElevatorPower       = "elevator_power" // Cm_δe
	PitchByAlphaRate    = "pitch_by_alpha_rate"
	SideForceSlope      = "side_force_slope" // CY_β
	SideForceByRollRate = "side_force_by_roll_rate"
	SideForceByYawRate  = "side_force_by_yaw_rate"
	SideForceByAileron  = "side_force_by_aileron"
	SideForceByRudder   = "side_force_by_rudder"
	DihedralEffect      = "dihedral_effect"       // Cl_β
	RollDamping         = "roll_damping"          // Cl_p
	RollDueToYaw        = "roll_due_to_yaw"       // Cl_r
	AileronPower        = "aileron_power"         // Cl_δa
	RollByRudder        = "roll_by_rudder"        // Cl_δr
	DirectionalStiff    = "directional_stiffness" // Cn_β
	YawDueToRoll        = "yaw_due_to_roll"       // Cn_p
	YawDamping          = "yaw_damping"
	YawByAileron        = "yaw_by_aileron" // Cn_δa
	RudderPower         = "rudder_power"   // Cn_δr
)

// Segment is one manoeuvre on a uniform grid, from some seconds before the first movement of a control to the end of the free
// response. SI and radians, body axes at the CG of the day; all histories have the same length.
type Segment struct {
	Flight  string
	Kind    string             // doublet, multistep …
	Control flightlog.Quantity // that was moved; both rudders go by the name of the left one
	Power   string             // idle, level or full
	Start   float64            // s of the recording at the first sample
	Step    float64            // s between samples

	// Between readings of the airspeed tube and of the logged angles, s, where those come more slowly than the samples: what stands between
	// is interpolated and counts for nothing as an output. 0 is a reading at each sample.
	AirspeedStep, AttitudeStep float64

	RollRate, PitchRate, YawRate        []float64 // without the biases that the reconstruction found
	ForwardForce, RightForce, DownForce []float64 // specific force at the CG, m/s²
	Roll, Pitch                         []float64
	Airspeed                            []float64 // true, m/s
	Alpha, Beta                         []float64 // as reconstructed: for starting values and equation error, never fitted by output error
	Elevator, Aileron, Rudder           []float64 // commanded surface angles as logged; rudder is the mean of both

	Density  float64        // kg/m³
	Gusts    float64        // m/s, sd of each horizontal component as the flight showed it; 0 when not known
	Body     stability.Body // the model on that day; an inertia of zero was not measured
	CGX, CGZ float64        // model-size m aft of and above the model's datum
}

// Setup is what all segments of a fit share.
type Setup struct {
	Reference        aero.Reference               // model size
	MomentX, MomentZ float64                      // model-size m aft of and above datum: the point that the derivatives refer to
	Servos           map[flightlog.Quantity]Servo // elevator, aileron, rudder_left; one that is missing is not known
	Errors           Errors
}

// Servo is how a surface follows its command: pure delay, then a first-order lag whose speed is limited, then backlash.
type Servo struct {
	Delay    float64 // s
	Lag      float64 // time constant, s
	Rate     float64 // highest rate, rad/s; 0 is no limit
	Backlash float64 // whole width of the play, rad
	LagSD    float64 // s, of the lag; an error of the delay is taken up by the unknown times of edges
	Source   string  // bench test, say
}

// Errors are the standard deviations of what all segments share; see package source.
type Errors struct {
	AirspeedScale                            float64 // relative
	Mass                                     float64 // relative
	Density                                  float64 // relative, as it enters dynamic pressure from the airspeed of a tube
	CG                                       float64 // model-size m
	Mounting                                 float64 // rad, of the inertial unit, nose up against the datum axis
	InertiaX, InertiaY, InertiaZ             float64 // relative
	ElevatorScale, AileronScale, RudderScale float64 // relative
}

// Fit is what segments say about the derivatives of one axis.
type Fit struct {
	Axis            Axis         `json:"axis"`
	Method          string       `json:"method"`
	Flights         []string     `json:"flights"`
	Segments        int          `json:"segments"`
	Power           string       `json:"power"`
	MomentX         float64      `json:"moment_x_m"` // model size
	MomentZ         float64      `json:"moment_z_m"`
	LiftCoefficient float64      `json:"lift_coefficient"` // mean before the inputs
	Airspeed        float64      `json:"true_airspeed_m_s"`
	Density         float64      `json:"density_kg_m3"`
	Derivatives     []Derivative `json:"derivatives"`
	Covariance      [][]float64  `json:"covariance"`   // of the random parts, in the order of Derivatives, residual colour included; what is not determined has zeros
	Condition       float64      `json:"condition"`    // of the scaled information matrix
	Correlations    []Pair       `json:"correlations"` // the pairs whose estimates move together, most first
	Iterations      int          `json:"iterations"`
	Histories       []History    `json:"histories"`
	Warnings        []string     `json:"warnings"`
}

// Derivative is one number of a fit.
type Derivative struct {
	Quantity   string             `json:"quantity"`
	Value      float64            `json:"value"`
	SD         float64            `json:"sd"`       // random part, residual colour included
	WhiteSD    float64            `json:"sd_white"` // as if residuals were white: the Cramér–Rao bound as printed in books
	Common     map[string]float64 `json:"common"`   // signed effect of one standard deviation of each shared source
	Determined bool               `json:"determined"`
	Why        string             `json:"why"` // when it is not determined: what the input did not excite, in words
}

// Pair are two derivatives whose estimates are correlated.
type Pair struct {
	One, Other  string
	Correlation float64
}

// History is one segment measured and fitted.
type History struct {
	Flight  string             `json:"flight"`
	Kind    string             `json:"kind"`
	Control flightlog.Quantity `json:"control"`
	Start   float64            `json:"start_s"`
	Step    float64            `json:"step_s"`
	Input   []float64          `json:"input_rad"` // the surface that was moved, behind its servo
	Signals []Signal           `json:"signals"`
}

// Signal is one output of the model beside what was measured.
type Signal struct {
	Name            string    `json:"name"` // pitch_rate, down_acceleration …
	Unit            string    `json:"unit"`
	Measured        []float64 `json:"measured"`
	Fitted          []float64 `json:"fitted"`
	Autocorrelation float64   `json:"autocorrelation"` // of neighbouring residuals
}
