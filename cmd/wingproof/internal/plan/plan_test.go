package plan

import (
	"math"
	"strings"
	"testing"

	"wingproof/cmd/wingproof/internal/decide"

	"github.com/stretchr/testify/require"
)

// By hand: 4.10 − 2·0.036 − 0.05·1.2 = 3.968 m, 992 mm on the model; with 3 % 3.992 m.
func TestAftLimit(t *testing.T) {
	require.InDelta(t, 3.968, decide.AftLimit(4.10, 0.036, 1.2, false), 1e-12)
	require.InDelta(t, 3.992, decide.AftLimit(4.10, 0.036, 1.2, true), 1e-12)
	s := build(t, heron()).Sheets[0]
	require.InDelta(t, 0.992, s.AftLimit.Model, 1e-9)
	require.InDelta(t, 39.0, s.AftLimit.Percent, 1e-9)
	require.Contains(t, s.LimitRule, "5 % of chord")
}

// The nearer limit needs two flights and their agreement.
func TestTheNearerLimitIsEarned(t *testing.T) {
	for _, c := range []struct {
		flights []string
		agree   bool
		want    float64
	}{
		{nil, true, 0.992}, {[]string{"F01"}, true, 0.992}, {[]string{"F01", "F02"}, false, 0.992}, {[]string{"F01", "F02"}, true, 0.998},
	} {
		p := heron()
		p.Configurations[0].Flights, p.Configurations[0].Agree = c.flights, c.agree
		require.InDelta(t, c.want, build(t, p).Sheets[0].AftLimit.Model, 1e-9, "%v %v", c.flights, c.agree)
	}
}

// Forward 900 mm, aft cut from 1050 to 992 mm, the middle at 946 mm.
func TestThreeCGsOfTheRange(t *testing.T) {
	got := build(t, heron())
	var at []float64
	for _, s := range got.Sheets {
		at = append(at, math.Round(1e4*s.CG.Model)/10)
	}
	require.Equal(t, []float64{900, 946, 992}, at)
	require.Len(t, got.LeftOut, 1)
	require.Contains(t, got.LeftOut[0], "CGs aft of 992 mm")
	require.Nil(t, got.Sheets[0].From)
	require.Equal(t, []string{"F01", "F02", "F03"}, []string{got.Sheets[0].Flight, got.Sheets[1].Flight, got.Sheets[2].Flight})
	require.Equal(t, 3, got.Sheets[0].Of)
}

// 1.5 % of 1.2 m is 4.5 mm on the model, 4 mm on its grid: from 900 to 946 mm eleven stops.
func TestStepsOnTheWayAft(t *testing.T) {
	s := build(t, heron()).Sheets[1]
	require.InDelta(t, 0.900, s.From.Model, 1e-9)
	require.Len(t, s.Steps, 11)
	require.InDelta(t, 0.904, s.Steps[0].Model, 1e-9)
	require.InDelta(t, 0.944, s.Steps[10].Model, 1e-9)
	require.Equal(t, []int{1, 2, 5}, s.Checks)

	p := heron() // a configuration that has been flown farther aft needs none
	p.Configurations[0].Flown = []float64{3.6, 3.9}
	got := build(t, p)
	require.Nil(t, got.Sheets[1].From)
	require.InDelta(t, 0.975, got.Sheets[2].From.Model, 1e-9)
}

// Without loadings the CGs run over a tenth of the chord ahead of the limit; with fewer flights the aft ones stay out.
func TestWithoutLoadingsAndWithFewFlights(t *testing.T) {
	p := heron()
	p.Range, p.Flights = nil, 2
	got := build(t, p)
	require.Len(t, got.Sheets, 2)
	require.InDelta(t, 0.962, got.Sheets[0].CG.Model, 1e-9)
	require.InDelta(t, 0.977, got.Sheets[1].CG.Model, 1e-9)
	require.Equal(t, []string{"winglet=mid: no flight left for one CG"}, got.LeftOut)
}

// By hand: 15 kg on 10/16 m² is 235.4 N/m²; at CL 1.2 V = √(2·235.36/(1.225·1.2)) = 17.89 m/s. Its error: half of √(5 %² + 0.5 %²) = 2.51 %;
// slowest 1.25·17.89·1.0251 = 22.93, stop at 20.18, fastest 39.37, never exceed 46.53.
func TestSpeeds(t *testing.T) {
	s := build(t, heron()).Sheets[0]
	require.InDelta(t, 17.895, s.Stalling, 2e-3)
	require.InDelta(t, 0.4496, s.StallingSD, 1e-3)
	slow := cardOf(t, s, "glide, slowest")
	require.InDelta(t, 22.93, slow.Speed, 0.01)
	require.InDelta(t, 20.18, *slow.Stop.Slowest, 0.01)
	require.InDelta(t, 46.53, slow.Stop.Fastest, 0.01)
	require.InDelta(t, 1.2*math.Pow(17.895/22.93, 2), slow.Lift, 2e-3)
	require.InDelta(t, 25.05, cardOf(t, s, "deceleration to the stall").Speed, 0.01)
	for _, c := range s.Cards { // two roads: the lift that the speed gives is the one on the card
		require.InDelta(t, c.Load*15*9.80665/(0.5*1.225*c.Speed*c.Speed*10/16), c.Lift, 1e-7, c.Name)
		require.Equal(t, c.Speed, c.Shown, c.Name)
	}
}

