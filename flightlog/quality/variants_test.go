package quality

import (
	"fmt"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/sync/errgroup"

	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// variants are clean recordings that differ from the usual: what a log lacks or how it was written is no fault of its channels.
func variants() []struct {
	name    string
	options func(o *flightOptions)
	change  func(l rehearse.Log) (*flightlog.Recording, error)
} {
	lacks := func(qs ...flightlog.Quantity) func(rehearse.Log) (*flightlog.Recording, error) {
		return func(l rehearse.Log) (*flightlog.Recording, error) { return without(ofLog(l), qs...), nil }
	}
	as := func(l rehearse.Log) (*flightlog.Recording, error) { return ofLog(l), nil }
	return []struct {
		name    string
		options func(o *flightOptions)
		change  func(l rehearse.Log) (*flightlog.Recording, error)
	}{
		{"exact pilot", func(o *flightOptions) { o.exact = true }, as},
		{"sensors far apart", func(o *flightOptions) { o.apart = true }, as},
		{"10 Hz", func(o *flightOptions) { o.rate = 10 }, as},
		{"through a file", nil, throughFile},
		{"no satellites", nil, lacks(flightlog.GroundSpeed, flightlog.GroundTrack, flightlog.ClimbRate)},
		{"no heading, no pressure", nil, lacks(flightlog.Heading, flightlog.StaticPressure, flightlog.AirTemperature)},
		{"no rates", nil, lacks(flightlog.RollRate, flightlog.PitchRate, flightlog.YawRate)},
		{"no airspeed", nil, lacks(flightlog.Airspeed)},
		{"no track", nil, lacks(flightlog.GroundTrack)},
	}
}

// Clean flights of other kinds have no finding that costs anything.
func TestCleanVariants(t *testing.T) {
	flights := uint64(6)
	if testing.Short() {
		flights = 4
	}
	all := variants()
	costly := make([][]string, len(all))
	var g errgroup.Group
	g.SetLimit(runtime.NumCPU())
	for i, v := range all {
		g.Go(func() error {
			for seed := uint64(200); seed < 200+flights; seed++ {
				o := usualOptions(seed)
				if v.options != nil {
					v.options(&o)
				}
				l, err := flown(inventedModel(), seed, o)
				if err != nil {
					return fmt.Errorf("%s, seed %d: %w", v.name, seed, err)
				}
				rec, err := v.change(l)
				if err != nil {
					return fmt.Errorf("%s, seed %d: %w", v.name, seed, err)
				}
				for _, f := range both(rec) {
					if f.Severity != flightlog.Note {
						costly[i] = append(costly[i], fmt.Sprintf("seed %d sheet %d: %s %s %.1f to %.1f s: %s", seed, o.sheet, f.Severity, f.Channel, f.Start, f.End, f.What))
					}
				}
			}
			return nil
		})
	}
	require.NoError(t, g.Wait())
	total := 0
	for i, v := range all {
		t.Logf("%-24s %d findings that cost something in %d flights %v", v.name, len(costly[i]), flights, costly[i])
		total += len(costly[i])
	}
	require.LessOrEqual(t, total, len(all)*int(flights)/50)
}

// A blocked tube shows in most flights without satellites too, by lift and by the forward acceleration.
func TestTubeWithoutSatellites(t *testing.T) {
	flights := uint64(16)
	if testing.Short() {
		flights = 8
	}
	kinds := []rehearse.FaultKind{rehearse.StuckTube, rehearse.DrainingTube, rehearse.SealedTube}
	found := make([][3]bool, flights)
	var g errgroup.Group
	g.SetLimit(runtime.NumCPU())
	for seed := range flights {
		g.Go(func() error {
			l, err := sloppyFlight(inventedModel(), seed)
			if err != nil {
				return err
			}
			for i, kind := range kinds {
				spoilt, f, err := rehearse.Spoil(l, kind, stream(seed, uint64(i)))
				if err != nil {
					return err
				}
				rec := without(ofLog(spoilt), flightlog.GroundSpeed, flightlog.GroundTrack, flightlog.ClimbRate)
				found[seed][i] = judged(injection{}, f, Inspect(rec)).found
			}
			return nil
		})
	}
	require.NoError(t, g.Wait())
	for i, kind := range kinds {
		n := 0
		for _, f := range found {
			if f[i] {
				n++
			}
		}
		t.Logf("%s without satellites: found in %d of %d", kind, n, flights)
		require.GreaterOrEqual(t, 10*n, 8*int(flights), kind)
	}
}
