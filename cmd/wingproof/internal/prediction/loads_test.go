package prediction

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
	"wingproof/aero/atmosphere"
	"wingproof/aero/lattice"
	"wingproof/aero/loads"
	"wingproof/cmd/wingproof/internal/program"
)

// winged is plain with ailerons, and winglets with rudders that stand upright at the wing tips.
func winged() aero.Airframe {
	a := plain()
	wing := &a.Surfaces[0]
	wing.Stations = slices.Insert(wing.Stations, 1, aero.Station{LeadingEdge: r3.Vec{X: 3, Y: 2.5}, TrailingEdge: r3.Vec{X: 4, Y: 2.5}})
	wing.Hinges = []aero.Hinge{{Control: "aileron", FromStation: 2, ToStation: 3, HingeFraction: 0.75, TravelMin: -0.4, TravelMax: 0.3, Effectiveness: 0.8}}
	a.Surfaces = append(a.Surfaces, aero.Surface{Name: "winglet", Role: aero.RoleWinglet, Mirrored: true, Joins: "wing", JoinsAt: aero.AtTip,
		Stations: []aero.Station{
			{LeadingEdge: r3.Vec{X: 3, Y: 4}, TrailingEdge: r3.Vec{X: 4, Y: 4}},
			{LeadingEdge: r3.Vec{X: 3.4, Y: 4, Z: 0.8}, TrailingEdge: r3.Vec{X: 4, Y: 4, Z: 0.8}},
		},
		Hinges: []aero.Hinge{{Control: "rudder", FromStation: 1, ToStation: 2, HingeFraction: 0.7, TravelMin: -0.35, TravelMax: 0.4, Effectiveness: 0.8}},
	})
	return a
}

// stating is an invented program around an airframe, with nothing stated that only load envelopes need.
func stating(a aero.Airframe) *program.Program {
	return &program.Program{
		Surfaces: a.Surfaces,
		FullSize: program.FullSize{
			Mass: program.Figure{Value: 500, SD: 5}, EmptyMass: program.Figure{Value: 300}, EmptyX: program.Figure{Value: 2.3}, EmptyZ: program.Figure{Value: 0.1},
			CruiseSpeed: 60, CruiseAltitude: 1000, LimitLoadFactor: 3.8,
		},
		Loadings: []program.Loading{
			{Name: "light", Flies: true, Items: []program.Item{{What: "pilot", Mass: 60, X: 2}, {What: "fuel", Mass: 60, X: 3.3}}},
			{Name: "heavy", Flies: true, Items: []program.Item{{What: "pilots", Mass: 120, X: 1.6}, {What: "fuel", Mass: 60, X: 3.3}}},
			{Name: "empty", Items: nil},
		},
	}
}

// fullyStated adds all of it.
func fullyStated(a aero.Airframe) *program.Program {
	p := stating(a)
	f := &p.FullSize
	f.NegativeLimitLoadFactor, f.ManoeuvreSpeed, f.DiveSpeed, f.GustCruise, f.GustDive = -1.52, 50, 85, loads.CruiseGust, loads.DiveGust
	f.Ix = program.Figure{Value: 600}
	p.Masses = []program.SurfaceMass{{Surface: "wing", Mass: 60}, {Surface: "foreplane", Mass: 10}, {Surface: "winglet", Mass: 6}}
	for i := range p.Loadings[:2] {
		p.Loadings[i].Items[1].SpanFrom, p.Loadings[i].Items[1].SpanTo = 1, 2
	}
	return p
}

var pointOf = r3.Vec{X: 2.2, Z: 0.1}

func loadsOf(t *testing.T, p *program.Program, a aero.Airframe) LoadsResult {
	t.Helper()
	solution, err := lattice.Solve(a, lattice.Options{})
	require.NoError(t, err)
	r, err := Loads(p, a, solution, LoadsSetup{CG: pointOf})
	require.NoError(t, err)
	return r
}

