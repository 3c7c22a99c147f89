package aero

import "gonum.org/v1/gonum/spatial/r3"

// Role says what a lifting surface is for; it decides how controls on it are signed and which
// reference quantities count it.
type Role string

// The roles that a program folder may give to a lifting surface.
const (
	RoleWing      Role = "wing"
	RoleStrake    Role = "strake"
	RoleForeplane Role = "foreplane"
	RoleWinglet   Role = "winglet"
	RoleFin       Role = "fin"
)

// Roles lists every role in the order in which messages name them.
func Roles() []Role {
	return []Role{RoleWing, RoleStrake, RoleForeplane, RoleWinglet, RoleFin}
}

// MeanLine is the camber line of a section.
type MeanLine interface {
	// Slope returns dz/dx of the mean line at x, a fraction of the chord from the leading edge,
	// 0 ≤ x ≤ 1; z and x are both fractions of the chord.
	Slope(x float64) float64
}

// Station is one cut of a lifting surface in datum axes, full-size metres.
type Station struct {
	LeadingEdge  r3.Vec
	TrailingEdge r3.Vec
	Aerofoil     string   // name as in the program folder; empty for a flat plate
	MeanLine     MeanLine // nil for a section without camber
	Thickness    float64  // fraction of the chord; 0 when unknown
}

// Chord is the distance from the leading to the trailing edge in metres.
func (s Station) Chord() float64 { return r3.Norm(r3.Sub(s.TrailingEdge, s.LeadingEdge)) }

// Hinge is a control on a stretch of a lifting surface.
type Hinge struct {
	Control       string  // "elevator", "aileron", "rudder" or another name of the user's
	FromStation   int     // first station, counted from 1 as in the station table
	ToStation     int     // last station, counted from 1
	HingeFraction float64 // hinge line, fraction of the chord aft of the leading edge
	TravelMin     float64 // rad
	TravelMax     float64 // rad
	Effectiveness float64 // real flap over ideal flap (gap, boundary layer); 1 is ideal
}

// Surface is one lifting surface: stations from the inboard to the outboard end of the right half.
type Surface struct {
	Name     string
	Role     Role
	Joins    string // name of the surface whose end it continues; empty when it stands alone
	JoinsAt  string // "tip" or "root" of that surface; empty when it stands alone
	Mirrored bool   // right half given, left half is its mirror image; false: one surface on y = 0
	Stations []Station
	Hinges   []Hinge
}

// Airframe is the whole arrangement of lifting surfaces of one configuration.
type Airframe struct {
	Surfaces  []Surface
	Reference Reference
}

// Reference holds the quantities that make coefficients dimensionless. They belong to the main wing
// (roles wing and strake, projected on z = 0 and carried to y = 0); foreplane and winglets do not count.
type Reference struct {
	Area                 float64 // m²
	Span                 float64 // m
	MeanChord            float64 // mean aerodynamic chord, m
	MeanChordLeadingEdge float64 // x of its leading edge, m aft of datum
}

// Percent turns a station x [m aft of datum] into percent of the mean aerodynamic chord.
func (r Reference) Percent(x float64) float64 {
	return 100 * (x - r.MeanChordLeadingEdge) / r.MeanChord
}

// Station turns percent of the mean aerodynamic chord into metres aft of datum.
func (r Reference) Station(percent float64) float64 {
	return r.MeanChordLeadingEdge + percent/100*r.MeanChord
}

// Scaled returns the reference quantities of a copy whose lengths are ratio times as long.
func (r Reference) Scaled(ratio float64) Reference {
	return Reference{Area: r.Area * ratio * ratio, Span: r.Span * ratio, MeanChord: r.MeanChord * ratio, MeanChordLeadingEdge: r.MeanChordLeadingEdge * ratio}
}

// AspectRatio is span squared over area.
func (r Reference) AspectRatio() float64 { return r.Span * r.Span / r.Area }
