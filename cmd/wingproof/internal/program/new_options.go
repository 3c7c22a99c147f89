package program

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"wingproof/flightlog/unit"
)

// NewOptions is what New needs to know. Everything is SI and radians, full size, x aft of the datum; zero
// or empty means that New puts a sensible figure there and says so in a comment.
type NewOptions struct {
	Name            string
	LengthRatio     float64   // model over full size
	Span            float64   // wing tip to wing tip, m
	RootChord       float64   // of the wing where it meets the strake or the plane of symmetry, m
	TipChord        float64   // m
	Sweep           float64   // of the wing's leading edge, rad
	WingX           float64   // leading edge of the wing's root, m
	StrakeChord     float64   // on the plane of symmetry, m; negative: no strake
	StrakeSpan      float64   // from side to side, m
	ForeplaneSpans  []float64 // one a level, m
	ForeplaneChord  float64   // mean, m
	ForeplaneX      float64   // leading edge at the plane of symmetry, m
	ForeplaneZ      float64   // m above the wing's root
	WingletHeights  []float64 // one a level, m; one negative: no winglets
	Choices         []Choice  // instead of those that follow from two or more heights or spans; edits without stations
	Mass            float64   // gross, kg
	EmptyMass       float64   // kg
	CruiseSpeed     float64   // true, m/s
	CruiseAltitude  float64   // m
	LimitLoadFactor float64
	Logs            []string // paths of logs to copy into the folder
}

// Question asks for one entry of NewOptions. Set takes the answer under its Key.
type Question struct {
	Key     string
	Text    string
	Default string
	Unit    string // that a bare number is taken in; empty for text
}

// NewQuestions lists what to ask before New, in the order in which a person would tell it. An empty answer
// means the default.
func NewQuestions() []Question {
	return []Question{
		{"name", "What is the aircraft called?", "my foreplane aircraft", ""},
		{"length_ratio", "How long is the model, as a share of the full-size aircraft (a quarter is 0.25 or 1:4)?", "0.25", "share"},
		{"span", "Wing span at full size, tip to tip?", "8.6", "m"},
		{"root_chord", "Wing chord where the wing meets the strake (or, without strake, on the plane of symmetry)?", "1.5", "m"},
		{"tip_chord", "Wing chord at the tip?", "0.75", "m"},
		{"sweep", "Sweep of the wing's leading edge?", "24", "deg"},
		{"wing_x", "How far aft of the datum is the leading edge of the wing's root?", "4.2", "m"},
		{"strake_chord", "Chord of the strake on the plane of symmetry (none: no strake)?", "3", "m"},
		{"strake_span", "How wide are the strakes from side to side?", "2.6", "m"},
		{"foreplane_span", "Span of the foreplane, or each span that is discussed (3.5; 3.75)?", "3.5", "m"},
		{"foreplane_chord", "Mean chord of the foreplane?", "0.42", "m"},
		{"foreplane_x", "How far aft of the datum is the foreplane's leading edge?", "0.3", "m"},
		{"foreplane_z", "How far above the wing is the foreplane?", "0.25", "m"},
		{"winglet_height", "Height of the winglets, or each height that is discussed (0.9; 1.1; 1.35; none: no winglets)?", "0.9; 1.1; 1.35", "m"},
		{"mass", "Gross mass at full size?", "960", "kg"},
		{"empty_mass", "Empty mass at full size?", "590", "kg"},
		{"cruise_speed", "Cruising speed, true?", "120", "kt"},
		{"logs", "Logs to begin with, paths separated by ; (none is fine)?", "", ""},
	}
}

// Follows returns the question with the default that follows from the answers so far, in the question's own
// unit; ask is false when the answers leave nothing to ask.
func (o NewOptions) Follows(q Question) (asked Question, ask bool) {
	if q.Key == "strake_span" && o.StrakeChord < 0 {
		return q, false
	}
	full := o.filled()
	var values []float64
	switch q.Key {
	case "foreplane_span":
		values = full.ForeplaneSpans
	case "winglet_height":
		values = full.WingletHeights
	default:
		value := full.single(q.Key)
		if value == nil {
			return q, true
		}
		values = []float64{*value}
	}
	own, _ := unitNamed(q.Unit)
	var texts []string
	for _, v := range values {
		texts = append(texts, strconv.FormatFloat(own.From(v), 'g', 4, 64))
	}
	q.Default = strings.Join(texts, "; ")
	return q, true
}

// Set puts an answer into the options: a bare number in the unit of the question, or a number with its unit
// such as "28 ft". Lists are separated by ; and an empty answer changes nothing.
func (o *NewOptions) Set(key, answer string) error {
	answer = strings.TrimSpace(answer)
	if answer == "" {
		return nil
	}
	for _, q := range NewQuestions() {
		if q.Key == key {
			return o.set(q, answer)
		}
	}
	return fmt.Errorf("no question is called %s", quoted(key))
}