// bendingIn is the bending along a beam in one condition; of the right half where both differ.
func bendingIn(t *testing.T, p *program.Program, a aero.Airframe, surface, condition string) []float64 {
	t.Helper()
	solution, err := lattice.Solve(a, lattice.Options{})
	require.NoError(t, err)
	f := newLoadFlier(p, a, solution, LoadsSetup{CG: pointOf})
	corners := f.corners()
	beams, err := f.beams(corners)
	require.NoError(t, err)
	flights, err := f.flights(corners)
	require.NoError(t, err)
	for _, one := range flights {
		if one.Name != condition {
			continue
		}
		_, flown, err := f.fly(one)
		require.NoError(t, err)
		for _, b := range beams {
			if b.name == surface {
				lines, err := b.at(one.corner).Lines(flown)
				require.NoError(t, err)
				var out []float64
				for _, s := range lines[0].Sections {
					out = append(out, s.Bending)
				}
				return out
			}
		}
	}
	require.Fail(t, "no such condition", condition)
	return nil
}

// Two roads to the limit load of a program that states nothing else: the envelope, and the load shape at one lift
// coefficient, trimmed in level flight about the aftmost CG (the wing) and the foremost one (the foreplane), made
// as heavy as the gross mass at the limit load factor.
func TestLoadsWithNothingStatedAreTheLimitLoadAtGrossMass(t *testing.T) {
	a := winged()
	p := stating(a)
	solution, err := lattice.Solve(a, lattice.Options{})
	require.NoError(t, err)
	r := loadsOf(t, p, a)
	forward, aft, ok := LoadedRange(p)
	require.True(t, ok)
	require.Less(t, forward, aft-0.1)
	pressure := 3.8 * 500 * atmosphere.Gravity / (Lift * a.Reference.Area)
	for _, c := range []struct {
		beam     string
		surfaces []string
		cg       float64
		name     string
	}{
		{"wing", []string{"wing", "winglet"}, aft, "gross mass at the aftmost CG"},
		{"foreplane", []string{"foreplane"}, forward, "gross mass at the foremost CG"},
	} {
		state, err := solution.Trim(Lift, "elevator", r3.Vec{X: c.cg, Z: pointOf.Z})
		require.NoError(t, err)
		beam, ok := r.Beam(c.beam)
		require.True(t, ok)
		require.Len(t, beam.Envelope, 11)
		var stations []float64
		for _, e := range beam.Envelope {
			stations = append(stations, e.Y)
		}
		for i, moment := range loads.Bending(solution.Strips(state), c.surfaces, stations) {
			peak := beam.Envelope[i].Bending.Greatest()
			require.InDelta(t, pressure*moment, peak.Value, 1e-9*pressure)
			if i == 0 {
				require.Equal(t, "limit load up at the lift coefficient 0.5; "+c.name, peak.Condition)
			}
		}
	}
	require.Len(t, r.Conditions, 2, "gross mass at both CGs; the loadings are lighter and have the same load shape")
	said := strings.Join(r.Missing, "\n")
	for _, key := range []string{"manoeuvre_speed_kt", "dive_speed_kt", "negative_limit_load_factor", "gust_cruise_m_s", "gust_dive_m_s", "mass_kg", "span_from_m"} {
		require.Contains(t, said, key)
	}
	require.Empty(t, r.Warnings)
}

