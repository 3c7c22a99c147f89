package reduce

import (
	"encoding/json"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// Flights full of manoeuvres, with channels that end early, begin late, are scaled or missing, and with hand marks of every kind laid across them: Reduce neither
// panics nor writes a number that JSON cannot hold.
func TestDamagedManoeuvres(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 44))
	sheets := []sheet{inputSheet(3, rehearse.Weather{}), slowSheets(rehearse.InventedWingStall(), 1)[0], turningSheets(1)[0], pullSheets(1)[0]}
	for _, s := range sheets {
		good := s.fly(t, rehearse.DefaultInstruments()).Recording("damaged")
		for range 5 {
			rec := good
			rec.Channels = map[flightlog.Quantity]flightlog.Channel{}
			for _, q := range flightlog.Quantities() {
				c, ok := good.Channels[q]
				if !ok {
					continue
				}
				n := len(c.Time)
				switch rng.IntN(24) {
				case 0:
					continue
				case 1:
					c = flightlog.Channel{Time: c.Time[:n/2], Value: c.Value[:n/2]}
				case 2:
					c = flightlog.Channel{Time: c.Time[n/2:], Value: c.Value[n/2:]}
				case 3:
					c.Value = make([]float64, n)
				}
				rec.Channels[q] = c
			}
			context := s.context()
			kinds := MarkKinds()
			for k := range 4 {
				at := 40 + 60*float64(k)
				context.Marks = append(context.Marks, Mark{Start: at, End: at + 25*rng.Float64(), Kind: kinds[rng.IntN(len(kinds))]})
			}
			r, err := Reduce(&rec, context)
			require.NoError(t, err)
			_, err = json.Marshal(r)
			require.NoError(t, err)
			for _, one := range r.Segments {
				require.True(t, soundSegment(one))
				require.Equal(t, len(one.Roll), len(one.Rudder))
			}
		}
	}
}
