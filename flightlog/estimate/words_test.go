package estimate

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// flown makes a programme of one configuration alone.
func flown(flights int, cgs ...float64) programme {
	return flyProgramme(rand.New(rand.NewPCG(6, 6)), canard(), 1, flights, flights, cgs, usualErrors(), 0.2)
}

// one is the result of a quantity.
func (p programme) one(t *testing.T, quantity string) Result {
	t.Helper()
	for _, one := range p.trials(usualErrors(), rand.New(rand.NewPCG(1, 1))) {
		if one.Quantity == quantity {
			return one.Result
		}
	}
	t.Fatalf("%s is not asked", quantity)
	return Result{}
}

// What the flights cannot tell is said in words that end in what to fly.
func TestLessFlownGivesTheWeakerAnswerOrWords(t *testing.T) {
	noGlides := flown(6, 2.30, 2.40)
	for i := range noGlides.points[0] {
		noGlides.points[0][i].HasDrag = false
	}
	threePoints := flown(1, 2.30)
	threePoints.points[0] = threePoints.points[0][:3]
	const oneFlight = "1 flight with"
	cases := []struct {
		name, quantity string
		p              programme
		state, words   string
	}{
		{"two CGs", "neutral_point", flown(6, 2.30, 2.40), Determined, ""},
		{"two CGs", "lift_curve_slope", flown(6, 2.30, 2.40), Determined, ""},
		{"two CGs", "manoeuvre_point", flown(6, 2.30, 2.40), Determined, ""},
		{"one CG", "neutral_point", flown(6, 2.30), NotDetermined, "fly a second CG"},
		{"one CG", "static_margin", flown(6, 2.30), NotDetermined, "fly a second CG"},
		{"one CG", "elevator_per_lift", flown(6, 2.30), Determined, ""},
		{"one CG", "elevator_power", flown(6, 2.30), NotDetermined, "fly a second CG, or elevator doublets"},
		{"one CG", "manoeuvre_point", flown(6, 2.30), NotDetermined, "at a second CG; fly them"},
		{"one CG", "elevator_per_g", flown(6, 2.30), Determined, ""},
		{"one CG", "lift_curve_slope", flown(6, 2.30), NotDetermined, "fly a second CG"},
		{"one CG", "trimmed_lift_curve_slope", flown(6, 2.30), Determined, "flown at one CG only"},
		{"one CG", "max_lift_coefficient", flown(6, 2.30), Determined, ""},
		{"hardly any travel", "neutral_point", flown(6, 2.300, 2.305), NotDetermined, "CG travel of 5 mm is too little for these flights; fly at least"},
		{"hardly any travel", "elevator_power", flown(6, 2.300, 2.305), NotDetermined, "fly at least"},
		{"no glides", "zero_lift_drag", noGlides, NotDetermined, "fly power-off glides at three speeds or more, in two flights or more"},
		{"no glides", "span_efficiency", noGlides, NotDetermined, "fly power-off glides"},
		{"no glides", "neutral_point", noGlides, Determined, ""},
		{"one flight", "neutral_point", flown(1, 2.30), NotDetermined, oneFlight},
		{"one flight", "elevator_per_lift", flown(1, 2.30), "", ""},
		{"one flight", "trimmed_lift_curve_slope", flown(1, 2.30), NotDetermined, "fly 1 flight more"},
		{"one flight, its vertical air stated", "zero_lift_drag", flown(1, 2.30), Weak, "the 95 % interval reaches"},
		{"one flight", "max_lift_coefficient", flown(1, 2.30), NotDetermined, "fly 1 flight more"},
		{"one flight", "rudder_per_sideslip", flown(1, 2.30), NotDetermined, "fly 1 flight more"},
		{"two flights, two CGs", "neutral_point", flown(2, 2.30, 2.40), NotDetermined, "fly 1 flight more"},
		{"three flights, two CGs", "elevator_per_lift", flown(3, 2.30, 2.40), Weak, "stands on 1 degree of freedom"},
		{"three points", "neutral_point", threePoints, NotDetermined, "fly"},
		{"three points", "zero_lift_drag", threePoints, NotDetermined, "fly power-off glides"},
		{"three points", "trimmed_lift_curve_slope", threePoints, NotDetermined, "fly"},
	}
	for _, c := range cases {
		t.Run(c.name+" "+c.quantity, func(t *testing.T) {
			r := c.p.one(t, c.quantity)
			words := strings.Join(r.Warnings, "\n")
			require.Equal(t, c.state, r.State, words)
			require.Contains(t, words, c.words)
			if r.State == NotDetermined {
				require.Contains(t, words, "fly")
				require.Nil(t, r.Low)
			}
		})
	}
}

// A single flight of a configuration counts where other configurations tell how much flights differ.
func TestOneFlightAndAPool(t *testing.T) {
	p := flyProgramme(rand.New(rand.NewPCG(6, 7)), canard(), 3, 4, 4, []float64{2.30, 2.40}, usualErrors(), 0.2)
	p.points[0] = firstFlight(p.points[0])
	p.pool()
	slope := p.one(t, "trimmed_lift_curve_slope")
	require.NotNil(t, slope.Low, slope.Warnings)
	require.Equal(t, []string{"F00"}, slope.Flights)
	require.Equal(t, NotDetermined, p.one(t, "neutral_point").State)
}

func firstFlight(points []Point) []Point {
	var out []Point
	for _, q := range points {
		if q.Flight == points[0].Flight {
			out = append(out, q)
		}
	}
	return out
}

// All flights in one wind: what it does to the sideslip that is believed is one constant, and slopes do not know it.
func TestOneWindDropsOutOfSideslipSlopes(t *testing.T) {
	p := flown(5, 2.30)
	before := p.one(t, "rudder_per_sideslip")
	for i := range p.slips[0] {
		p.slips[0][i].Sideslip += 0.05
	}
	after := p.one(t, "rudder_per_sideslip")
	near(t, *after.Value, *before.Value, 1e-9, "a constant")
	near(t, *after.High, *before.High, 1e-9, "a constant")
}