func TestEveryFlightOfTheListIsFlown(t *testing.T) {
	r := loadsOf(t, fullyStated(winged()), winged())
	// Two CGs of the gross mass, two loadings with full and with dry tanks; 4 limit loads, 4 gusts flown twice,
	// aileron in two ways and rudder and sideslip in three.
	require.Len(t, r.Conditions, 6*(4+8+2+3))
	require.Len(t, r.Beams, 3)
	require.Equal(t, []string{"wing", "foreplane", "winglet"}, []string{r.Beams[0].Name, r.Beams[1].Name, r.Beams[2].Name})
	require.Equal(t, []bool{false, false, true}, []bool{r.Beams[0].Upright, r.Beams[1].Upright, r.Beams[2].Upright})
	require.InDelta(t, 0.8, r.Beams[2].Length, 1e-12)
	require.Equal(t, []string{"the gross mass is flown without fuel along the surfaces, on the heavy side, because no loading with such fuel weighs as much; add the [[loading]] that makes up the gross mass"}, r.Missing)
	names := map[string]bool{}
	for _, c := range r.Conditions {
		require.False(t, names[c.Name], "%s twice", c.Name)
		names[c.Name] = true
		flown, ok := r.Flown(loads.Peak{Condition: c.Name + ", left half"})
		require.True(t, ok)
		require.Equal(t, c.Name, flown.Name)
	}
	require.Equal(t, r, loadsOf(t, fullyStated(winged()), winged()), "the same again")
}

// The second road to the load factor of a flight: the air loads of both halves over the weight. They differ from what was
// asked for by the tilt of the lift against the datum z axis, cos α, and by the pull along x times sin α.
func TestAirLoadsCarryTheAircraft(t *testing.T) {
	a := winged()
	p := fullyStated(a)
	solution, err := lattice.Solve(a, lattice.Options{})
	require.NoError(t, err)
	f := newLoadFlier(p, a, solution, LoadsSetup{CG: pointOf})
	flights, err := f.flights(f.corners())
	require.NoError(t, err)
	for _, one := range flights {
		c, flown, err := f.fly(one)
		require.NoError(t, err)
		up, side := loads.CarriedLoadFactors(flown.Right, flown.Left, one.DynamicPressure(), one.Mass)
		tilt := 0.002 + 1.5*(1-math.Cos(c.State.Alpha))
		require.InDelta(t, one.LoadFactor, up, tilt*math.Max(1, math.Abs(one.LoadFactor)), one.Name)
		require.InDelta(t, c.LiftCoefficient, solution.Coefficients(c.State, one.CG).Lift, 1e-9, one.Name)
		require.InDelta(t, c.SideLoadFactor, side, 1e-9, one.Name)
		about := solution.Coefficients(c.State, one.CG)
		if !one.held && !one.Asymmetric() {
			require.InDelta(t, 0, about.Pitch, 1e-9, one.Name)
		}
		if one.SteadyRoll {
			require.InDelta(t, 0, about.Roll, 2e-3, "damping takes up the ailerons: %s", one.Name)
			require.Positive(t, c.State.RollRate)
		}
	}
}

// A wing of even chord weighs evenly along its span: at the load factor n a mass M of both halves takes n·g·M/2·(b/2)/2
// off the root's bending, whatever the flight.
func TestStructureRelievesByHand(t *testing.T) {
	a := winged()
	light, heavy := stating(a), stating(a)
	heavy.Masses = []program.SurfaceMass{{Surface: "wing", Mass: 60}}
	name := "limit load up at the lift coefficient 0.5; gross mass at the aftmost CG"
	without, with := bendingIn(t, light, a, "wing", name), bendingIn(t, heavy, a, "wing", name)
	require.InEpsilon(t, 3.8*atmosphere.Gravity*30*2, without[0]-with[0], 1e-3, "strips know their middles and widths, not their edges")
	heavy.Masses = []program.SurfaceMass{{Surface: "winglet", Mass: 6}} // at the tip, y = 4 m, for every station inboard of it
	with = bendingIn(t, heavy, a, "wing", name)
	require.InDelta(t, 3.8*atmosphere.Gravity*3*4, without[0]-with[0], 1e-6)
	require.InDelta(t, 3.8*atmosphere.Gravity*3*2, without[5]-with[5], 1e-6)
	own := bendingIn(t, heavy, a, "winglet", name)
	require.InDelta(t, bendingIn(t, light, a, "winglet", name)[0], own[0], 1e-6, "weight along an upright winglet does not bend it")
}