func (o *NewOptions) set(q Question, answer string) error {
	switch q.Key {
	case "name":
		o.Name = answer
		return nil
	case "logs":
		for _, path := range strings.Split(answer, ";") {
			if path = strings.TrimSpace(path); path != "" {
				o.Logs = append(o.Logs, path)
			}
		}
		return nil
	case "strake_chord":
		if folded(answer) == "none" {
			o.StrakeChord = -1
			return nil
		}
	case "winglet_height":
		if folded(answer) == "none" {
			o.WingletHeights = []float64{-1}
			return nil
		}
	}
	numbers, err := answerNumbers(q, answer)
	if err != nil {
		return err
	}
	switch q.Key {
	case "foreplane_span":
		o.ForeplaneSpans = numbers
	case "winglet_height":
		o.WingletHeights = numbers
	default:
		if len(numbers) != 1 {
			return fmt.Errorf("%s: %s holds %d numbers; give one", q.Key, quoted(answer), len(numbers))
		}
		*o.single(q.Key) = numbers[0]
	}
	return nil
}

func (o *NewOptions) single(key string) *float64 {
	return map[string]*float64{
		"length_ratio": &o.LengthRatio, "span": &o.Span, "root_chord": &o.RootChord, "tip_chord": &o.TipChord, "sweep": &o.Sweep,
		"wing_x": &o.WingX, "strake_chord": &o.StrakeChord, "strake_span": &o.StrakeSpan, "foreplane_chord": &o.ForeplaneChord,
		"foreplane_x": &o.ForeplaneX, "foreplane_z": &o.ForeplaneZ, "mass": &o.Mass, "empty_mass": &o.EmptyMass, "cruise_speed": &o.CruiseSpeed,
	}[key]
}

// answerNumbers reads "8.6", "8,6 m" or "0.9; 1.1 m" into SI, and a ratio such as "1:3.5" or "2/7".
func answerNumbers(q Question, answer string) ([]float64, error) {
	own, dimension := unitNamed(q.Unit)
	if ratio, ok := ratioOf(answer); ok && q.Key == "length_ratio" {
		return []float64{ratio}, nil
	}
	var out []float64
	for _, piece := range strings.Split(answer, ";") {
		piece = strings.TrimSpace(piece)
		if piece == "" {
			continue
		}
		end := strings.LastIndexAny(piece, "0123456789.,") + 1
		u := own
		if written := strings.TrimSpace(piece[end:]); written != "" {
			var ok bool
			if u, ok = unit.Lookup(written, dimension); !ok {
				return nil, fmt.Errorf("%s: %s is no unit of %s; write %s", q.Key, quoted(written), dimension, strings.Join(unit.Of(dimension), ", "))
			}
		}
		number, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(piece[:end]), ",", ".", 1), 64)
		if err != nil || !finite(number) {
			return nil, fmt.Errorf("%s: %s is not a number; write %s", q.Key, quoted(piece), q.example())
		}
		out = append(out, u.SI(number))
	}
	return out, nil
}

// example shows an answer.
func (q Question) example() string {
	switch q.Key {
	case "foreplane_span", "winglet_height":
		return "one such as 3.5, or several with semicolons between them, such as 3.5; 3.75"
	}
	return "one such as " + q.Default
}

// ratioOf reads a scale as it stands on a drawing: "1:3.5", "1/4" or "2 : 7".
func ratioOf(text string) (float64, bool) {
	over, under, ok := strings.Cut(strings.ReplaceAll(text, "/", ":"), ":")
	if !ok {
		return 0, false
	}
	number := func(s string) (float64, bool) {
		v, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(s), ",", ".", 1), 64)
		return v, err == nil && finite(v) && v > 0
	}
	a, okA := number(over)
	b, okB := number(under)
	if !okA || !okB {
		return 0, false
	}
	return a / b, true
}

func unitNamed(name string) (unit.Unit, unit.Dimension) {
	for _, d := range dimensions() {
		if u, ok := unit.Lookup(name, d); ok {
			return u, d
		}
	}
	return unit.Unit{Factor: 1}, unit.None
}

// filled returns the options with figures in the place of zeros: those of an invented two-seater of 8.6 m
// span, scaled to the span that is given.
func (o NewOptions) filled() NewOptions {
	or := func(value *float64, figure float64) {
		if *value == 0 {
			*value = figure
		}
	}
	or(&o.Span, 8.6)
	size := o.Span / 8.6
	cube := size * size * size
	or(&o.LengthRatio, 0.25)
	or(&o.RootChord, 1.5*size)
	or(&o.TipChord, 0.5*o.RootChord)
	or(&o.Sweep, 24*math.Pi/180)
	or(&o.WingX, 4.2*size)
	or(&o.StrakeChord, 2*o.RootChord)
	or(&o.StrakeSpan, 0.3*o.Span)
	or(&o.ForeplaneChord, 0.42*size)
	or(&o.ForeplaneX, 0.3*size)
	or(&o.ForeplaneZ, 0.25*size)
	or(&o.Mass, 960*cube)
	or(&o.EmptyMass, 0.615*o.Mass)
	or(&o.CruiseSpeed, 120*1852.0/3600)
	or(&o.CruiseAltitude, 1500)
	or(&o.LimitLoadFactor, 3.8)
	if o.Name == "" {
		o.Name = "my foreplane aircraft"
	}
	if len(o.ForeplaneSpans) == 0 {
		o.ForeplaneSpans = []float64{3.5 * size}
	}
	if len(o.WingletHeights) == 0 {
		o.WingletHeights = []float64{0.9 * size, 1.1 * size, 1.35 * size}
	}
	if o.StrakeChord < 0 {
		o.StrakeSpan = 0
	}
	return o
}

// noWinglets tells whether the aircraft was said to have none.
func (o NewOptions) noWinglets() bool { return len(o.WingletHeights) == 1 && o.WingletHeights[0] < 0 }
