package flightlog_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// drafted is the guesses for a flight in a dialect, by head.
func drafted(t *testing.T, d dialect, log rehearse.Log) map[string]flightlog.Guess {
	t.Helper()
	s, err := flightlog.Sniff(strings.NewReader(d.write(log, math.MaxInt)), d.name)
	require.NoError(t, err)
	_, guesses := flightlog.SuggestMap(s)
	out := map[string]flightlog.Guess{}
	for _, g := range guesses {
		out[g.Column] = g
	}
	return out
}

// germanBox is an invented logger that names directions in words, with further columns.
func germanBox(speeds ...cellOf) dialect {
	return dialect{name: "directions in words", separator: ";", comma: true, time: "Uhrzeit", clock: ofDay, timeUnit: "iso", columns: append([]cellOf{
		{head: "Drehrate Rollen [°/s]", is: flightlog.RollRate, unit: "deg_s"}, {head: "Drehrate Nicken [°/s]", is: flightlog.PitchRate, unit: "deg_s"}, {head: "Drehrate Gieren [°/s]", is: flightlog.YawRate, unit: "deg_s"},
		{head: "Beschleunigung längs [m/s²]", is: flightlog.ForwardAcceleration, unit: "m_s2"}, {head: "Beschleunigung hoch [m/s²]", is: flightlog.DownAcceleration, unit: "m_s2", sign: -1},
		{head: "Querneigung [°]", is: flightlog.RollAngle, unit: "deg"}, {head: "Längsneigung [°]", is: flightlog.PitchAngle, unit: "deg"}, {head: "Steuerkurs [°]", is: flightlog.Heading, unit: "deg"},
		{head: "Luftdruck [hPa]", is: flightlog.StaticPressure, unit: "hpa"}, {head: "Höhe über Platz [m]", is: flightlog.Altitude, unit: "m"}, {head: "Weg über Grund [°]", is: flightlog.GroundTrack, unit: "deg"}, {head: "Steigen [m/s]", is: flightlog.ClimbRate, unit: "m_s"}},
		speeds...)}
}

func overFlights(t *testing.T, check func(t *testing.T, log rehearse.Log)) {
	for _, sheet := range []int{-1, 0, 1, 2} {
		log := flown(t, sheet, uint64(sheet+31))
		t.Run(fmt.Sprintf("sheet %d", sheet), func(t *testing.T) { check(t, log) })
	}
}

// The speed over ground is told by its words, and the airspeed by being the other one.
func TestSuggestTellsTheSpeedsApartByWords(t *testing.T) {
	box := germanBox(cellOf{head: "Fahrt über Grund [km/h]", is: flightlog.GroundSpeed, unit: "km_h"}, cellOf{head: "Staudruckfahrt [km/h]", is: flightlog.Airspeed, unit: "km_h"})
	overFlights(t, func(t *testing.T, log rehearse.Log) {
		g := drafted(t, box, log)
		require.Equal(t, flightlog.GroundSpeed, g["Fahrt über Grund [km/h]"].Is)
		require.Equal(t, flightlog.Airspeed, g["Staudruckfahrt [km/h]"].Is)
		require.Equal(t, "sure", g["Staudruckfahrt [km/h]"].Sure)
		require.Contains(t, g["Staudruckfahrt [km/h]"].Why, "its changes are those that forward acceleration and gravity give")
		require.Equal(t, flightlog.GroundTrack, g["Weg über Grund [°]"].Is)
		require.Equal(t, "sure", g["Weg über Grund [°]"].Sure)
	})
}

// Whatever a head says, a column that gains and loses speed around the compass is no airspeed to be sure of.
func TestSuggestDoubtsAnAirspeedThatShowsWind(t *testing.T) {
	box := germanBox(cellOf{head: "Fahrt [km/h]", is: flightlog.GroundSpeed, unit: "km_h"})
	overFlights(t, func(t *testing.T, log rehearse.Log) {
		g := drafted(t, box, log)["Fahrt [km/h]"]
		require.Equal(t, flightlog.Airspeed, g.Is)
		require.Equal(t, "guess", g.Sure, g.Why)
		require.Contains(t, g.Why, "as a speed over ground does")
	})
}

// A qualifier that nobody knows may change what a head means, so that even agreeing numbers leave a doubt.
func TestSuggestIsNeverSureOfUnknownQualifiers(t *testing.T) {
	box := germanBox(cellOf{head: "Fahrt trüb [km/h]", is: flightlog.Airspeed, unit: "km_h"})
	overFlights(t, func(t *testing.T, log rehearse.Log) {
		g := drafted(t, box, log)["Fahrt trüb [km/h]"]
		require.Equal(t, "likely", g.Sure, g.Why)
		require.Contains(t, g.Why, `"trüb" in the head is not known here`)
	})
}

// Right acceleration follows the side force of sideslip; upwards in words is no left-handed frame.
func TestSuggestChecksRightAccelerationAgainstSideslip(t *testing.T) {
	for _, sign := range []float64{1, -1} {
		box := germanBox(cellOf{head: "Beschleunigung quer [m/s²]", is: flightlog.RightAcceleration, unit: "m_s2", sign: sign}, cellOf{head: "Fahrt [m/s]", is: flightlog.Airspeed, unit: "m_s"})
		overFlights(t, func(t *testing.T, log rehearse.Log) {
			g := drafted(t, box, log)["Beschleunigung quer [m/s²]"]
			if strings.Contains(g.Why, "its sign does not show") {
				require.Equal(t, 1.0, g.Sign)
				require.Equal(t, "guess", g.Sure)
				return
			}
			require.Equal(t, sign, g.Sign, g.Why)
			require.Contains(t, g.Why, "the side force that sideslip brings")
		})
	}
}
