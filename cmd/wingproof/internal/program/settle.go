package program

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"github.com/gofrs/flock"
	"github.com/natefinch/atomic"
)

// lockPatience is how long Settle waits for another wingproof that writes to the same folder.
const lockPatience = 10 * time.Second

// Settle appends one row to decisions.csv and returns it as written. Number and PreviousSHA256 are set
// from the table, InputsSHA256 from Fingerprint where it is empty; Event, Date (ISO), Who and what the
// event names must be stated.
//
// The rows that are there keep every byte, and the new one follows in the dialect of the table. The file is
// created when it is absent, replaced atomically otherwise. Settle refuses, with *InUse, when another wingproof
// holds the folder, when a spreadsheet has the table open, or when the table changed meanwhile; with
// Mistakes when the table cannot be read; and when the folder does not know the choice or the level.
func Settle(dir string, d Decision) (Decision, error) {
	if err := d.check(); err != nil {
		return Decision{}, err
	}
	unlock, err := lockFolder(dir)
	if err != nil {
		return Decision{}, err
	}
	defer unlock()
	file := filepath.Join(dir, DecisionsFile)
	if real, err := filepath.EvalSymlinks(file); err == nil {
		file = real
	}
	if err := notOpenElsewhere(file); err != nil {
		return Decision{}, err
	}
	before, err := os.ReadFile(file)
	fresh := errors.Is(err, fs.ErrNotExist)
	if err != nil && !fresh {
		return Decision{}, fmt.Errorf("read %s: %w", DecisionsFile, err)
	}
	if d.InputsSHA256 == "" {
		if d.InputsSHA256, err = Fingerprint(dir); err != nil {
			return Decision{}, err
		}
	}
	after, d, err := appendDecision(dir, before, d)
	if err != nil {
		return Decision{}, err
	}
	return d, replace(file, before, after, fresh)
}

// check reports a row that says too little.
func (d Decision) check() error {
	if _, ok := known(d.Event, decisionEvents()); !ok {
		return fmt.Errorf("the event %s is not known; write %s", quoted(d.Event), oneOf(decisionEvents()))
	}
	if _, err := time.Parse(time.DateOnly, d.Date); err != nil {
		return fmt.Errorf("the date %s of the decision is not one; write it as 2026-03-14", quoted(d.Date))
	}
	for _, part := range []struct{ name, text string }{{"who decided", d.Who}, {"why", d.Why}, {"what is decided", d.Choice}} {
		if strings.TrimSpace(part.text) == "" {
			return fmt.Errorf("a decision needs to say %s", part.name)
		}
	}
	return nil
}

// lockFolder takes the lock that every wingproof takes which writes to the folder.
func lockFolder(dir string) (unlock func(), err error) {
	folder := filepath.Join(dir, cacheFolder)
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return nil, fmt.Errorf("make %s: %w", cacheFolder, err)
	}
	lock := flock.New(filepath.Join(folder, "lock"))
	ctx, cancel := context.WithTimeout(context.Background(), lockPatience)
	defer cancel()
	held, err := lock.TryLockContext(ctx, 20*time.Millisecond)
	if errors.Is(err, context.DeadlineExceeded) || err == nil && !held {
		return nil, &InUse{DecisionsFile, "is being written by another wingproof"}
	}
	if err != nil {
		return nil, fmt.Errorf("lock the folder: %w", err)
	}
	return func() { _ = lock.Close() }, nil
}

// notOpenElsewhere looks for the marks that spreadsheets leave beside an open table, and tries whether the
// system lets the table be written.
func notOpenElsewhere(file string) error {
	dir, base := filepath.Split(file)
	for _, mark := range []string{".~lock." + base + "#", "~$" + base} {
		if _, err := os.Lstat(filepath.Join(dir, mark)); err == nil {
			return &InUse{DecisionsFile, "is open in a spreadsheet (" + mark + " stands beside it)"}
		}
	}
	f, err := os.OpenFile(file, os.O_RDWR, 0)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return &InUse{DecisionsFile, "cannot be written: " + err.Error()}
	}
	return f.Close()
}

