package lattice

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// caseFile is testdata/canard-case.json: an invented foreplane aircraft.
type caseFile struct {
	Reference struct {
		Area         float64    `json:"area_m2"`
		Span         float64    `json:"span_m"`
		Chord        float64    `json:"mean_aerodynamic_chord_m"`
		LeadingEdge  float64    `json:"mean_aerodynamic_chord_leading_edge_x_m"`
		MomentPointM [3]float64 `json:"moment_point_m"`
	} `json:"reference"`
	Mass       float64     `json:"mass_kg"`
	LoadFactor float64     `json:"load_factor"`
	Wing       caseSurface `json:"wing"`
	Winglet    caseSurface `json:"winglet"`
	Foreplane  caseSurface `json:"foreplane"`
}

type caseSurface struct {
	MeanLine struct{ Camber, Place float64 } `json:"mean_line"`
	Stations []caseStation                   `json:"stations"`
	Levels   map[string][]caseStation        `json:"levels"`
}

type caseStation struct {
	X         float64 `json:"x_m"`
	Y         float64 `json:"y_m"`
	Z         float64 `json:"z_m"`
	Chord     float64 `json:"chord_m"`
	Incidence float64 `json:"incidence_deg"`
}

// truthFile is testdata/canard-truth.json.
type truthFile struct {
	Combinations []truth `json:"combinations"`
}

type truth struct {
	Winglet    string                         `json:"winglet"`
	Foreplane  string                         `json:"foreplane"`
	Quantities map[string]truthValue          `json:"quantities"`
	SectionCl  map[string][]truthSectionValue `json:"section_cl_at_CL0.5"`
}

type truthValue struct{ Value, Error float64 }

type truthSectionValue struct {
	Fraction float64 `json:"fraction"`
	Y        float64 `json:"y_m"`
	Z        float64 `json:"z_m"`
	Cl       float64 `json:"cl"`
	Error    float64 `json:"error"`
}

func readJSON(t testing.TB, name string, into any) {
	t.Helper()
	raw, err := os.ReadFile(filepath.Join("..", "..", "testdata", name))
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(raw, into))
}

// parabolas is the mean line of the four-digit family, written out here because packages below aero
// do not import one another.
type parabolas struct{ camber, place float64 }

func (p parabolas) Slope(x float64) float64 {
	if x < p.place {
		return 2 * p.camber / (p.place * p.place) * (p.place - x)
	}
	return 2 * p.camber / ((1 - p.place) * (1 - p.place)) * (p.place - x)
}

func (c caseSurface) stations(list []caseStation, up r3.Vec) []aero.Station {
	out := make([]aero.Station, len(list))
	for i, s := range list {
		sin, cos := math.Sincos(s.Incidence * math.Pi / 180)
		le := r3.Vec{X: s.X, Y: s.Y, Z: s.Z}
		out[i] = aero.Station{
			LeadingEdge:  le,
			TrailingEdge: r3.Add(le, r3.Add(r3.Vec{X: s.Chord * cos}, r3.Scale(-s.Chord*sin, up))),
			MeanLine:     parabolas{c.MeanLine.Camber, c.MeanLine.Place},
		}
	}
	return out
}

// airframe builds one combination; the whole foreplane is a control named "foreplane".
func (c caseFile) airframe(winglet, foreplane string) aero.Airframe {
	up := r3.Vec{Z: 1}
	return aero.Airframe{
		Surfaces: []aero.Surface{
			{Name: "wing", Role: aero.RoleWing, Mirrored: true, Stations: c.Wing.stations(c.Wing.Stations, up)},
			{
				Name: "winglet", Role: aero.RoleWinglet, Mirrored: true, Joins: "wing", JoinsAt: aero.AtTip,
				Stations: c.Winglet.stations(c.Winglet.Levels[winglet], r3.Vec{Y: -1}),
			},
			{
				Name: "foreplane", Role: aero.RoleForeplane, Mirrored: true,
				Stations: c.Foreplane.stations(c.Foreplane.Levels[foreplane], up),
				Hinges:   []aero.Hinge{{Control: "foreplane", FromStation: 1, ToStation: 2, HingeFraction: 0, Effectiveness: 1}},
			},
		},
		Reference: aero.Reference{
			Area: c.Reference.Area, Span: c.Reference.Span,
			MeanChord: c.Reference.Chord, MeanChordLeadingEdge: c.Reference.LeadingEdge,
		},
	}
}

func (c caseFile) momentPoint() r3.Vec {
	p := c.Reference.MomentPointM
	return r3.Vec{X: p[0], Y: p[1], Z: p[2]}
}

// computed returns the quantities of the truth file from a solution.
func (c caseFile) computed(t testing.TB, s *Solution) map[string]float64 {
	t.Helper()
	q := make(map[string]float64)
	point := c.momentPoint()
	alpha, err := s.AlphaForLift(0.5, nil)
	require.NoError(t, err)
	for at, state := range map[string]State{"@alpha0": {}, "@CL0.5": {Alpha: alpha}} {
		d := s.Derivatives(state, point)
		q["lift_curve_slope"+at] = d.ByAlpha.Lift
		q["pitch_stiffness"+at] = d.ByAlpha.Pitch
		q["pitch_damping"+at] = d.ByPitchRate.Pitch
		q["lift_due_to_pitch_rate"+at] = d.ByPitchRate.Lift
		q["side_force_slope"+at] = d.ByBeta.Side
		q["directional_stiffness"+at] = d.ByBeta.Yaw
		q["dihedral_effect"+at] = d.ByBeta.Roll
		q["roll_damping"+at] = d.ByRollRate.Roll
		q["yaw_damping"+at] = d.ByYawRate.Yaw
		q["yaw_due_to_roll"+at] = d.ByRollRate.Yaw
		q["roll_due_to_yaw"+at] = d.ByYawRate.Roll
		q["neutral_point_m"+at] = s.NeutralPointAbout(state, point)
		q["lift_due_to_foreplane_incidence"+at] = d.ByControl["foreplane"].Lift
		q["pitch_due_to_foreplane_incidence"+at] = d.ByControl["foreplane"].Pitch
	}
	loaded := State{Alpha: alpha}
	q["alpha_at_CL0.5_rad"] = alpha
	q["CL_at_alpha0"] = s.Coefficients(State{}, point).Lift
	q["Cm_at_alpha0"] = s.Coefficients(State{}, point).Pitch
	q["Cm_at_CL0.5"] = s.Coefficients(loaded, point).Pitch
	q["induced_drag_far_at_CL0.5"] = s.InducedDrag(loaded)
	q["lift_far_at_CL0.5"] = s.farFieldLift(loaded)
	q["span_efficiency_far_at_CL0.5"] = s.SpanEfficiency(loaded)
	bending, winglet := rootBending(s.Strips(loaded))
	q["root_bending_coefficient_at_CL0.5"] = bending / (c.Reference.Area * c.Reference.Span)
	q["root_bending_share_of_winglet_at_CL0.5"] = winglet / bending
	q["root_bending_moment_n3.8_Nm"] = c.LoadFactor * c.Mass * 9.80665 * c.Reference.Span *
		q["root_bending_coefficient_at_CL0.5"] / 0.5
	return q
}

// rootBending is the moment over ½ρV² of wing and winglet about the x axis, and the winglet's part.
func rootBending(strips []aero.StripLoad) (all, winglet float64) {
	for _, s := range strips {
		m := s.Centre.Y*s.Force.Z - s.Centre.Z*s.Force.Y + s.Moment.X
		switch s.Surface {
		case "winglet":
			winglet += m
			all += m
		case "wing":
			all += m
		}
	}
	return all, winglet
}
