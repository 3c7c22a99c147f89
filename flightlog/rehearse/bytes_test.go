package rehearse

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/atmosphere"
)

// Logs flown before an option existed keep their bytes with the option off: kept results and pictures rest on them.
// The sums are of this package's own files, taken before the options were added.
func TestOldLogsKeepTheirBytes(t *testing.T) {
	ac := model(3.9)
	stall := ac.StallSpeed(atmosphere.SeaLevelDensity)
	windy := DefaultWeather()
	windy.WindSpeed, windy.WindFrom, windy.Turbulence = 4, 1, 0.2
	drawn := DrawInstruments(DefaultInstruments(), DefaultProgrammeErrors(), seeded(9))
	fast := DefaultInstruments()
	fast.FastRate = 50
	every := []Card{
		{Kind: Climb, Speed: 23, Duration: 25},
		{Kind: Turn, Speed: 24, Duration: 15, Bank: -0.5},
		{Kind: Sideslip, Speed: 24, Duration: 12, Size: 8 * degree},
		{Kind: Doublet, Speed: 24, Duration: 9, Control: "elevator", Size: 3 * degree, Width: 0.4},
		{Kind: Doublet, Speed: 24, Duration: 7, Control: "aileron", Size: 3 * degree, Width: 0.4},
		{Kind: Doublet, Speed: 24, Duration: 7, Control: "rudder", Size: 8 * degree, Width: 0.5},
		{Kind: Level, Speed: 22, Duration: 10, Altitude: 90},
		{Kind: Glide, Speed: 22, Duration: 10},
	}
	for _, c := range []struct {
		name    string
		cards   []Card
		weather Weather
		ins     Instruments
		seed    uint64
		sum     string
	}{
		{"trim sheet", TrimCards(stall), DefaultWeather(), DefaultInstruments(), 1, "8a5b5480719211e4"},
		{"trim sheet in wind with programme errors", TrimCards(stall), windy, drawn, 2, "2f0cb65e232d0966"},
		{"every kind at 50 Hz", every, windy, fast, 3, "7c8d88f2272e8552"},
		{"every kind, still and perfect", every, still(), perfect(), 4, "235c446d6099ef22"},
	} {
		log, err := Fly(ac, c.cards, c.weather, c.ins, seeded(c.seed))
		require.NoError(t, err)
		var file bytes.Buffer
		require.NoError(t, log.WriteCSV(&file, Dialect{}))
		sum := sha256.Sum256(file.Bytes())
		require.Equal(t, c.sum, hex.EncodeToString(sum[:8]), c.name)
	}
}
