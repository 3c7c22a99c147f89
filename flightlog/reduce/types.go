package reduce

import (
	"slices"

	"wingproof/aero/stability"
	"wingproof/flightlog"
	"wingproof/flightlog/identify"
	"wingproof/flightlog/manoeuvre"
	"wingproof/flightlog/quality"
)

// Context is what the reduction must know about the model on the day of one flight. Model size, SI.
type Context struct {
	Flight        string
	Mass          float64          // kg
	WingArea      float64          // reference area of the model, m²
	MeanChord     float64          // mean aerodynamic chord of the model, m
	CG            flightlog.Place  // of this flight, model size from the model's datum
	Pressure      float64          // at the field, Pa; 0 when nobody wrote it down
	Temperature   float64          // at the field, K; 0 when nobody wrote it down
	BoresightSD   float64          // mounting of the inertial unit, rad; 0 for the usual
	VerticalAirSD float64          // steady vertical air, m/s; 0 for the usual
	Aircraft      quality.Aircraft // what is known of the model beside, to tell a log of another one; the zero value asks nothing
	Inertia       stability.Body   // Ix, Iy, Iz and Ixz of the weighing, kg·m²; zero when not measured. Its mass is not read
	Marks         []Mark           // stretches marked by hand; they override the search
}

// Mark is a stretch that somebody marked by hand. Its window becomes a point as it stands, whatever the
// limits of the search say; LeaveOut keeps every window out of it.
type Mark struct {
	Start, End float64 // s of the recording
	Kind       string  // one of MarkKinds
}

// LeaveOut marks a stretch in which no test point may lie.
const LeaveOut = "leave out"

// MarkKinds lists what a hand mark may say: what becomes a test point as it stands, what leaves a stretch out, and manoeuvres, which
// take the place of what was found there and keep test points out.
func MarkKinds() []string {
	kinds := []string{"glide", "level", "climb", LeaveOut}
	for _, k := range manoeuvre.Kinds() {
		if !slices.Contains(kinds, string(k)) {
			kinds = append(kinds, string(k))
		}
	}
	return kinds
}

// givesPoint tells whether the stretch of a mark becomes a test point.
func (m Mark) givesPoint() bool { return m.Kind == "glide" || m.Kind == "level" || m.Kind == "climb" }

// Power is the propeller's state during a test point.
type Power string

// Idle is throttle closed (the propeller stopped or windmilling), level is the throttle that holds level
// flight, full is full throttle.
const (
	Idle  Power = "idle"
	Level Power = "level"
	Full  Power = "full"
)

// TestPoint is the mean over one steady stretch of a flight. Model size, SI, radians.
type TestPoint struct {
	Flight          string  `json:"flight"`
	Start           float64 `json:"start_s"`
	End             float64 `json:"end_s"`
	Kind            string  `json:"kind"` // glide, level, climb, sideslip
	Power           Power   `json:"power"`
	Mass            float64 `json:"mass_kg"`
	CG              float64 `json:"cg_m"` // model size, aft of the model's datum
	Airspeed        float64 `json:"true_airspeed_m_s"`
	AirspeedSD      float64 `json:"true_airspeed_sd_m_s"` // scatter over the stretch, about its trend
	DynamicPressure float64 `json:"dynamic_pressure_pa"`
	Density         float64 `json:"density_kg_m3"`
	Reynolds        float64 `json:"reynolds"`
	LoadFactor      float64 `json:"load_factor"`
	Bank            float64 `json:"bank_rad"`
	PathAngle       float64 `json:"path_angle_rad"`
	Alpha           float64 `json:"alpha_rad"`
	AlphaSD         float64 `json:"alpha_sd_rad"` // random part
	AlphaMethod     string  `json:"alpha_method"`
	AlphaAbsoluteSD float64 `json:"alpha_absolute_sd_rad"` // with what one flight shares; 0 for a vane, whose mounting nothing tells
	Sideslip        float64 `json:"sideslip_rad"`
	SideslipSD      float64 `json:"sideslip_sd_rad"` // absolute
	HasSideslip     bool    `json:"has_sideslip"`    // a path was reconstructed or a vane logged
	Elevator        float64 `json:"elevator_rad"`
	ElevatorSD      float64 `json:"elevator_sd_rad"`
	Lift            float64 `json:"lift_coefficient"`
	LiftSD          float64 `json:"lift_coefficient_sd"`
	Drag            float64 `json:"drag_coefficient"` // NaN-free: only glides hold one, HasDrag tells
	DragSD          float64 `json:"drag_coefficient_sd"`
	HasDrag         bool    `json:"has_drag"`
	Kept            bool    `json:"kept"`
	Reason          string  `json:"reason"` // why it was kept or dropped
}

// Reduction is what one recording gave.
type Reduction struct {
	Flight     string                `json:"flight"`
	Points     []TestPoint           `json:"points"`
	Air        Air                   `json:"air"`
	Manoeuvres []manoeuvre.Manoeuvre `json:"manoeuvres"`
	Stalls     []StallPoint          `json:"stalls"`
	Slips      []SlipPoint           `json:"sideslips"`
	Loads      []LoadPoint           `json:"turns"`
	Segments   []identify.Segment    `json:"-"` // of every doublet and multistep
	Findings   []flightlog.Finding   `json:"findings"`
}
