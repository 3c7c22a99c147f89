package rehearse

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
)

// Faults that only a file can have, for SpoilFile.
const (
	DuplicatedRows FaultKind = "duplicated rows" // a block of 1 to 20 lines stands twice
	TornRows       FaultKind = "torn rows"       // 1 to 5 lines lost their end, line break included, as when a write was dropped
	NotNumbers     FaultKind = "not numbers"     // 1 to 10 cells of one column hold text
	TruncatedFile  FaultKind = "truncated file"  // the file ends in the middle of a line, after 20 to 90 % of it
	ZeroedTail     FaultKind = "zeroed tail"     // 1 to 64 KB of zero bytes after 50 to 95 % of it, as after a flat battery
)

// FileFaultKinds lists what SpoilFile does, in the order of the constants.
func FileFaultKinds() []FaultKind {
	return []FaultKind{DuplicatedRows, TornRows, NotNumbers, TruncatedFile, ZeroedTail}
}

// SpoilFile gives a file with one fault of a kind. The file is one that WriteCSV wrote in the dialect; it stays as it is, and
// so does every byte of the new one that the fault does not touch. Times of the fault are those of the file.
func SpoilFile(file []byte, d Dialect, kind FaultKind, rng *rand.Rand) ([]byte, Fault, error) {
	lines := bytes.SplitAfter(file, []byte("\n"))
	if n := len(lines); n > 0 && len(lines[n-1]) == 0 {
		lines = lines[:n-1]
	}
	const fewest = 100
	if len(lines) < fewest {
		return nil, Fault{}, fmt.Errorf("rehearse: a file of %d lines is too short to spoil; write %d", len(lines), fewest)
	}
	s := &fileSpoiler{lines: lines, dialect: d, rng: rng, fault: Fault{Kind: kind}}
	switch kind {
	case DuplicatedRows:
		s.duplicate()
	case TornRows:
		s.tear()
	case NotNumbers:
		s.writeText()
	case TruncatedFile:
		s.cut(0.2, 0.9)
	case ZeroedTail:
		s.cut(0.5, 0.95)
		s.lines = append(s.lines, make([]byte, 1024+rng.IntN(63*1024)))
		s.fault.Text += fmt.Sprintf(" and %d zero bytes follow", len(s.lines[len(s.lines)-1]))
	default:
		return nil, Fault{}, fmt.Errorf("rehearse: no fault %q that a file can have; see FileFaultKinds", kind)
	}
	slices.Sort(s.fault.Times)
	return bytes.Join(s.lines, nil), s.fault, s.err
}

// fileSpoiler works on the lines of a file, the head line first.
type fileSpoiler struct {
	lines   [][]byte
	dialect Dialect
	rng     *rand.Rand
	fault   Fault
	err     error
}

// line draws a line of numbers, a tenth of the file clear of both ends.
func (s *fileSpoiler) line() int {
	clear := len(s.lines) / 10
	return clear + s.rng.IntN(len(s.lines)-2*clear)
}

// time reads the first cell of a line, in s.
func (s *fileSpoiler) time(line int) float64 {
	cell, _, _ := bytes.Cut(s.lines[line], []byte(string(s.dialect.separator())))
	t, err := strconv.ParseFloat(strings.Replace(string(cell), ",", ".", 1), 64)
	if err != nil && s.err == nil {
		s.err = fmt.Errorf("rehearse: line %d of the file to spoil: time %q is not a number of this dialect", line+1, cell)
	}
	if s.dialect.Milliseconds {
		t /= 1000
	}
	return t
}

func (s *fileSpoiler) duplicate() {
	first := s.line()
	after := min(len(s.lines), first+1+s.rng.IntN(20))
	s.fault.Start, s.fault.End = s.time(first), s.time(after-1)
	s.fault.Text = fmt.Sprintf("%d lines from line %d on stand twice", after-first, first+1)
	block := s.lines[first:after]
	s.lines = append(append(append([][]byte{}, s.lines[:after]...), block...), s.lines[after:]...)
}

func (s *fileSpoiler) tear() {
	n := 1 + s.rng.IntN(5)
	torn := map[int]bool{}
	for len(torn) < n {
		i := s.line()
		if torn[i-1] || torn[i] || torn[i+1] {
			continue
		}
		torn[i] = true
		s.spoiled(i)
		// after the time at the earliest, before the line break at the latest
		start := bytes.IndexRune(s.lines[i], s.dialect.separator()) + 1
		s.lines[i] = s.lines[i][:start+s.rng.IntN(len(s.lines[i])-start)]
	}
	s.fault.Text = fmt.Sprintf("%d lines have no end and run into the next", n)
}

// texts that recorders and spreadsheets write for a number that they do not have.
func texts() []string { return []string{"err", "---", "#N/A", "n.a.", "1.2.3", "0x1F", "*"} }

func (s *fileSpoiler) writeText() {
	separator := []byte(string(s.dialect.separator()))
	names := Quantities()
	at := s.rng.IntN(len(names))
	s.fault.Channel, s.fault.Channels = names[at], names[at:at+1]
	n := 1 + s.rng.IntN(10)
	all, done := texts(), map[int]bool{}
	for len(done) < n {
		i := s.line()
		if done[i] {
			continue
		}
		done[i] = true
		s.spoiled(i)
		cells := bytes.Split(bytes.TrimSuffix(s.lines[i], []byte("\n")), separator)
		cells[at+1] = []byte(all[s.rng.IntN(len(all))])
		s.lines[i] = append(bytes.Join(cells, separator), '\n')
	}
	s.fault.Text = fmt.Sprintf("%d cells of %s hold text", n, names[at])
}

// spoiled widens the fault to a line.
func (s *fileSpoiler) spoiled(line int) {
	t := s.time(line)
	if len(s.fault.Times) == 0 || t < s.fault.Start {
		s.fault.Start = t
	}
	s.fault.End = max(s.fault.End, t)
	s.fault.Times = append(s.fault.Times, t)
}

// cut ends the file within a line, after a share of its lines drawn from a range.
func (s *fileSpoiler) cut(least, most float64) {
	i := int(float64(len(s.lines)) * (least + (most-least)*s.rng.Float64()))
	s.fault.Start, s.fault.End = s.time(i), s.time(len(s.lines)-1)
	s.lines = append([][]byte{}, s.lines[:i+1]...)
	s.lines[i] = s.lines[i][:1+s.rng.IntN(len(s.lines[i])-1)]
	s.fault.Text = fmt.Sprintf("the file ends within line %d", i+1)
}
