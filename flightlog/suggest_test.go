package flightlog

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"wingproof/flightlog/statistic"

	"github.com/stretchr/testify/require"
)

// madeLog writes a log of a model that stands for 4 s and then climbs and dives gently, one row a step of 0.02 s. Each column
// is a head and how its value is written from time, pitch angle [rad] and its rate.
func madeLog(heads []string, value func(t, theta, rate float64) []float64, decimal string, separator string) string {
	var b strings.Builder
	b.WriteString(strings.Join(heads, separator) + "\n")
	for i := range 1000 {
		t := float64(i) * 0.02
		theta, rate := 0.0, 0.0
		if t > 4 {
			theta, rate = 0.2*math.Sin(t-4), 0.2*math.Cos(t-4)
		}
		for k, v := range value(t, theta, rate) {
			if k > 0 {
				b.WriteString(separator)
			}
			b.WriteString(strings.Replace(fmt.Sprintf("%.5f", v), ".", decimal, 1))
		}
		b.WriteString("\n")
	}
	return b.String()
}

func suggested(t *testing.T, text string) (Sniffed, Map, map[string]Guess) {
	t.Helper()
	s, err := Sniff(strings.NewReader(text), "x.csv")
	require.NoError(t, err)
	m, guesses := SuggestMap(s)
	byHead := map[string]Guess{}
	for i, g := range guesses {
		require.Equal(t, s.Heads[i], g.Column)
		require.NotEmpty(t, g.Why)
		require.Contains(t, []string{"sure", "likely", "guess", "unknown"}, g.Sure)
		byHead[g.Column] = g
	}
	return s, m, byHead
}

func TestSniff(t *testing.T) {
	s, err := Sniff(strings.NewReader("Box 3; calm\n\nZeit;Nickrate;Höhe\ns;°/s;m\n0,00;1,5;\n0,02;2;10\n# break\n0,04;2;11\n0,06;2"), "x.csv")
	require.NoError(t, err)
	require.Equal(t, Sniffed{Source: "x.csv", Encoding: "UTF-8 or Windows-1252", Separator: ";", Decimal: ",", HeadLine: 3,
		Heads: []string{"Zeit", "Nickrate", "Höhe"}, Units: []string{"s", "°/s", "m"},
		Rows: [][]string{{"0,00", "1,5", ""}, {"0,02", "2", "10"}, {"0,04", "2", "11"}}}, s)
}

// Heads with words and units are sure; signs that the numbers show to be wrong are flipped; the draft reads the log.
func TestSuggestFromWordsAndUnits(t *testing.T) {
	text := madeLog([]string{"Time (s)", "gyro y [deg/s]", "accel x [m/s²]", "accel z [g]", "Pitch [°]", "Airspeed (km/h)", "elevator_us", "throttle [%]", "battery [V]", "static pressure [hPa]"},
		func(t, theta, rate float64) []float64 {
			return []float64{t, -rate / degree, 9.81 * math.Sin(theta), math.Cos(theta), theta / degree, 72, 1500, 10, 11.1, 1013}
		}, ".", ",")
	_, m, guess := suggested(t, text)
	require.Equal(t, TimeColumn{"Time (s)", "s"}, m.Time)
	require.Equal(t, PitchRate, guess["gyro y [deg/s]"].Is)
	require.Equal(t, -1.0, guess["gyro y [deg/s]"].Sign)
	require.Contains(t, guess["gyro y [deg/s]"].Why, "runs against the change of the attitude angles")
	require.Equal(t, 1.0, guess["accel x [m/s²]"].Sign)
	require.Equal(t, "guess", guess["accel x [m/s²]"].Sure, "it goes with the pitch angle, and nothing tells which way that counts")
	require.Contains(t, guess["accel x [m/s²]"].Why, "both may be turned")
	require.Equal(t, -1.0, guess["accel z [g]"].Sign)
	require.Equal(t, "likely", guess["accel z [g]"].Sure)
	require.Equal(t, "sure", guess["Airspeed (km/h)"].Sure)
	require.Equal(t, "unknown", guess["battery [V]"].Sure)
	require.False(t, guess["elevator_us"].Mapped, "a surface needs a calibration that only a protractor gives")
	require.Contains(t, guess["elevator_us"].Why, "calibration")

	rec, err := Read(strings.NewReader(text), "x.csv", m)
	require.NoError(t, err)
	require.Negative(t, statistic.Median(rec.Channels[DownAcceleration].Value))
	require.InDelta(t, 20, rec.Channels[Airspeed].Value[0], 1e-9)
	require.InDelta(t, 101300, rec.Channels[StaticPressure].Value[0], 1e-6)
	require.InDelta(t, 0.1, rec.Channels[Throttle].Value[0], 1e-12)
}