// Fuel of one loading between y = 1 m and 2 m against the same fuel that is not said to lie along the wing: n·g·m/2·1.5 m at the root.
func TestFuelRelievesByHand(t *testing.T) {
	a := winged()
	inside, along := stating(a), stating(a)
	for _, l := range []*program.Loading{&along.Loadings[0], &along.Loadings[1], &inside.Loadings[1]} { // one tank at least, so that loadings are flown
		l.Items[1].SpanFrom, l.Items[1].SpanTo = 1, 2
	}
	name := "limit load up at the lift coefficient 0.5; light"
	without, with := bendingIn(t, inside, a, "wing", name), bendingIn(t, along, a, "wing", name)
	require.InEpsilon(t, 3.8*atmosphere.Gravity*30*1.5, without[0]-with[0], 1e-4)
	require.InEpsilon(t, 3.8*atmosphere.Gravity*12*0.2, without[4]-with[4], 1e-3, "at 1.6 m two fifths of it lie outboard, 0.2 m away")
	require.InDelta(t, without[5], with[5], 1e-6)

	dry := loadsOf(t, along, a)
	c, ok := dry.Flown(loads.Peak{Condition: name + " (tanks dry)"})
	require.True(t, ok)
	require.Equal(t, 360.0, c.Mass, "without the 60 kg of fuel")
	require.InDelta(t, (300*2.3+60*2)/360.0, c.CG.X, 1e-12)
	require.False(t, c.FuelFull)

	along.Loadings[0].Items[1].SpanTo = 5
	require.Contains(t, strings.Join(loadsOf(t, along, a).Missing, "\n"), `"fuel" of loading "light" is not taken off the wing's load, on the heavy side`)
}

// A loading with tanks that makes up the gross mass takes the place of a gross mass of unknown make.
func TestALoadingOfTheGrossMassReplacesIt(t *testing.T) {
	a := winged()
	p := fullyStated(a)
	p.Loadings[1].Items[0].Mass = 136 // 496 kg, within one standard deviation of 500 kg
	r := loadsOf(t, p, a)
	require.Empty(t, r.Missing)
	for _, c := range r.Conditions {
		require.NotContains(t, c.Name, "gross mass")
	}
}

// In a gust the wing carries more with the elevator held, the foreplane more when it trims: the aircraft is stable, and its
// foreplane lifts to balance what a trimmed gust adds.
func TestGustsLoadTheWingWithTheElevatorHeld(t *testing.T) {
	a := winged()
	p := fullyStated(a)
	name := "gust from below at the cruising speed"
	for surface, more := range map[string]func(require.TestingT, any, any, ...any){"wing": require.Greater, "foreplane": require.Less} {
		held := bendingIn(t, p, a, surface, name+", elevator held; heavy")
		trimmed := bendingIn(t, p, a, surface, name+"; heavy")
		more(t, held[0], trimmed[0], surface)
	}
	r := loadsOf(t, p, a)
	held, ok := r.Flown(loads.Peak{Condition: name + ", elevator held; heavy"})
	require.True(t, ok)
	require.True(t, held.ElevatorHeld)
	// By hand: μ = 2(m/S)/(ρcā), K = 0.88μ/(5.3+μ), n = 1 + K·ρ0·U·V·a/(2·W/S), with a of the lattice.
	solution, err := lattice.Solve(a, lattice.Options{})
	require.NoError(t, err)
	air, err := atmosphere.Standard(1000)
	require.NoError(t, err)
	slope := solution.Derivatives(lattice.State{Alpha: 0.05}, pointOf).ByAlpha.Lift
	mu := 2 * 480 / a.Reference.Area / (air.Density * 1 * slope)
	speed := 60 * math.Sqrt(air.Density/atmosphere.SeaLevelDensity)
	n := 1 + 0.88*mu/(5.3+mu)*1.225*15.24*speed*slope*a.Reference.Area/(2*480*atmosphere.Gravity)
	require.InEpsilon(t, n, held.LoadFactor, 0.01)
}

