package prediction

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
	"wingproof/aero/aerofoil"
	"wingproof/aero/atmosphere"
	"wingproof/aero/lattice"
	"wingproof/aero/stall"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
)

// stallProgram is an invented program for plain(): two loadings and a polar for each surface.
func stallProgram() *program.Program {
	p := &program.Program{Model: program.Model{LengthRatio: 0.25, TestAltitude: 300}}
	p.FullSize = program.FullSize{Mass: program.Figure{Value: 700}, EmptyMass: program.Figure{Value: 400}, EmptyX: program.Figure{Value: 2.3}, CruiseSpeed: 60, CruiseAltitude: 1500}
	p.Loadings = []program.Loading{
		{Name: "aft", Flies: true, Items: []program.Item{{Mass: 250, X: 2.3}}},
		{Name: "forward", Flies: true, Items: []program.Item{{Mass: 250, X: 2.1}}},
	}
	p.Aerofoils = []program.AerofoilData{
		{Name: "front", Thickness: 0.15, Polar: append(tableOf(aerofoil.Clean, 1.1, 0.5), tableOf(aerofoil.Contaminated, 0.9, 0.4)...)},
		{Name: "main", Thickness: 0.14, Polar: append(tableOf(aerofoil.Clean, 1.5, 0.6), tableOf(aerofoil.Contaminated, 1.2, 0.4)...)},
	}
	return p
}

// tableOf is a table that rises by 0.1 a decade of Reynolds number, with the maximum given at 1e6 and more by flap at 0.5 rad.
func tableOf(state string, most, flap float64) []program.PolarRow {
	var out []program.PolarRow
	drag := 0.01
	for _, reynolds := range []float64{1e4, 1e5, 1e6, 1e7} {
		for _, deflection := range []float64{-0.5, 0, 0.5} {
			out = append(out, program.PolarRow{
				Reynolds: reynolds, Flap: deflection, State: state, MaxLift: most + 0.1*(math.Log10(reynolds)-6) + flap*deflection/0.5, ProfileDrag: &drag, Source: "invented",
			})
		}
	}
	return out
}

// sectioned is plain() with its aerofoils.
func sectioned() aero.Airframe {
	a := plain()
	for i := range a.Surfaces {
		name, thickness := "main", 0.14
		if a.Surfaces[i].Role == aero.RoleForeplane {
			name, thickness = "front", 0.15
		}
		for k := range a.Surfaces[i].Stations {
			a.Surfaces[i].Stations[k].Aerofoil, a.Surfaces[i].Stations[k].Thickness = name, thickness
		}
	}
	return a
}

func stallSetup() Setup {
	s := StallSetup(Setup{CG: r3.Vec{X: 2.2}})
	s.Lattice.Density = 0.5
	return s
}

func analysed(t *testing.T, a aero.Airframe, s Setup) *Analysis {
	t.Helper()
	all, err := Analyse([]aero.Airframe{a}, s)
	require.NoError(t, err)
	return &all[0]
}

func stalls(t *testing.T, p *program.Program, a *Analysis) ([]StallCase, []string) {
	t.Helper()
	cases, missing, err := Stall(p, a, stallSetup())
	require.NoError(t, err)
	return cases, missing
}

func caseOf(t *testing.T, cases []StallCase, size string, h Handling, s Surfaces) StallCase {
	t.Helper()
	for _, c := range cases {
		if c.Size == size && c.Handling == h && c.Surfaces == s {
			return c
		}
	}
	require.Fail(t, "no such case", "%s, %s, %s", size, h, s)
	return StallCase{}
}

