package study

import (
	"fmt"
	"math"
	"strings"

	"wingproof/aero"
	"wingproof/aero/similitude"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
)

// ScaleOptions says which loading the model imitates and which weighing it is compared with.
type ScaleOptions struct {
	Loading  string // of program.toml; empty: the gross mass, with the CG midway between the ends of the loadings that fly
	Weighing string // of the table of weighings; empty: the newest
}

// Doubt is how well a full-size figure is known that a target follows from.
type Doubt struct {
	Quantity string  `json:"quantity"`
	Percent  float64 `json:"sd_percent"`
	Status   string  `json:"status"` // estimated or weighed
}

// Scaling is the whole answer to how the model is ballasted.
type Scaling struct {
	Program  string               `json:"program"`
	Imitates similitude.Loading   `json:"imitates"`
	CGXSD    *float64             `json:"imitated_cg_x_sd_m"` // of the full-size CG, from the empty weight; null without one
	Sheet    similitude.Sheet     `json:"sheet"`
	Doubts   []Doubt              `json:"full_size_doubts"`
	Loadings []similitude.Loading `json:"loadings"` // those that fly, CG furthest forward first
	Weighing string               `json:"weighing"` // name; empty when there is none
	Weighed  string               `json:"weighed"`  // its date
	Ballast  *similitude.Proposal `json:"ballast"`  // null without a weighing, a target CG or a bay: Notes say which
	Notes    []string             `json:"notes"`
}

// ScaleOf works out the targets of the model, what the weighing is off by, and the ballast that mends it.
//
// It returns an *InputError when the loading or the weighing is not in the folder.
func ScaleOf(p *program.Program, o ScaleOptions) (Scaling, error) {
	out := Scaling{Program: p.Name, Doubts: []Doubt{}, Loadings: []similitude.Loading{}, Notes: []string{}}
	if p.FullSize.Mass.Value <= 0 {
		return out, errNoMass()
	}
	baseline, _, err := p.Airframe(p.Configurations()[0])
	if err != nil {
		return out, err
	}
	name, mass, cg, err := imitated(p, o.Loading)
	if err != nil {
		return out, err
	}
	weighing, err := weighingOf(p, o.Weighing)
	if err != nil {
		return out, err
	}
	full, err := fullSizeOf(p, baseline.Reference, mass, cg)
	if err != nil {
		return out, err
	}
	if out.Sheet, err = similitude.NewSheet(p.Model.LengthRatio, full, p.Model.TestAltitude, p.FullSize.CruiseAltitude, onScales(weighing, p.Model.LengthRatio)); err != nil {
		return out, err
	}
	out.Imitates = similitude.NewLoading(out.Sheet.Ratios, name, mass, cg, baseline.Reference.Percent)
	out.describe(p, o.Loading)
	out.list(p, baseline.Reference)
	if weighing != nil {
		out.Weighing, out.Weighed = weighing.Name, weighing.Date
	}
	return out, out.ballast(p, weighing)
}

// imitated finds the loading: its name in words, full-size mass, and CG, nil when the folder does not tell it.
func imitated(p *program.Program, asked string) (name string, mass float64, cg *similitude.Place, err error) {
	if asked == "" {
		return "gross mass", p.FullSize.Mass.Value, middleCG(p), nil
	}
	var names []string
	for _, l := range p.Loadings {
		names = append(names, `"`+l.Name+`"`)
		if !sameName(l.Name, asked) {
			continue
		}
		if p.FullSize.EmptyMass.Value <= 0 {
			return "", 0, nil, &InputError{fmt.Sprintf("--loading: the mass of %q is not known, because the empty aircraft is not stated", l.Name),
				"state empty_mass_kg, empty_cg_x_m and empty_cg_z_m in [full_size] of program.toml, or leave --loading out"}
		}
		mass, place := loadedAt(p.FullSize, l)
		return l.Name, mass, &place, nil
	}
	if len(names) == 0 {
		return "", 0, nil, &InputError{fmt.Sprintf("--loading: there is no loading %q, nor any other", asked), "add a [[loading]] to program.toml, or leave --loading out"}
	}
	return "", 0, nil, &InputError{fmt.Sprintf("--loading: there is no loading %q", asked), "loadings of program.toml are " + strings.Join(names, "; ")}
}

// sameName compares names as the tables do: case and space around do not count.
func sameName(a, b string) bool { return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b)) }

// loadedAt is mass and CG of the empty aircraft with a loading, full size.
func loadedAt(f program.FullSize, l program.Loading) (mass float64, cg similitude.Place) {
	mass, x := prediction.LoadedCG(f, l)
	z := f.EmptyMass.Value * f.EmptyZ.Value
	for _, item := range l.Items {
		z += item.Mass * item.Z
	}
	return mass, similitude.Place{X: x, Z: z / mass}
}

