package demo

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"

	"wingproof/flightlog/estimate"
)

// row is one number of one programme beside its truth. What a result does not state is not a number.
type row struct {
	Arm                                         string
	Stream, Program                             int
	Configuration, Quantity, Power, State       string
	Value, Truth, Low, High, SD, SDOwn, Degrees float64
	Common                                      string // what each shared source does, name=effect with semicolons between
}

// complete is the quantity of the last row of a programme: without it the programme was not finished and is flown again.
const complete = "complete"

func rowHeads() []string {
	return []string{"arm", "stream", "program", "configuration", "quantity", "power", "state", "value", "truth", "low", "high", "sd", "sd_own", "degrees", "common"}
}

// rowOf sets a result beside the truth of the quantity, under a name that tells the road.
func rowOf(configuration, name string, r estimate.Result, truth float64) row {
	number := func(p *float64) float64 {
		if p == nil {
			return math.NaN()
		}
		return *p
	}
	var common []string
	for _, source := range slices.Sorted(maps.Keys(r.Common)) {
		common = append(common, fmt.Sprintf("%s=%.4g", source, r.Common[source]))
	}
	return row{Configuration: configuration, Quantity: name, Power: r.Power, State: r.State, Value: number(r.Value), Truth: truth,
		Low: number(r.Low), High: number(r.High), SD: number(r.SD), SDOwn: number(r.SDOwn), Degrees: r.Degrees, Common: strings.Join(common, ";")}
}

func (r row) cells() []string {
	out := []string{r.Arm, strconv.Itoa(r.Stream), strconv.Itoa(r.Program), r.Configuration, r.Quantity, r.Power, r.State}
	for _, x := range [...]float64{r.Value, r.Truth, r.Low, r.High, r.SD, r.SDOwn, r.Degrees} {
		text := ""
		if !math.IsNaN(x) {
			text = strconv.FormatFloat(x, 'g', -1, 64)
		}
		out = append(out, text)
	}
	return append(out, r.Common)
}

func rowFrom(cells []string) (r row, err error) {
	r = row{Arm: cells[0], Configuration: cells[3], Quantity: cells[4], Power: cells[5], State: cells[6], Common: cells[14]}
	if r.Stream, err = strconv.Atoi(cells[1]); err != nil {
		return r, err
	}
	if r.Program, err = strconv.Atoi(cells[2]); err != nil {
		return r, err
	}
	for i, to := range []*float64{&r.Value, &r.Truth, &r.Low, &r.High, &r.SD, &r.SDOwn, &r.Degrees} {
		*to = math.NaN()
		if text := cells[7+i]; text != "" {
			if *to, err = strconv.ParseFloat(text, 64); err != nil {
				return r, err
			}
		}
	}
	return r, nil
}

// ledger holds the rows of finished programmes, in a file when it has a name: a study that was stopped goes on where it was.
type ledger struct {
	path string
	rows map[sample][]row
}

// sample names one programme of an arm.
type sample struct {
	arm             string
	stream, program int
}

func openLedger(path string) (*ledger, error) {
	l := &ledger{path: path, rows: map[sample][]row{}}
	if path == "" {
		return l, nil
	}
	f, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return l, nil
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	reader := csv.NewReader(f)
	reader.FieldsPerRecord = len(rowHeads())
	var block []row
	for line := 0; ; line++ {
		cells, err := reader.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			return l, l.rewrite() // the last line was cut short
		}
		if line == 0 {
			continue
		}
		r, err := rowFrom(cells)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", path, err)
		}
		if r.Quantity == complete {
			l.rows[sample{r.Arm, r.Stream, r.Program}], block = block, nil
			continue
		}
		block = append(block, r)
	}
	if len(block) > 0 {
		return l, l.rewrite()
	}
	return l, nil
}

// samples lists the finished programmes of an arm.
func (l *ledger) samples(arm string) []sample {
	var out []sample
	for s := range l.rows {
		if s.arm == arm {
			out = append(out, s)
		}
	}
	slices.SortFunc(out, func(a, b sample) int {
		if a.stream != b.stream {
			return a.stream - b.stream
		}
		return a.program - b.program
	})
	return out
}

// rewrite writes finished programmes only.
func (l *ledger) rewrite() error {
	if err := os.Remove(l.path); err != nil {
		return err
	}
	kept := l.rows
	l.rows = map[sample][]row{}
	for _, s := range slices.SortedFunc(maps.Keys(kept), func(a, b sample) int {
		return strings.Compare(fmt.Sprintf("%s %4d %6d", a.arm, a.stream, a.program), fmt.Sprintf("%s %4d %6d", b.arm, b.stream, b.program))
	}) {
		if err := l.add(s, kept[s]); err != nil {
			return err
		}
	}
	return nil
}

// add keeps the rows of a programme.
func (l *ledger) add(s sample, rows []row) error {
	for i := range rows {
		rows[i].Arm, rows[i].Stream, rows[i].Program = s.arm, s.stream, s.program
	}
	l.rows[s] = rows
	if l.path == "" {
		return nil
	}
	f, err := os.OpenFile(l.path, os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o644)
	if err != nil {
		return err
	}
	defer f.Close()
	w := csv.NewWriter(f)
	if at, err := f.Seek(0, io.SeekEnd); err == nil && at == 0 {
		_ = w.Write(rowHeads()) // the writer keeps its first error
	}
	for _, r := range rows {
		_ = w.Write(r.cells())
	}
	end := row{Arm: s.arm, Stream: s.stream, Program: s.program, Quantity: complete,
		Value: math.NaN(), Truth: math.NaN(), Low: math.NaN(), High: math.NaN(), SD: math.NaN(), SDOwn: math.NaN(), Degrees: math.NaN()}
	_ = w.Write(end.cells())
	w.Flush()
	return w.Error()
}