func TestStallJudgesEveryCase(t *testing.T) {
	cases, missing := stalls(t, stallProgram(), analysed(t, sectioned(), stallSetup()))
	require.Empty(t, missing)
	require.Len(t, cases, 12) // three handlings: the model clean, full size in three states
	for _, c := range cases {
		require.NotEmpty(t, c.Verdict, c.Name)
		require.Equal(t, c.Size == evidence.FullSize && c.Surfaces != ForeplaneContaminated, c.CanPass(), c.Name)
		if c.Size == evidence.ModelScale {
			require.Contains(t, c.Verdict, "never keep it")
		}
	}
	aft := caseOf(t, cases, evidence.FullSize, AftStop, AllClean)
	require.Equal(t, "aft", aft.Loading)
	require.InDelta(t, 2.3, aft.CG, 1e-12)
	require.InDelta(t, 0.4, aft.Elevator, 1e-12)
	require.True(t, aft.AtStop)
	forward := caseOf(t, cases, evidence.FullSize, ForwardTrimmed, AllClean)
	require.Equal(t, "forward", forward.Loading)
	governing, ok := GoverningStall(cases)
	require.True(t, ok)
	for _, c := range cases {
		if v, known := c.Order.Margin.Value(); known && c.CanPass() {
			least, _ := governing.Order.Margin.Value()
			require.LessOrEqual(t, least, v, c.Name)
		}
	}
	require.Contains(t, governing.Name, "in trim", "the pull to the stop lets the foreplane go long before")
}

// In trim, the moment about the CG is zero where the foreplane stops: with sections held, and nearly so in the lattice itself.
func TestStallInTrimIsInTrim(t *testing.T) {
	a := analysed(t, sectioned(), stallSetup())
	cases, _ := stalls(t, stallProgram(), a)
	for _, h := range []Handling{AftTrimmed, ForwardTrimmed} {
		c := caseOf(t, cases, evidence.FullSize, h, AllClean)
		stop, ok := c.Order.Foreplane.Value()
		require.True(t, ok)
		held, ok := c.Trim.Held.Value()
		require.True(t, ok)
		require.InDelta(t, stop, held, 0.1*deg)
		require.Less(t, c.Elevator, 0.4)

		// two roads: the lattice trims at that lift with the same angle and elevator, while the flow is attached
		attached, ok := c.Trim.Attached.Value()
		require.True(t, ok)
		point := r3.Vec{X: c.CG}
		lift := a.Solution.Coefficients(lattice.State{Alpha: attached, Controls: map[string]float64{"elevator": c.Elevator}}, point).Lift
		state, err := a.Solution.Trim(lift, "elevator", point)
		require.NoError(t, err)
		require.InDelta(t, attached, state.Alpha, 1e-4)
		require.InDelta(t, c.Elevator, state.Controls["elevator"], 3e-4)
	}
}

// With a foreplane that carries more, the elevator runs out of travel before the foreplane lets go: it is held at its stop.
func TestStallInTrimEndsAtTheStop(t *testing.T) {
	p := stallProgram()
	for i := range p.Aerofoils[0].Polar {
		p.Aerofoils[0].Polar[i].MaxLift += 0.5
	}
	cases, _ := stalls(t, p, analysed(t, sectioned(), stallSetup()))
	c := caseOf(t, cases, evidence.FullSize, ForwardTrimmed, AllClean)
	require.True(t, c.AtStop)
	require.Less(t, c.Trim.Held.High, c.Order.Foreplane.Low, "steady flight ends before the foreplane does")
	require.Positive(t, c.Trim.Left.Low)
}

// A wing with poor sections goes first, and the verdict says so in capitals.
func TestStallOfAPoorWing(t *testing.T) {
	p := stallProgram()
	for i := range p.Aerofoils[1].Polar {
		p.Aerofoils[1].Polar[i].MaxLift *= 0.4
	}
	cases, _ := stalls(t, p, analysed(t, sectioned(), stallSetup()))
	governing, ok := GoverningStall(cases)
	require.True(t, ok)
	require.Negative(t, governing.Order.Margin.High)
	require.Contains(t, governing.Verdict, "the WING lets go first")
	pull, ok := GoverningStallTrim(cases)
	require.True(t, ok)
	require.Contains(t, pull.Notes[len(pull.Notes)-1], "a danger")
}

// The model lets its foreplane go earlier; dirt on the foreplane adds margin, dirt everywhere brings the wing's angle down.
func TestStallFollowsItsSections(t *testing.T) {
	cases, _ := stalls(t, stallProgram(), analysed(t, sectioned(), stallSetup()))
	for _, h := range []Handling{AftStop, AftTrimmed, ForwardTrimmed} {
		clean := caseOf(t, cases, evidence.FullSize, h, AllClean)
		require.Less(t, caseOf(t, cases, evidence.ModelScale, h, AllClean).Order.Foreplane.High, clean.Order.Foreplane.Low, h)
		dirty := caseOf(t, cases, evidence.FullSize, h, ForeplaneContaminated)
		require.Greater(t, dirty.Order.Margin.Low, clean.Order.Margin.High, h)
		require.Less(t, caseOf(t, cases, evidence.FullSize, h, AllContaminated).Order.Wing.High, clean.Order.Wing.Low, h)
	}
}