// middleCG lies midway between the flying loadings whose CG is furthest forward and furthest aft; nil when there are none.
func middleCG(p *program.Program) *similitude.Place {
	ends := endLoadings(p)
	if ends == nil {
		return nil
	}
	_, front := loadedAt(p.FullSize, ends[0])
	_, back := loadedAt(p.FullSize, ends[1])
	return &similitude.Place{X: 0.5 * (front.X + back.X), Z: 0.5 * (front.Z + back.Z)}
}

// endLoadings are the flying loadings whose CG is furthest forward and furthest aft; nil when the folder knows none.
func endLoadings(p *program.Program) []program.Loading {
	flying := prediction.FlyingLoadings(p)
	if p.FullSize.EmptyMass.Value <= 0 || len(flying) == 0 {
		return nil
	}
	ends := []program.Loading{flying[0], flying[0]}
	front := math.Inf(1)
	back := math.Inf(-1)
	for _, l := range flying {
		_, x := prediction.LoadedCG(p.FullSize, l)
		if x < front {
			front, ends[0] = x, l
		}
		if x > back {
			back, ends[1] = x, l
		}
	}
	return ends
}

func weighingOf(p *program.Program, asked string) (*program.Weighing, error) {
	if asked == "" {
		return newestWeighing(p.Weighings), nil
	}
	var names []string
	for i := range p.Weighings {
		if sameName(p.Weighings[i].Name, asked) {
			return &p.Weighings[i], nil
		}
		names = append(names, `"`+p.Weighings[i].Name+`"`)
	}
	if len(names) == 0 {
		return nil, &InputError{fmt.Sprintf("--weighing: there is no weighing %q, nor any other", asked), "weigh the model: wingproof weigh --help, or leave --weighing out"}
	}
	return nil, &InputError{fmt.Sprintf("--weighing: there is no weighing %q", asked), "weighings are " + strings.Join(names, "; ")}
}

// describe says what the loading rests on.
func (s *Scaling) describe(p *program.Program, asked string) {
	f, of := p.FullSize, p.FullSize.Mass
	s.Imitates.Flies = true
	var ends []program.Loading
	for _, l := range p.Loadings {
		if asked != "" && l.Name == s.Imitates.Name {
			s.Imitates.Flies, of, ends = l.Flies, f.EmptyMass, []program.Loading{l}
		}
	}
	if asked == "" {
		ends = endLoadings(p)
	}
	s.CGXSD = placeSD(f, ends)
	s.Doubts = append(s.Doubts, Doubt{"mass", 100 * of.SD / s.Imitates.Mass, of.Status})
	stated := false
	for _, i := range []struct {
		name string
		f    program.Figure
	}{{"Ix", f.Ix}, {"Iy", f.Iy}, {"Iz", f.Iz}} {
		if i.f.Value > 0 {
			s.Doubts = append(s.Doubts, Doubt{i.name, 100 * i.f.SD / i.f.Value, i.f.Status})
			stated = true
		}
	}
	if off := 100 * (s.Imitates.Mass/f.Mass.Value - 1); stated && math.Abs(off) >= 1 {
		s.note("the inertias are those that [full_size] states, for the gross mass; %q weighs %.1f %% %s, so its own differ", s.Imitates.Name, math.Abs(off), map[bool]string{true: "more", false: "less"}[off > 0])
	}
	if !s.Imitates.Flies {
		s.note("%q is a case on the ground only (flies = false)", s.Imitates.Name)
	}
}

// placeSD is the standard deviation of the mean CG station of loadings, which share the errors of the empty weight; nil of none.
func placeSD(f program.FullSize, loadings []program.Loading) *float64 {
	if len(loadings) == 0 {
		return nil
	}
	var cg, mass float64
	for _, l := range loadings {
		errors := prediction.LoadedCGErrors(f, l)
		cg += errors[prediction.SourceEmptyCG] / float64(len(loadings))
		mass += errors[prediction.SourceEmptyMass] / float64(len(loadings))
	}
	sd := math.Hypot(cg, mass)
	return &sd
}

func (s *Scaling) note(format string, parts ...any) {
	s.Notes = append(s.Notes, fmt.Sprintf(format, parts...))
}

// list sets the flying loadings at both sizes, CG furthest forward first.
func (s *Scaling) list(p *program.Program, ref aero.Reference) {
	if p.FullSize.EmptyMass.Value <= 0 {
		return
	}
	for _, l := range prediction.FlyingLoadings(p) {
		mass, cg := loadedAt(p.FullSize, l)
		one := similitude.NewLoading(s.Sheet.Ratios, l.Name, mass, &cg, ref.Percent)
		one.Flies = true
		at := len(s.Loadings)
		for at > 0 && *s.Loadings[at-1].CGX > cg.X {
			at--
		}
		s.Loadings = append(s.Loadings[:at], append([]similitude.Loading{one}, s.Loadings[at:]...)...)
	}
}
