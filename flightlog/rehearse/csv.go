package rehearse

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"

	"wingproof/flightlog"
	"wingproof/flightlog/unit"
)

// Dialect is how a recorder writes its text file. The zero Dialect is comma, decimal point, degrees,
// seconds, control angles in degrees and empty blank cells.
type Dialect struct {
	Separator    rune   // ',', ';' or '\t'; 0 means ','
	DecimalComma bool   // needs another separator than ','
	Radians      bool   // angles and rates in rad and rad/s
	ServoPulse   bool   // elevator, aileron and rudders as servo pulses in µs, see PulseCentre
	Milliseconds bool   // time in ms
	Blank        string // text of a blank cell

	Heads map[flightlog.Quantity]string // replaces heads; a quantity without an entry keeps its own
	Time  string                        // replaces the head of time
}

// A servo pulse is PulseCentre + PulsePerDegree·angle, in µs and µs per degree of surface.
const (
	PulseCentre    = 1500.0
	PulsePerDegree = 12.0
)

// field is how one column of a file is written.
type field struct {
	head   string
	unit   unit.Unit
	digits int  // after the decimal point
	pulse  bool // written as a servo pulse, rounded to one µs
}

// digits after the decimal point by unit: a few times finer than cheap sensors scatter.
func digits(u string) int {
	switch u {
	case "rad", "rad_s":
		return 4
	case "m_s2":
		return 3
	case "deg", "deg_s", "m_s", "m":
		return 2
	}
	return 1
}

// unitOf is the suffix in which a dialect writes a quantity.
func (d Dialect) unitOf(q flightlog.Quantity) string {
	switch q.Dimension() {
	case unit.Angle:
		if d.Radians && !d.isPulse(q) {
			return "rad"
		}
		return "deg"
	case unit.AngularRate:
		if d.Radians {
			return "rad_s"
		}
		return "deg_s"
	case unit.Acceleration:
		return "m_s2"
	case unit.Speed:
		return "m_s"
	case unit.Pressure:
		return "pa"
	case unit.Temperature:
		return "c"
	case unit.Length:
		return "m"
	}
	return "percent"
}

func (d Dialect) isPulse(q flightlog.Quantity) bool {
	switch q {
	case flightlog.Elevator, flightlog.Aileron, flightlog.RudderLeft, flightlog.RudderRight:
		return d.ServoPulse
	}
	return false
}

func (d Dialect) separator() rune {
	if d.Separator == 0 {
		return ','
	}
	return d.Separator
}

func (d Dialect) timeHead() string {
	switch {
	case d.Time != "":
		return d.Time
	case d.Milliseconds:
		return "time_ms"
	}
	return "time_s"
}

// fields lists how columns after time are written.
func (d Dialect) fields(quantities []flightlog.Quantity) ([]field, error) {
	switch s := d.separator(); {
	case s != ',' && s != ';' && s != '\t':
		return nil, fmt.Errorf("rehearse: separator %q; use comma, semicolon or tab", s)
	case s == ',' && d.DecimalComma:
		return nil, errors.New("rehearse: a decimal comma needs a semicolon or tab between cells")
	}
	var fields []field
	for _, q := range quantities {
		suffix := d.unitOf(q)
		u, ok := unit.Lookup(suffix, q.Dimension())
		if !ok {
			return nil, fmt.Errorf("rehearse: %s has no unit %q", q, suffix)
		}
		f := field{head: string(q) + "_" + suffix, unit: u, digits: digits(suffix)}
		if d.isPulse(q) {
			f.head, f.pulse = string(q)+"_pulse_us", true
		}
		if own := d.Heads[q]; own != "" {
			f.head = own
		}
		fields = append(fields, f)
	}
	return fields, nil
}

// Map is the logger map with which a reader understands the dialect. See Log.Map for a log with vanes.
func (d Dialect) Map(name string) (flightlog.Map, error) { return d.mapOf(name, Quantities()) }

// Map is the logger map with which a reader understands this log in a dialect: every column that it has, and where the
// sensors sat.
func (l Log) Map(d Dialect, name string) (flightlog.Map, error) {
	m, err := d.mapOf(name, l.Quantities())
	m.Sensors = l.Sensors
	return m, err
}

func (d Dialect) mapOf(name string, quantities []flightlog.Quantity) (flightlog.Map, error) {
	fields, err := d.fields(quantities)
	if err != nil {
		return flightlog.Map{}, err
	}
	m := flightlog.Map{Name: name, Time: flightlog.TimeColumn{Column: d.timeHead(), Unit: "s"}}
	if d.Milliseconds {
		m.Time.Unit = "ms"
	}
	for i, q := range quantities {
		c := flightlog.Column{Column: fields[i].head, Is: q, Unit: fields[i].unit.Name, Sign: 1, Scale: 1}
		if fields[i].pulse {
			const end = 45 // degrees, past any travel
			c.Calibration = [][2]float64{{PulseCentre - end*PulsePerDegree, -end}, {PulseCentre, 0}, {PulseCentre + end*PulsePerDegree, end}}
		}
		m.Columns = append(m.Columns, c)
	}
	return m, nil
}

// WriteCSV writes the log as a recorder with this dialect would: one head line, one line a row.
func (l Log) WriteCSV(w io.Writer, d Dialect) error {
	fields, err := d.fields(l.Quantities())
	if err != nil {
		return err
	}
	if len(l.Columns) != len(fields) {
		return fmt.Errorf("rehearse: the log holds %d columns, not %d", len(l.Columns), len(fields))
	}
	separator := byte(d.separator())
	out := bufio.NewWriterSize(w, 1<<16)
	line := append([]byte(nil), d.timeHead()...)
	for _, f := range fields {
		line = append(append(line, separator), f.head...)
	}
	out.Write(append(line, '\n')) // bufio keeps the first error for Flush
	for row, time := range l.Time {
		if d.Milliseconds {
			line = strconv.AppendFloat(line[:0], time*1000, 'f', 0, 64)
		} else {
			line = d.number(line[:0], time, 3)
		}
		for i, f := range fields {
			line = d.cell(append(line, separator), f, l.Columns[i][row])
		}
		out.Write(append(line, '\n'))
	}
	if err := out.Flush(); err != nil {
		return fmt.Errorf("rehearse: write the log: %w", err)
	}
	return nil
}

func (d Dialect) cell(line []byte, f field, si float64) []byte {
	switch {
	case math.IsNaN(si):
		return append(line, d.Blank...)
	case f.pulse:
		return strconv.AppendFloat(line, PulseCentre+PulsePerDegree*f.unit.From(si), 'f', 0, 64)
	}
	return d.number(line, f.unit.From(si), f.digits)
}

// number appends a number with a fixed count of digits, and its decimal comma if so written.
func (d Dialect) number(line []byte, x float64, digits int) []byte {
	start := len(line)
	line = strconv.AppendFloat(line, x, 'f', digits, 64)
	if d.DecimalComma {
		for i := start; i < len(line); i++ {
			if line[i] == '.' {
				line[i] = ','
			}
		}
	}
	return line
}