// Never exceed where nobody has said: 2.6 times the stalling speed of 17.89 m/s, or what full size is designed for, but 1.4 times the slowest run.
func TestNeverExceed(t *testing.T) {
	for _, c := range []struct{ stated, dive, want float64 }{{0, 0, 46.53}, {0, 60, 46.53}, {0, 40, 40}, {0, 20, 32.10}, {36, 40, 36}} {
		p := heron()
		p.NeverExceed, p.DesignDive = c.stated, c.dive
		for _, card := range build(t, p).Sheets[0].Cards {
			require.InDelta(t, c.want, card.Stop.Fastest, 0.01, "%+v", c)
			require.LessOrEqual(t, card.Speed, 0.9*c.want+0.01, "%+v %s", c, card.Name)
		}
	}
}

// A card holds its lift coefficient: with another mass every speed but those that the height bounds goes with the square root.
func TestSpeedsScaleWithTheRootOfTheMass(t *testing.T) {
	light, heavy := heron(), heron()
	light.Heights.Entry, heavy.Heights.Entry = 400, 400
	heavy.Weighings[0].Mass, heavy.Weighings[0].SD = 4*15, 4*0.075
	a, b := build(t, light), build(t, heavy)
	for i := range a.Sheets {
		require.Equal(t, len(a.Sheets[i].Cards), len(b.Sheets[i].Cards))
		for k, c := range a.Sheets[i].Cards {
			require.InDelta(t, 2*c.Speed, b.Sheets[i].Cards[k].Speed, 1e-9, c.Name)
			require.InDelta(t, c.Lift, b.Sheets[i].Cards[k].Lift, 1e-9, c.Name)
		}
	}
}

// The display shows 2 % too much: the crew flies 2 % more on it.
func TestWhatTheDisplayShows(t *testing.T) {
	p := heron()
	p.Airspeed = Airspeed{Logger: "box", Scale: 0.02, Known: true}
	got := build(t, p)
	for _, c := range got.Sheets[0].Cards {
		require.InDelta(t, 1.02*c.Speed, c.Shown, 1e-9)
	}
	require.Contains(t, got.Airspeed, "logger box the display shows +2.0 %")
}

// Maximum lift falls as the CG goes forward; ahead of what is known it goes on, with half the step in the error.
func TestMaximumLiftByCG(t *testing.T) {
	c := Configuration{MaxLift: []Lift{{CG: 3.6, Value: 0.9, SD: 0.02}, {CG: 3.8, Value: 1.2, SD: 0.03}, {CG: 4, Value: 1.3, SD: 0.01}}}
	for _, w := range []struct{ cg, value, sd float64 }{{3.6, 0.9, 0.03}, {3.7, 1.05, 0.03}, {3.9, 1.25, 0.03}, {4.2, 1.3, 0.01}, {3.5, 0.75, 0.105}, {1, 0.3, 0.33}} {
		got := c.maxLift(w.cg)
		require.InDelta(t, w.value, got.Value, 1e-12, "%v", w)
		require.InDelta(t, w.sd, got.SD, 1e-12, "%v", w)
	}
}

// Decelerations come last and only with margin, height and a foreplane that lets go first.
func TestWhereTheModelIsStalled(t *testing.T) {
	for _, c := range []struct {
		name  string
		bend  func(*Problem)
		sheet int
		why   string // empty: it is flown
	}{
		{"forward", func(*Problem) {}, 0, ""},
		{"aft, 5.0 % with two standard deviations off", func(*Problem) {}, 2, "as low as 5.0 % of the chord"},
		{"too low", func(p *Problem) { p.Heights.Lowest = 61 }, 0, "they need 60 m above the lowest height"},
		{"just high enough", func(p *Problem) { p.Heights.Lowest = 60 }, 0, ""},
		{"wing first", func(p *Problem) { p.Configurations[0].Stalls[0].Margin = 0.019 }, 0, "the foreplane lets go"},
		{"just sure enough", func(p *Problem) { p.Configurations[0].Stalls[0].Margin = 0.021 }, 0, ""},
		{"no section data, far ahead", func(p *Problem) { p.Configurations[0].Stalls = nil }, 0, ""},
		{"no section data, nearer", func(p *Problem) { p.Configurations[0].Stalls, p.CGs = nil, []float64{3.88} }, 0, "no section data"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := heron()
			c.bend(&p)
			s := build(t, p).Sheets[c.sheet]
			require.Equal(t, c.why == "", has(s, "deceleration"))
			if c.why != "" {
				require.Contains(t, strings.Join(s.Notes, "\n"), c.why)
				return
			}
			require.Equal(t, "deceleration", s.Cards[len(s.Cards)-1].Manoeuvre)
			require.GreaterOrEqual(t, s.Cards[len(s.Cards)-1].Stop.Lowest, p.Heights.Lowest+25)
		})
	}
}