// The deviation is what really changes when a table is scaled: two roads, elevator at its stop.
func TestStallDeviationIsThatOfTheTables(t *testing.T) {
	a := analysed(t, sectioned(), stallSetup())
	cases, _ := stalls(t, stallProgram(), a)
	c := caseOf(t, cases, evidence.FullSize, AftStop, AllClean)
	middle, ok := c.Order.Margin.Value()
	require.True(t, ok)
	for _, s := range []struct {
		aerofoil int
		source   string
		factor   float64
	}{{0, SourceForeplaneMaximum, 1.05}, {1, SourceWingMaximum, 0.95}} {
		p := stallProgram()
		for i := range p.Aerofoils[s.aerofoil].Polar {
			p.Aerofoils[s.aerofoil].Polar[i].MaxLift *= s.factor
		}
		moved, _ := stalls(t, p, a)
		v, ok := caseOf(t, moved, evidence.FullSize, AftStop, AllClean).Order.Margin.Value()
		require.True(t, ok)
		require.InDelta(t, (v-middle)*20*(s.factor-1), c.Common[s.source], 2e-4, s.source)
	}
	require.InDelta(t, math.Hypot(c.Common[SourceForeplaneMaximum], c.Common[SourceWingMaximum]), c.Deviation, 1e-12)
	require.Negative(t, c.Common[SourceForeplaneMaximum], "more foreplane lift, less margin")
	require.Positive(t, c.Common[SourceWingMaximum])
	require.Positive(t, c.Trim.Deviation)
}

func TestStallSaysWhatIsMissing(t *testing.T) {
	solved := analysed(t, sectioned(), stallSetup())
	for name, c := range map[string]struct {
		change   func(*program.Program)
		airframe func(*aero.Airframe)
		cases    int
		want     string
	}{
		"foreplane": {change: func(p *program.Program) { p.Aerofoils[0].Polar = nil }, want: `aerofoil "front" has no polar, so that the stall order clean is not judged; it lies in surface "foreplane"`},
		"wing":      {change: func(p *program.Program) { p.Aerofoils[1].Polar = nil }, want: "no wing station has a section maximum clean"},
		"dirt":      {change: func(p *program.Program) { p.Aerofoils[0].Polar = p.Aerofoils[0].Polar[:12] }, cases: 6, want: `the polar of aerofoil "front" has no rows that are contaminated`},
		"mass":      {change: func(p *program.Program) { p.FullSize = program.FullSize{}; p.Loadings = nil }, want: "the gross mass is not stated"},
		"loadings":  {change: func(p *program.Program) { p.Loadings = nil }, cases: 8, want: "one CG, 2.200 m aft of datum, stands for the aft and the forward end"},
		"one tip":   {airframe: func(a *aero.Airframe) { a.Surfaces[0].Stations[1].Aerofoil = "tip" }, want: "a station has no aerofoil"},
		"alone":     {airframe: func(a *aero.Airframe) { a.Surfaces = a.Surfaces[:1] }, want: "there is no stall order to find"},
		"fixed":     {airframe: func(a *aero.Airframe) { a.Surfaces[1].Hinges = nil }, cases: 12, want: `no surface has a hinge with control = "elevator"`},
	} {
		p, a := stallProgram(), solved
		if c.change != nil {
			c.change(p)
		}
		if c.airframe != nil {
			changed := sectioned()
			c.airframe(&changed)
			a = analysed(t, changed, stallSetup())
		}
		cases, missing := stalls(t, p, a)
		require.Len(t, cases, c.cases, name)
		found := false
		for _, what := range missing {
			found = found || len(what) >= len(c.want) && contains(what, c.want)
		}
		require.True(t, found, "%s: %q", name, missing)
	}
	_, _, err := Stall(stallProgram(), analysed(t, sectioned(), Setup{CG: r3.Vec{X: 2.2}, Lattice: lattice.Options{Density: 0.5}}), stallSetup())
	require.ErrorContains(t, err, "section response")
}

