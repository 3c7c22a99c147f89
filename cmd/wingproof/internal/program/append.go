package program

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/gofrs/flock"
	"github.com/natefinch/atomic"
)

// lockPatience is how long a row waits for another wingproof that writes to the same folder.
const lockPatience = 10 * time.Second

// ledger is a table that only ever grows: rows are added behind the others and never changed.
type ledger struct {
	file  string
	heads []string // in the order in which a new table has them
	read  func(*loader, *table)
}

// add puts one row behind what the table holds. cells gets the folder as read, with the rows of the table, under the lock that
// every wingproof takes which writes to the folder; before the table is replaced, ready may write what the row refers to.
//
// The rows that are there keep every byte, and the new one follows in the dialect of the table. The file is created when it is
// absent, replaced atomically otherwise.
func (g ledger) add(dir string, cells func(*loader) (map[string]string, error), ready func() error) error {
	return g.addRows(dir, func(l *loader) ([]map[string]string, error) {
		row, err := cells(l)
		return []map[string]string{row}, err
	}, ready)
}

// addRows is add for several rows, all of them or none; without any the table stays as it is, or absent.
func (g ledger) addRows(dir string, rows func(*loader) ([]map[string]string, error), ready func() error) error {
	unlock, err := lockFolder(dir, g.file)
	if err != nil {
		return err
	}
	defer unlock()
	file := filepath.Join(dir, g.file)
	if real, err := filepath.EvalSymlinks(file); err == nil {
		file = real
	}
	if err := notOpenElsewhere(file, g.file); err != nil {
		return err
	}
	before, err := os.ReadFile(file)
	fresh := errors.Is(err, fs.ErrNotExist)
	if err != nil && !fresh {
		return fmt.Errorf("read %s: %w", g.file, err)
	}
	after, err := g.appended(dir, before, rows)
	if err != nil || after == nil {
		return err
	}
	if err := ready(); err != nil {
		return err
	}
	return replace(file, g.file, before, after, fresh)
}

// appended is the table with the new rows; nil without any. Mistakes elsewhere in the folder do not keep a row out: a void row may be what mends them.
func (g ledger) appended(dir string, before []byte, rows func(*loader) ([]map[string]string, error)) ([]byte, error) {
	l, err := read(os.DirFS(dir), dir)
	if err != nil {
		return nil, err
	}
	l.mistakes = nil
	style := dialect{separator: ','}
	order := g.heads
	text := []byte(style.line(order))
	if len(bytes.TrimSpace(before)) > 0 {
		t := l.readTable(g.file, before)
		if t != nil {
			g.read(l, t)
			style, order = t.dialect, t.order()
		}
		if len(l.mistakes) > 0 {
			return nil, l.mistakes.sorted()
		}
		text = style.withoutEmptyRows(before)
	}
	added, err := rows(l)
	if err != nil || len(added) == 0 {
		return nil, err
	}
	lines := ""
	for _, row := range added {
		line := make([]string, len(order))
		for i, head := range order {
			line[i] = row[head]
		}
		lines += style.line(line)
	}
	written, err := style.encoding.encode(lines)
	if err != nil {
		return nil, fmt.Errorf("write %s: %w", g.file, err)
	}
	return append(text, written...), nil
}

// lockFolder takes the lock that every wingproof takes which writes to the folder.
func lockFolder(dir, table string) (unlock func(), err error) {
	folder := filepath.Join(dir, cacheFolder)
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return nil, fmt.Errorf("make %s: %w", cacheFolder, err)
	}
	lock := flock.New(filepath.Join(folder, "lock"))
	ctx, cancel := context.WithTimeout(context.Background(), lockPatience)
	defer cancel()
	held, err := lock.TryLockContext(ctx, 20*time.Millisecond)
	if errors.Is(err, context.DeadlineExceeded) || err == nil && !held {
		return nil, &InUse{table, "is being written by another wingproof"}
	}
	if err != nil {
		return nil, fmt.Errorf("lock the folder: %w", err)
	}
	return func() { _ = lock.Close() }, nil
}

// notOpenElsewhere looks for the marks that spreadsheets leave beside an open table, and tries whether the
// system lets the table be written.
func notOpenElsewhere(file, table string) error {
	dir, base := filepath.Split(file)
	for _, mark := range []string{".~lock." + base + "#", "~$" + base} {
		if _, err := os.Lstat(filepath.Join(dir, mark)); err == nil {
			return &InUse{table, "is open in a spreadsheet (" + mark + " stands beside it)"}
		}
	}
	f, err := os.OpenFile(file, os.O_RDWR, 0)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return &InUse{table, "cannot be written: " + err.Error()}
	}
	return f.Close()
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
func replace(file, table string, before, after []byte, fresh bool) error {
	now, err := os.ReadFile(file)
	absent := errors.Is(err, fs.ErrNotExist)
	if absent != fresh || !absent && (err != nil || !bytes.Equal(now, before)) {
		return &InUse{table, "was changed by somebody else meanwhile"}
	}
	if err := atomic.WriteFile(file, bytes.NewReader(after)); err != nil {
		return &InUse{table, "cannot be replaced: " + err.Error()}
	}
	if fresh {
		if err := os.Chmod(file, 0o644); err != nil {
			return fmt.Errorf("let everybody read %s: %w", table, err)
		}
	}
	return nil
}
