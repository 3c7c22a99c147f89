package rehearse

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
)

// Each mistaken unit turns a reading in one unit into the number that the other unit would have taken for it.
func TestMistakenUnits(t *testing.T) {
	log := clean(t)
	seen := map[string]bool{}
	for seed := range uint64(300) {
		l, f, err := Spoil(log, WrongUnit, seeded(seed))
		require.NoError(t, err)
		if seen[f.Text] {
			continue
		}
		seen[f.Text] = true
		at := columnOf(t, f.Channel)
		row := slices.IndexFunc(l.Columns[at], func(v float64) bool { return v == v && v != 0 })
		truth, read := log.Columns[at][row], l.Columns[at][row]
		factor := map[string]float64{
			"rates in degrees per second read as radians per second": 57.29578, "rates in radians per second read as degrees per second": 0.01745329,
			"accelerations in g read as m/s²": 0.1019716, "accelerations in m/s² read as g": 9.80665,
			"attitude in degrees read as radians": 57.29578, "attitude in radians read as degrees": 0.01745329,
			"airspeed in km/h read as m/s": 3.6, "airspeed in knots read as m/s": 1.943844, "airspeed in m/s read as km/h": 0.2777778,
			"ground speed in km/h read as m/s": 3.6, "altitude in feet read as metres": 3.28084, "altitude in metres read as feet": 0.3048,
			"static pressure in hPa read as Pa": 0.01, "static pressure in Pa read as hPa": 100,
			"temperature in °C read as K": (truth - 273.15) / truth,
		}[f.Text]
		require.NotZero(t, factor, f.Text)
		require.InEpsilon(t, truth*factor, read, 1e-6, f.Text)
	}
	require.Len(t, seen, 15)
}

func TestBlockedTubes(t *testing.T) {
	log := clean(t)
	end := log.Time[len(log.Time)-1]
	for _, kind := range []FaultKind{StuckTube, DrainingTube, SealedTube} {
		spoils(t, kind, func(l Log, f Fault) {
			require.Equal(t, flightlog.Airspeed, f.Channel)
			require.Equal(t, end, f.End)
			first, _ := within(l, f.Start, end)
			held, height := lastBefore(log.Columns[atAirspeed], first), log.Truth.Height[first]
			for i := first; i < len(l.Time); i++ {
				v := l.Columns[atAirspeed][i]
				since := l.Time[i] - f.Start
				switch kind {
				case StuckTube:
					require.InDelta(t, held, v, 0.3)
				case DrainingTube:
					require.LessOrEqual(t, v, held*math.Exp(-since/8)+0.3)
					require.GreaterOrEqual(t, v, held*math.Exp(-since/2)-0.3)
				case SealedTube: // 2·g·h for a column of air of sea-level density; noise of two pressures is some 0.4 m/s at 20 m/s, more when slow
					square := held*held + 2*atmosphere.Gravity*(log.Truth.Height[i]-height)*1.0
					require.InDelta(t, math.Max(0, square), v*v, 40+0.03*math.Abs(square))
				}
			}
		})
	}
	require.Zero(t, sealed(20, -400))
	require.InDelta(t, math.Sqrt(400+2*122.5/1.225), sealed(20, 122.5), 1e-6)
}