func contains(s, part string) bool {
	for i := 0; i+len(part) <= len(s); i++ {
		if s[i:i+len(part)] == part {
			return true
		}
	}
	return false
}

// A wing whose outer station has no polar is judged on the rest, if any of it lies on a known section.
func TestStallLeavesUnknownStationsOut(t *testing.T) {
	a := sectioned()
	wing := &a.Surfaces[0]
	middle := wing.Stations[1]
	middle.LeadingEdge.Y, middle.TrailingEdge.Y = 2, 2
	wing.Stations = []aero.Station{wing.Stations[0], middle, wing.Stations[1]}
	wing.Stations[2].Aerofoil = "unknown"
	cases, missing := stalls(t, stallProgram(), analysed(t, a, stallSetup()))
	require.Len(t, cases, 12)
	require.Contains(t, missing[0], `stations of surface "wing" that use it are left out clean, and the wing may let go earlier than said`)
	for _, s := range cases[0].Order.Sections.Strips {
		require.Equal(t, s.Surface == "wing" && s.Along > 0.5, math.IsInf(s.MaxLift, 1))
	}
}

// The lift of the strips is that of the aircraft, and the form gives the strips of any state.
func TestStallSectionsAreThoseOfTheLattice(t *testing.T) {
	a := analysed(t, sectioned(), stallSetup())
	form := newSectionForm(a.Solution, "elevator")
	state := lattice.State{Alpha: 0.17, Controls: map[string]float64{"elevator": 0.31}}
	strips := a.Solution.Strips(state)
	got := form.at(0.17, 0.31)
	l := layoutOf(a, strips, "elevator")
	sum := 0.0
	for i, s := range strips {
		require.InDelta(t, s.SectionLift, got[i], 1e-10)
		require.Equal(t, s.Surface == "foreplane", l.elevator[i])
		sum += 2 * l.strips[i].Area * s.SectionLift
	}
	c := a.Solution.Coefficients(state, r3.Vec{})
	require.InDelta(t, c.Lift, sum/a.Airframe.Reference.Area, 0.03*c.Lift) // cos α and the tilt of the force

	path := newPath(a, form, "elevator", 0.31, r3.Vec{X: 2.2})
	c = a.Solution.Coefficients(lattice.State{Alpha: path.alpha[20], Controls: state.Controls}, r3.Vec{X: 2.2})
	require.InDelta(t, c.Pitch*a.Airframe.Reference.Area*a.Airframe.Reference.MeanChord, path.moment[20], 1e-12)
}

// The maximum on a swept strip is that of the section times cos² of the sweep, between the two stations' aerofoils; nothing is held
// beyond 40°.
func TestStallMaximumOfAStrip(t *testing.T) {
	sections, err := SectionsOf(stallProgram())
	require.NoError(t, err)
	w := &stallWork{sections: sections}
	l := layout{at: []place{{"front", "main", 0.25}}, sweep: []float64{30 * deg}, elevator: []bool{false}, others: []bool{false}}
	most, inside, err := w.maximum(l, 0, aerofoil.Clean, 1e6, 0.25)
	require.NoError(t, err)
	require.True(t, inside)
	require.InDelta(t, 0.75*(0.75*1.1+0.25*1.5), most, 1e-12) // cos² 30° = 0.75; the elevator does not cover it
	l.elevator[0] = true
	most, _, err = w.maximum(l, 0, aerofoil.Clean, 1e6, 0.25)
	require.NoError(t, err)
	require.InDelta(t, 0.75*(0.75*1.35+0.25*1.8), most, 1e-12)
	_, inside, err = w.maximum(l, 0, aerofoil.Clean, 1e6, 0.6)
	require.NoError(t, err)
	require.False(t, inside)
	l.sweep[0] = 41 * deg
	most, _, err = w.maximum(l, 0, aerofoil.Clean, 1e6, 0)
	require.NoError(t, err)
	require.True(t, math.IsInf(most, 1))
}