// With a rudder the sideslip is that which it holds, and half as much again before it settles; the rudder let go, it is the first.
func TestSideslipOfFullRudder(t *testing.T) {
	a := winged()
	p := fullyStated(a)
	r := loadsOf(t, p, a)
	out, ok := r.Flown(loads.Peak{Condition: "level flight, full rudder and the sideslip that it brings; heavy"})
	require.True(t, ok)
	neutral, ok := r.Flown(loads.Peak{Condition: "level flight, sideslip, rudder neutral; heavy"})
	require.True(t, ok)
	require.InDelta(t, 1.5*neutral.State.Beta, out.State.Beta, 1e-12)
	require.InDelta(t, 0.4, out.State.Controls["rudder"], 1e-12, "its greater travel")
	require.Zero(t, neutral.State.Controls["rudder"])
	require.LessOrEqual(t, neutral.State.Beta, 15*math.Pi/180)
	require.Greater(t, neutral.State.Beta, 2*math.Pi/180)
	roll, ok := r.Flown(loads.Peak{Condition: "two thirds of the limit load with full aileron, roll not yet begun; heavy"})
	require.True(t, ok)
	require.InDelta(t, 0.35, roll.State.Controls["aileron"], 1e-12, "half the sum of both travels")

	bare := winged()
	bare.Surfaces[2].Hinges = nil
	held := loadsOf(t, fullyStated(bare), bare)
	for _, c := range held.Conditions {
		if c.Sideslip != 0 {
			require.InDelta(t, 15*math.Pi/180, c.Sideslip, 1e-12, c.Name)
		}
	}
	require.Contains(t, strings.Join(held.Missing, "\n"), "full rudder is left out")
}

// What the right half bears in a flight is what the left half bears in its mirror image.
func TestHalvesAreMirrorImages(t *testing.T) {
	a := winged()
	solution, err := lattice.Solve(a, lattice.Options{})
	require.NoError(t, err)
	f := newLoadFlier(fullyStated(a), a, solution, LoadsSetup{CG: pointOf})
	state := lattice.State{Alpha: 0.1, Beta: 0.2, RollRate: 0.05, YawRate: 0.01, Controls: map[string]float64{"elevator": 0.1, "aileron": 0.2, "rudder": -0.1}}
	mirror := f.mirrored(state)
	right, left := solution.Coefficients(state, pointOf), solution.Coefficients(mirror, pointOf)
	require.InDelta(t, right.Lift, left.Lift, 1e-12)
	require.InDelta(t, right.Pitch, left.Pitch, 1e-12)
	for _, pair := range [][2]float64{{right.Side, left.Side}, {right.Roll, left.Roll}, {right.Yaw, left.Yaw}} {
		require.InDelta(t, pair[0], -pair[1], 1e-12)
		require.Greater(t, math.Abs(pair[0]), 1e-4)
	}
	require.Equal(t, state, f.mirrored(mirror))
	require.Equal(t, 0.1, state.Controls["elevator"], "the state given stays")
}

// A roll that begins accelerates: where Ix is stated the rising half is relieved.
func TestRollThatBeginsIsRelieved(t *testing.T) {
	a := winged()
	p := fullyStated(a)
	name := "two thirds of the limit load with full aileron, roll not yet begun; heavy"
	root := func() float64 {
		solution, err := lattice.Solve(a, lattice.Options{})
		require.NoError(t, err)
		f := newLoadFlier(p, a, solution, LoadsSetup{CG: pointOf})
		corners := f.corners()
		beams, err := f.beams(corners)
		require.NoError(t, err)
		flights, err := f.flights(corners)
		require.NoError(t, err)
		i := slices.IndexFunc(flights, func(one loadFlight) bool { return one.Name == name })
		_, flown, err := f.fly(flights[i])
		require.NoError(t, err)
		lines, err := beams[0].at(flights[i].corner).Lines(flown)
		require.NoError(t, err)
		require.Len(t, lines, 2)
		require.Greater(t, lines[1].Sections[0].Bending, lines[0].Sections[0].Bending, "a roll to the right lifts the left half")
		return lines[1].Sections[0].Bending
	}
	relieved := root()
	p.FullSize.Ix = program.Figure{}
	require.Greater(t, root(), relieved)
}