// Every card says all that a crew needs, in the order of a careful flight.
func TestEveryCardIsWhole(t *testing.T) {
	s := build(t, heron()).Sheets[0]
	var kinds []string
	for i, c := range s.Cards {
		require.Equal(t, i+1, c.Number)
		require.NotEmpty(t, c.Do, c.Name)
		require.NotEmpty(t, c.Reads, c.Name)
		require.NotEmpty(t, c.Stop.Elevator, c.Name)
		require.Greater(t, c.Entry, c.Stop.Lowest, c.Name)
		require.Less(t, c.Speed, c.Stop.Fastest, c.Name)
		require.Positive(t, c.Hold, c.Name)
		require.Positive(t, c.Repeats, c.Name)
		if c.Manoeuvre != "deceleration" {
			require.Greater(t, c.Speed, *c.Stop.Slowest, c.Name)
		}
		if n := len(kinds); c.Manoeuvre != "" && (n == 0 || kinds[n-1] != c.Manoeuvre) {
			kinds = append(kinds, c.Manoeuvre)
		}
	}
	require.Equal(t, []string{"circle", "glide", "level", "doublet", "sideslip", "turn", "pull_up", "deceleration"}, kinds)
	require.Contains(t, s.Cards[0].Stop.Elevator, "beyond +23° or −12°")
}

// What the words never say.
func TestNothingIsCalledSafe(t *testing.T) {
	for _, line := range cautions() {
		require.NotContains(t, strings.ToLower(line), "safe to")
	}
	all := strings.Join(cautions(), " ")
	for _, what := range []string{"Nobody in its path", "Local flying rules", "Kill switch", "STOP", "observer calls height"} {
		require.Contains(t, all, what)
	}
}

// The ballast note, by hand: 15 kg moved from 900 to 946 mm is 0.690 kg·m.
func TestBallastNote(t *testing.T) {
	got := build(t, heron())
	require.Equal(t, "ballast as in weighing w1", got.Sheets[0].Ballast)
	require.Contains(t, got.Sheets[1].Ballast, "from weighing w1 (CG 900 mm) the CG goes 46 mm aft: ballast times distance moved aft is 0.690 kg·m")
	p := heron()
	p.Weighings, p.Mass = nil, Mass{14, 0.4, "target of dynamic similarity, not weighed"}
	s := build(t, p).Sheets[0]
	require.Contains(t, s.Ballast, "no weighing")
	require.Equal(t, 14.0, s.Mass)
}

// Where never exceed leaves no room at the forward CG only, the others still have their sheets, and are the first of their kind.
func TestACGWithoutRoomHasNoSheet(t *testing.T) {
	p := heron()
	p.Configurations[0].MaxLift = []Lift{{CG: 3.6, Value: 0.6, SD: 0.03}, {CG: 3.8, Value: 1.2, SD: 0.06}}
	p.NeverExceed = 36
	got := build(t, p)
	require.Len(t, got.Sheets, 2)
	require.InDelta(t, 0.946, got.Sheets[0].CG.Model, 1e-9)
	require.Equal(t, "F01", got.Sheets[0].Flight)
	require.Empty(t, got.Sheets[0].Steps)
	require.Contains(t, got.LeftOut[1], "CG 900 mm: never exceed 36.0 m/s leaves no room above the slowest run of 33.2 m/s")
}

func TestRefusals(t *testing.T) {
	for _, c := range []struct {
		name, want string
		bend       func(*Problem)
	}{
		{"no chord", "chord, area, span and length ratio", func(p *Problem) { p.Chord = 0 }},
		{"nothing to plan for", "no configuration", func(p *Problem) { p.Configurations = nil }},
		{"no mass", "mass of the model is not known", func(p *Problem) { p.Weighings = nil }},
		{"no names", "fewer names", func(p *Problem) { p.Names = nil }},
		{"no lift", "lacks its maximum lift", func(p *Problem) { p.Configurations[0].MaxLift = nil }},
		{"negative lift", "must be positive", func(p *Problem) { p.Configurations[0].MaxLift[0].Value = -1 }},
		{"no neutral point", "or its neutral point", func(p *Problem) { p.Configurations[0].NeutralPoint = math.NaN() }},
		{"slow model", "never exceed 25.0 m/s leaves no room above the slowest run of 22.9 m/s", func(p *Problem) { p.NeverExceed = 25 }},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := heron()
			c.bend(&p)
			_, err := Build(p)
			require.ErrorContains(t, err, c.want)
		})
	}
}