// Without units the numbers tell, and the guess says that it is one.
func TestSuggestFromNumbers(t *testing.T) {
	text := madeLog([]string{"timestamp", "rollRate", "pitchRate", "accZ", "theta", "baro pressure", "temp", "throttle"},
		func(t, theta, rate float64) []float64 {
			return []float64{t * 1e6, 20 * math.Sin(3*t), rate / degree, -math.Cos(theta), theta / degree, 1001.5, 18, 1200}
		}, ",", ";")
	_, m, guess := suggested(t, text)
	require.Equal(t, "us", m.Time.Unit)
	require.Equal(t, "likely", guess["timestamp"].Sure)
	for head, want := range map[string]struct {
		q    Quantity
		unit string
	}{"rollRate": {RollRate, "deg_s"}, "pitchRate": {PitchRate, "deg_s"}, "accZ": {DownAcceleration, "gee"}, "theta": {PitchAngle, "deg"},
		"baro pressure": {StaticPressure, "hpa"}, "temp": {AirTemperature, "c"}, "throttle": {Throttle, "share"}} {
		require.Equal(t, want.q, guess[head].Is, head)
		require.Equal(t, want.unit, guess[head].Unit, head)
		require.NotEqual(t, "sure", guess[head].Sure, head)
		require.True(t, guess[head].Mapped, head)
	}
	rec, err := Read(strings.NewReader(text), "x.csv", m)
	require.NoError(t, err)
	require.InDelta(t, 0.2, rec.Channels[Throttle].Value[0], 1e-12)
	require.InDelta(t, 19.98, rec.Channels[PitchRate].Time[999], 1e-9)
}

func TestHeadWords(t *testing.T) {
	for head, want := range map[string]Quantity{
		"gyroY": PitchRate, "wx": RollRate, "yaw rate": YawRate, "angular rate z (rad/s)": YawRate, "ay": RightAcceleration, "accel_down": DownAcceleration,
		"bank angle": RollAngle, "pitch": PitchAngle, "heading (true)": Heading, "IAS": Airspeed, "air speed": Airspeed, "ground speed": GroundSpeed,
		"gps speed": GroundSpeed, "course": GroundTrack, "climb rate": ClimbRate, "vertical speed": ClimbRate, "alt": Altitude, "AoA": AngleOfAttack, "beta": Sideslip,
		"left rudder": RudderLeft, "rudder R": RudderRight, "aileron": Aileron, "OAT": AirTemperature,
		"motor temperature": "", "differential pressure": "", "pitch command": "", "remark": "", "gps altitude": "", "mag x": "", "roll setpoint": "",
	} {
		words, _ := headWords(head)
		require.Equal(t, want, quantityOf(words), head)
	}
}

func TestSuggestTwoColumnsOfOneQuantity(t *testing.T) {
	_, m, guess := suggested(t, "t,airspeed [m/s],pitot speed [m/s]\n0,1,1\n1,2,2\n2,3,3\n")
	require.Len(t, m.Columns, 1)
	require.Equal(t, `looks like airspeed, which column "airspeed [m/s]" holds already`, guess["pitot speed [m/s]"].Why)
}