func TestWingletsWeighByTheirArea(t *testing.T) {
	a := winged()
	p := fullyStated(a)
	tall, err := a.SetHeight("winglet", 1.6)
	require.NoError(t, err)
	solution, err := lattice.Solve(tall, lattice.Options{})
	require.NoError(t, err)
	masses, err := newLoadFlier(p, tall, solution, LoadsSetup{CG: pointOf}).structure([]string{"winglet"})
	require.NoError(t, err)
	total := 0.0
	for _, m := range masses {
		total += m.Mass
	}
	require.InDelta(t, 2*3, total, 1e-9, "twice the height with the same chords, twice 3 kg a side")
}

func TestElevatorBeyondItsStopIsSaid(t *testing.T) {
	a := winged()
	a.Surfaces[1].Hinges[0].TravelMax = 0.02
	r := loadsOf(t, fullyStated(a), a)
	require.Len(t, r.Warnings, 1)
	require.Regexp(t, `^in \d+ of 102 load conditions the elevator would have to go past its stop, by up to \d+\.\d° \(limit load up at the manoeuvre speed; heavy \(tanks dry\)\)`, r.Warnings[0])
	for _, c := range r.Conditions {
		require.InDelta(t, math.Max(0, math.Max(c.State.Controls["elevator"]-0.02, -0.3-c.State.Controls["elevator"])), c.ElevatorBeyond, 1e-12)
	}
}

func TestStationsOfBuiltParts(t *testing.T) {
	a := winged()
	p := stating(a)
	p.Built = []program.Built{{Part: "spar", Surface: "wing", Y: []float64{0.5, 3}}, {Part: "bracket", Surface: "winglet", Y: []float64{0, 0.3}}}
	solution, err := lattice.Solve(a, lattice.Options{})
	require.NoError(t, err)
	for steps, want := range map[int]map[string][]float64{
		0: {"wing": {0, 0.5, 3}, "winglet": {0, 0.3}},
		2: {"wing": {0, 0.5, 2, 3, 4}, "winglet": {0, 0.3, 0.4, 0.8}},
	} {
		r, err := Loads(p, a, solution, LoadsSetup{CG: pointOf, Steps: steps})
		require.NoError(t, err)
		for name, stations := range want {
			beam, ok := r.Beam(name)
			require.True(t, ok)
			require.Len(t, beam.Envelope, len(stations))
			for i, y := range stations {
				require.InDelta(t, y, beam.Envelope[i].Y, 1e-12)
			}
		}
	}
	r := loadsOf(t, p, a)
	winglet, _ := r.Beam("winglet")
	require.True(t, winglet.Upright)
	_, ok := r.Beam("nothing")
	require.False(t, ok)
}

func TestLoadsRefuseNoWeight(t *testing.T) {
	a := winged()
	p := stating(a)
	p.FullSize.Mass = program.Figure{}
	solution, err := lattice.Solve(a, lattice.Options{})
	require.NoError(t, err)
	_, err = Loads(p, a, solution, LoadsSetup{})
	require.ErrorContains(t, err, "state mass_kg and limit_load_factor in [full_size]")
}

// BenchmarkLoads flies the whole list of an aircraft with everything stated.
func BenchmarkLoads(b *testing.B) {
	a := winged()
	p := fullyStated(a)
	solution, err := lattice.Solve(a, lattice.Options{})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		r, err := Loads(p, a, solution, LoadsSetup{CG: pointOf})
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(r.Conditions)), "conditions")
	}
}