// A dynamically similar model flies at √λ of the full-size speed at equal lift (NASA TP-1435), and lift is weight at both sizes.
func TestStallSpeeds(t *testing.T) {
	sizes, err := sizesOf(stallProgram())
	require.NoError(t, err)
	model, full := sizes[0], sizes[1]
	const lift, mass, area = 1.1, 650.0, 9.0
	require.InDelta(t, 0.5, model.speed(lift, model.weight(mass), area)/full.speed(lift, mass, area), 1e-12)
	v := full.speed(lift, mass, area)
	require.InDelta(t, mass*atmosphere.Gravity, full.air.Density*v*v/2*area*lift, 1e-9)
	ratio := model.reynolds(v/2, 1) / full.reynolds(v, 1)
	require.InDelta(t, 0.125*model.air.Density/full.air.Density*full.air.Viscosity/model.air.Viscosity, ratio, 1e-12)
}

func TestStallWords(t *testing.T) {
	at := func(low, high float64) stall.Bracket { return stall.Bracket{Low: low * deg, High: high * deg} }
	for want, c := range map[string]StallCase{
		"the foreplane lets go 2.1° before the wing (standard deviation 0.9°)":              {Size: evidence.FullSize, Order: stall.Order{Margin: at(2.1, 2.1)}, Deviation: 0.9 * deg},
		"the foreplane lets go 1.0° before the wing (standard deviation 0.9°), not certain": {Size: evidence.FullSize, Order: stall.Order{Margin: at(1, 1)}, Deviation: 0.9 * deg},
		"the WING lets go first, 0.8° before the foreplane":                                 {Size: evidence.FullSize, Order: stall.Order{Margin: at(-0.8, -0.8)}},
		"foreplane and WING let go together":                                                {Size: evidence.FullSize, Order: stall.Order{Margin: at(0.02, 0.02)}},
		"the foreplane lets go at least 3.0° before the wing":                               {Size: evidence.FullSize, Order: stall.Order{Margin: stall.Bracket{Low: 3 * deg, High: math.Inf(1)}}},
		"the WING lets go first, at least 2.0° before the foreplane":                        {Size: evidence.FullSize, Order: stall.Order{Margin: stall.Bracket{Low: math.Inf(-1), High: -2 * deg}}},
		"which lets go first is not determined between -10° and 30° of angle of attack":     {Size: evidence.FullSize, Order: stall.Order{Margin: stall.Bracket{Low: math.Inf(-1), High: math.Inf(1)}}},
		"the foreplane lets go 4.0° before the wing; " + modelCaution:                       {Size: evidence.ModelScale, Order: stall.Order{Margin: at(4, 4)}},
	} {
		require.Equal(t, want, verdict(c))
	}
}

// A fin on the plane of symmetry answers nothing in symmetric flight; it must not keep the others from being judged.
func TestStallWithAFinOnThePlaneOfSymmetry(t *testing.T) {
	a := sectioned()
	fin := aero.Surface{Name: "fin", Role: aero.RoleFin, Stations: []aero.Station{
		{LeadingEdge: r3.Vec{X: 3.2, Z: 0.5}, TrailingEdge: r3.Vec{X: 3.9, Z: 0.5}},
		{LeadingEdge: r3.Vec{X: 3.5, Z: 1.3}, TrailingEdge: r3.Vec{X: 3.9, Z: 1.3}},
	}}
	fin.Hinges = []aero.Hinge{{Control: "rudder", FromStation: 1, ToStation: 2, HingeFraction: 0.7, Effectiveness: 1}}
	a.Surfaces = append(a.Surfaces, fin)
	with := analysed(t, a, stallSetup())
	require.InDelta(t, with.Derivatives.ByControl["rudder"].Yaw, with.Value(RudderPower), 1e-12, "one rudder is one rudder")
	cases, _ := stalls(t, stallProgram(), with)
	require.Len(t, cases, 12)
	governing, _ := GoverningStall(cases)
	plainCases, _ := stalls(t, stallProgram(), analysed(t, sectioned(), stallSetup()))
	alone, _ := GoverningStall(plainCases)
	require.InDelta(t, alone.Order.Margin.High, governing.Order.Margin.High, 1e-3)
}
