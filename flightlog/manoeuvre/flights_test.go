package manoeuvre_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

const degree = math.Pi / 180

// flown is one rehearsed flight of a sloppy pilot: sheet and sample rate follow from its number, CG, wind and gusts are
// drawn. A flight that a gust sets back on the ground right behind lift-off is flown again with the next draws.
func flown(number uint64) (rehearse.Log, error) {
	rng := rand.New(rand.NewPCG(number, 0x6d61))
	ac := rehearse.ExampleAircraft()
	stall := ac.StallSpeed(atmosphere.SeaLevelDensity)
	sheets := append(rehearse.ManoeuvreCards(stall), mixed(stall, rng))
	for attempt := 1; ; attempt++ {
		ac.CGX = 3.75 + 0.23*rng.Float64()
		cards := rehearse.Sloppy(sheets[number%uint64(len(sheets))], rng)
		w := rehearse.DefaultWeather()
		w.WindSpeed, w.WindFrom = 5*rng.Float64(), 2*math.Pi*rng.Float64()
		ins := rehearse.DrawInstruments(rehearse.DefaultInstruments(), rehearse.DefaultProgrammeErrors(), rng)
		if number%5 == 4 {
			ins.FastRate, ins.AirRate = 100, 50
		}
		log, err := rehearse.Fly(ac, cards, w, ins, rng)
		if !errors.Is(err, rehearse.ErrGround) || attempt == 5 {
			return log, err
		}
	}
}

// mixed draws a dozen cards from all sheets, a climb ahead of every second one.
func mixed(stall float64, rng *rand.Rand) []rehearse.Card {
	var climb rehearse.Card
	var others []rehearse.Card
	for _, sheet := range rehearse.ManoeuvreCards(stall) {
		for _, c := range sheet {
			if c.Kind == rehearse.Climb {
				climb = c
				continue
			}
			others = append(others, c)
		}
	}
	rng.Shuffle(len(others), func(i, j int) { others[i], others[j] = others[j], others[i] })
	var out []rehearse.Card
	for i, c := range others[:12] {
		if i%2 == 0 {
			out = append(out, climb)
		}
		out = append(out, c)
	}
	return out
}

// flights flies several numbers on all cores, in order.
func flights(t *testing.T, from, count int) []rehearse.Log {
	logs, errs := make([]rehearse.Log, count), make([]error, count)
	next := make(chan int)
	var group sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		group.Go(func() {
			for i := range next {
				logs[i], errs[i] = flown(uint64(from + i))
			}
		})
	}
	for i := range count {
		next <- i
	}
	close(next)
	group.Wait()
	for i, err := range errs {
		require.NoError(t, err, "flight %d", from+i)
	}
	return logs
}

// column is what a log holds of a quantity.
func column(log *rehearse.Log, q flightlog.Quantity) []float64 {
	return log.Columns[slices.Index(rehearse.Quantities(), q)]
}
