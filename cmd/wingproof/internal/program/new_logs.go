package program

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"unicode/utf8"

	"wingproof/flightlog"
)

// draftLog is a log on its way into a new folder.
type draftLog struct {
	source string // path as given
	path   string // inside the folder
	logger string // name of its map; empty when none could be drafted
	draft  *draftMap
	why    string // why there is no map
}

// draftMap is a drafted logger map with what was guessed of each column. The first log of a kind holds it.
type draftMap struct {
	m       flightlog.Map
	guesses []flightlog.Guess
}

// draftLogs looks into every log and drafts a map for each set of heads.
func draftLogs(sources []string) ([]draftLog, error) {
	var out []draftLog
	taken := map[string]bool{}
	loggers := map[string]string{}
	for _, source := range sources {
		log := draftLog{source: source, path: freePath(source, taken)}
		f, err := os.Open(source)
		if err != nil {
			return nil, noLog(source, err)
		}
		sniffed, err := flightlog.Sniff(f, filepath.Base(source))
		_ = f.Close()
		if err != nil {
			log.why = strings.Join(strings.Fields(err.Error()), " ")
			out = append(out, log)
			continue
		}
		kind := strings.Join(sniffed.Heads, "\x00")
		if name, seen := loggers[kind]; seen {
			log.logger = name
			out = append(out, log)
			continue
		}
		m, guesses := flightlog.SuggestMap(sniffed)
		m.Name = fmt.Sprintf("logger-%d", len(loggers)+1)
		if m.Time.Column == "" {
			log.why = "no column of it looks like time"
			out = append(out, log)
			continue
		}
		loggers[kind] = m.Name
		log.logger, log.draft = m.Name, &draftMap{m, guesses}
		out = append(out, log)
	}
	return out, nil
}

// noLog says that a log cannot be opened, and which one of its folder was perhaps meant.
func noLog(source string, err error) error {
	if !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("read the log: %w", err)
	}
	entries, _ := os.ReadDir(filepath.Dir(source))
	for _, e := range entries {
		if strings.EqualFold(e.Name(), filepath.Base(source)) {
			return fmt.Errorf("there is no log %s; did you mean %s?", source, filepath.Join(filepath.Dir(source), e.Name()))
		}
	}
	return fmt.Errorf("there is no log %s; write the path of one from where you stand, several with semicolons between them", source)
}

// freePath finds a name below logs that is not taken.
func freePath(source string, taken map[string]bool) string {
	base := filepath.Base(filepath.ToSlash(source))
	extension := filepath.Ext(base)
	stem := strings.TrimSuffix(base, extension)
	path := "logs/" + base
	for n := 2; taken[strings.ToLower(path)]; n++ {
		path = fmt.Sprintf("logs/%s-%d%s", stem, n, extension)
	}
	taken[strings.ToLower(path)] = true
	return path
}

// draftWidth is the width of the comments in a draft, so that it fits a terminal.
const draftWidth = 98

// sensorHint shows, as a comment, how the places of the sensors are written.
const sensorHint = `# Where the sensors sit on the model, from its datum: x aft, y right, z up. Take the # off, correct the
# figures, add vanes = and antenna = where there are any, and leave out what the model does not have.
# sensors = { inertial = { x_mm = 900, y_mm = 0, z_mm = 40 }, tube = { x_mm = 60, y_mm = 400, z_mm = 0 } }
`

// delayHint shows, as a comment, how a late channel is written.
const delayHint = `  # A channel that comes late may say by how much: delay_s = 0.2 (satellite navigation: 0.1 to 0.3 s).
  # Servo pulses need the angles that the bench test gave, pulse and angle, and then unit = "deg":
  # calibration = [[1000, -20], [1500, 0], [2000, 20]]
`

// text writes the map as program.toml holds it: above each column how sure the guess is and what speaks for it.
func (d draftMap) text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "[logger.%s]\n%stime = { column = %s, unit = %s }\nchannels = [\n%s", d.m.Name, sensorHint, tomlText(d.m.Time.Column), tomlText(d.m.Time.Unit), delayHint)
	mapped := map[string]flightlog.Column{}
	for _, c := range d.m.Columns {
		mapped[c.Column] = c
	}
	for _, g := range d.guesses {
		if g.Column == "" {
			continue
		}
		comment := commented(g.Sure + ": " + g.Why)
		switch c, ok := mapped[g.Column]; {
		case g.Column == d.m.Time.Column:
			b.WriteString(commented(fmt.Sprintf("time from column %s, %s: %s", tomlText(g.Column), g.Sure, g.Why)))
		case ok && c.Is == g.Is:
			fmt.Fprintf(&b, "%s  %s\n", comment, channelText(c))
		default:
			fmt.Fprintf(&b, "%s  # %s\n", comment, templateText(g))
		}
	}
	b.WriteString("]\n")
	return b.String()
}

// commented breaks words into comment lines of a draft.
func commented(words string) string { return commentedBy("  #", words) }

// commentedBy breaks words into lines that begin with a mark.
func commentedBy(mark, words string) string {
	var b strings.Builder
	line := mark
	for word := range strings.FieldsSeq(words) {
		if utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > draftWidth && line != mark {
			b.WriteString(line + "\n")
			line = mark + "  "
		}
		line += " " + word
	}
	b.WriteString(line + "\n")
	return b.String()
}

// templateText is a line of the map that a person has to complete.
func templateText(g flightlog.Guess) string {
	text := fmt.Sprintf("{ column = %s, is = %s, unit = %s", strings.ReplaceAll(tomlText(g.Column), "\n", " "), tomlText(orDots(string(g.Is))), tomlText(orDots(g.Unit)))
	switch g.Is {
	case flightlog.Elevator, flightlog.Aileron, flightlog.RudderLeft, flightlog.RudderRight:
		text += ", calibration = [[1000, ...], [1500, ...], [2000, ...]]"
	}
	return text + " },"
}

// orDots stands three dots where a person has to write something.
func orDots(text string) string {
	if text == "" {
		return "..."
	}
	return text
}

func channelText(c flightlog.Column) string {
	text := fmt.Sprintf("{ column = %s, is = %s, unit = %s", tomlText(c.Column), tomlText(string(c.Is)), tomlText(c.Unit))
	if c.Sign < 0 {
		text += ", sign = -1"
	}
	if c.Scale != 1 && c.Scale != 0 {
		text += fmt.Sprintf(", scale = %g", c.Scale)
	}
	if c.Calibration != nil {
		var pairs []string
		for _, p := range c.Calibration {
			pairs = append(pairs, fmt.Sprintf("[%g, %g]", p[0], p[1]))
		}
		text += ", calibration = [" + strings.Join(pairs, ", ") + "]"
	}
	return text + " },"
}