// appendDecision puts the row behind what the table holds.
func appendDecision(dir string, before []byte, d Decision) (after []byte, done Decision, err error) {
	l, err := read(os.DirFS(dir), dir)
	if err != nil {
		return nil, d, err
	}
	l.mistakes, l.p.Decisions, l.p.Alarms = nil, nil, nil
	style := dialect{separator: ','}
	order := decisionHeads()
	text := []byte(style.line(order))
	if len(bytes.TrimSpace(before)) > 0 {
		t := l.readTable(DecisionsFile, before)
		if t != nil {
			l.decisionRows(t)
			style, order = t.dialect, t.order()
		}
		if len(l.mistakes) > 0 {
			return nil, d, l.mistakes.sorted()
		}
		text = style.withoutEmptyRows(before)
	}
	if d, err = l.chained(d); err != nil {
		return nil, d, err
	}
	cells := map[string]string{"number": strconv.Itoa(d.Number), "event": d.Event, "date": d.Date, "choice": d.Choice, "level": d.Level,
		"who": d.Who, "why": d.Why, "inputs_sha256": d.InputsSHA256, "previous_sha256": d.PreviousSHA256}
	line := make([]string, len(order))
	for i, head := range order {
		line[i] = cells[head]
	}
	row, err := style.encoding.encode(style.line(line))
	if err != nil {
		return nil, d, fmt.Errorf("write %s: %w", DecisionsFile, err)
	}
	return append(text, row...), d, nil
}

// chained gives the row its number and the digest of the row before it, and checks what it names.
func (l *loader) chained(d Decision) (Decision, error) {
	line := func(text string) string { return strings.Join(strings.Fields(text), " ") }
	d.Event, _ = known(d.Event, decisionEvents())
	d.Choice, d.Level, d.Who, d.Why = line(d.Choice), line(d.Level), line(d.Who), line(d.Why)
	d.Number, d.PreviousSHA256 = 1, ""
	if n := len(l.p.Decisions); n > 0 {
		d.Number, d.PreviousSHA256 = l.p.Decisions[n-1].Number+1, l.p.Decisions[n-1].SHA256()
	}
	switch d.Event {
	case "signoff":
		return d, nil
	case "void":
		if n, err := strconv.Atoi(d.Choice); err != nil || n < 1 || n >= d.Number {
			return d, fmt.Errorf("there is no row number %s to void; write the number of a row of %s", quoted(d.Choice), DecisionsFile)
		}
		return d, nil
	}
	name, ok := known(d.Choice, l.choiceNames())
	if !ok {
		return d, fmt.Errorf("there is no choice %s; %s", quoted(d.Choice), suggest(d.Choice, l.choiceNames(), "choice"))
	}
	level, ok := known(d.Level, l.choice(name).levelNames())
	if !ok && (d.Event == "settle" || d.Level != "") {
		return d, fmt.Errorf("choice %s has no level %s; %s", name, quoted(d.Level), suggest(d.Level, l.choice(name).levelNames(), "level"))
	}
	d.Choice, d.Level = name, level
	return d, nil
}

// order lists the heads of the table, folded, as they stand.
func (t *table) order() []string {
	var out []string
	for _, h := range t.heads {
		out = append(out, h.name)
	}
	return out
}

// withoutEmptyRows cuts empty rows off the end of a table and ends its last line. Every byte before that
// stays; where that cannot be had, nothing is cut.
func (d dialect) withoutEmptyRows(raw []byte) []byte {
	text, _ := decode(raw)
	kept := strings.TrimRight(string(text), "\r\n")
	for {
		cut := strings.LastIndexAny(kept, "\r\n")
		if cut < 0 || strings.Trim(kept[cut+1:], " \t"+string(d.separator)) != "" {
			break
		}
		kept = strings.TrimRight(kept[:cut], "\r\n")
	}
	mark := d.encoding.mark()
	body, err := d.encoding.encode(kept)
	whole := append(mark[:len(mark):len(mark)], body...)
	if err != nil || !bytes.HasPrefix(raw, whole) {
		whole = append([]byte(nil), raw...)
	}
	end, err := d.encoding.encode(d.newline())
	if err != nil || bytes.HasSuffix(whole, end) {
		return whole
	}
	return append(whole, end...)
}

// replace puts the new table in the place of the old one, unless the old one changed meanwhile.
func replace(file string, before, after []byte, fresh bool) error {
	now, err := os.ReadFile(file)
	absent := errors.Is(err, fs.ErrNotExist)
	if absent != fresh || !absent && (err != nil || !bytes.Equal(now, before)) {
		return &InUse{DecisionsFile, "was changed by somebody else meanwhile"}
	}
	if err := atomic.WriteFile(file, bytes.NewReader(after)); err != nil {
		return &InUse{DecisionsFile, "cannot be replaced: " + err.Error()}
	}
	if fresh {
		if err := os.Chmod(file, 0o644); err != nil {
			return fmt.Errorf("let everybody read %s: %w", DecisionsFile, err)
		}
	}
	return nil
}
