package flightlog

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"runtime/metrics"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog/unit"
)

// siUnit is a unit of the quantity that needs no conversion.
func siUnit(q Quantity) string {
	for _, name := range unit.Of(q.Dimension()) {
		if u, _ := unit.Lookup(name, q.Dimension()); u.Factor == 1 && u.Offset == 0 {
			return name
		}
	}
	return ""
}

// bigLog is an invented log of a time column and 39 others at 100 Hz, of which 23 are mapped and stand among the others.
// Two cells in five are blank, by a rule that looks random, and numbers are 3 to 9 bytes long.
type bigLog struct{ quoted bool } // one cell a row

func (bigLog) columns() (heads []string, m Map) {
	heads, m.Time = []string{"time"}, TimeColumn{"time", "s"}
	for i := range 39 {
		q := len(m.Columns)
		if i*23/39 >= q && q < 23 {
			is := Quantities()[q]
			m.Columns = append(m.Columns, Column{Column: string(is), Is: is, Unit: siUnit(is)})
			heads = append(heads, string(is))
			continue
		}
		heads = append(heads, fmt.Sprintf("other %d", i))
	}
	return heads, m
}

// write writes rows until there are about size bytes.
func (l bigLog) write(w io.Writer, size int) error {
	heads, _ := l.columns()
	line := append([]byte(strings.Join(heads, ",")), '\n')
	for row, written := 0, 0; written < size; row++ {
		if _, err := w.Write(line); err != nil {
			return err
		}
		written += len(line)
		line = strconv.AppendFloat(line[:0], float64(row)/100, 'f', 2, 64)
		for i := range 39 {
			line = append(line, ',')
			if h := uint64(row*39+i) * 0x9e3779b97f4a7c15 >> 32; l.quoted && i == 0 {
				line = append(line, `"1.5"`...)
			} else if h%5 >= 2 {
				line = strconv.AppendFloat(line, float64(int(h>>8%20000)-10000)/1000*float64(1+i%3*20), 'f', 1+i%4, 64)
			}
		}
		line = append(line, '\n')
	}
	return nil
}

func (l bigLog) text(b *testing.B, size int) []byte {
	var text bytes.Buffer
	text.Grow(size + 1000)
	require.NoError(b, l.write(&text, size))
	return text.Bytes()
}

// BenchmarkRead compares the roads through a log of 64 MB with encoding/csv and strconv doing the same job. The figure "ratio"
// is how many times as fast as those it is, measured in the same run. One worker has one processor.
func BenchmarkRead(b *testing.B) {
	_, m := bigLog{}.columns()
	plain, quoted := bigLog{}.text(b, 64<<20), bigLog{quoted: true}.text(b, 64<<20)
	var base float64 // bytes a second
	b.Run("road=csv", func(b *testing.B) {
		base = perSecond(b, len(plain), 1, func() error { return readCSV(bytes.NewReader(plain), m) })
	})
	for _, c := range []struct {
		road    string
		workers int
		text    []byte
	}{{"fast", 1, plain}, {"fast", 2, plain}, {"slow", 1, quoted}, {"slow", 2, quoted}} {
		b.Run(fmt.Sprintf("road=%s/workers=%d", c.road, c.workers), func(b *testing.B) {
			rate := perSecond(b, len(c.text), c.workers, func() error {
				_, err := readWith(bytes.NewReader(c.text), "a.csv", m, c.workers, chunkSize)
				return err
			})
			if base > 0 {
				b.ReportMetric(rate/base, "ratio")
			}
		})
	}
}

func perSecond(b *testing.B, size, processors int, job func() error) float64 {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(min(processors, runtime.NumCPU())))
	runtime.GC()
	b.SetBytes(int64(size))
	for b.Loop() {
		require.NoError(b, job())
	}
	return float64(size) * float64(b.N) / b.Elapsed().Seconds()
}

// readCSV reads the mapped columns with the standard library alone.
func readCSV(r io.Reader, m Map) error {
	reader := csv.NewReader(r)
	reader.ReuseRecord = true
	heads, err := reader.Read()
	if err != nil {
		return err
	}
	var index []int
	for _, c := range m.Columns {
		i, _ := findHead(heads, c.Column)
		index = append(index, i)
	}
	channels := make([]Channel, len(index))
	for {
		record, err := reader.Read()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		t, err := strconv.ParseFloat(record[0], 64)
		if err != nil {
			return err
		}
		for i, k := range index {
			if record[k] == "" {
				continue
			}
			v, err := strconv.ParseFloat(record[k], 64)
			if err != nil {
				return err
			}
			channels[i].Time, channels[i].Value = append(channels[i].Time, t), append(channels[i].Value, v)
		}
	}
}

// BenchmarkReadMemory reports the peak of the heap, in sizes of the channels that come out. The log is read from a file,
// so that its text is not part of the heap; WINGPROOF_BENCH_MB sets its size.
func BenchmarkReadMemory(b *testing.B) {
	size := 64
	if text := os.Getenv("WINGPROOF_BENCH_MB"); text != "" {
		var err error
		size, err = strconv.Atoi(text)
		require.NoError(b, err)
	}
	path := filepath.Join(b.TempDir(), "big.csv")
	f, err := os.Create(path)
	require.NoError(b, err)
	w := bufio.NewWriterSize(f, 1<<20)
	require.NoError(b, bigLog{}.write(w, size<<20))
	require.NoError(b, w.Flush())
	require.NoError(b, f.Close())
	_, m := bigLog{}.columns()
	b.Run(fmt.Sprintf("megabytes=%d", size), func(b *testing.B) {
		b.SetBytes(int64(size) << 20)
		for b.Loop() {
			runtime.GC()
			before := heap()
			peak, stop := watchHeap()
			rec, err := ReadFile(path, m)
			stop()
			require.NoError(b, err)
			b.ReportMetric(float64(*peak-before)/columnBytes(rec), "peak/channels")
			b.ReportMetric(columnBytes(rec)/1e6, "channels-MB")
		}
	})
}

// columnBytes is the size of the channels; a time base that several share counts once.
func columnBytes(rec *Recording) float64 {
	seen, numbers := map[*float64]bool{}, 0
	for _, c := range rec.Channels {
		numbers += len(c.Value)
		if len(c.Time) > 0 && !seen[&c.Time[0]] {
			seen[&c.Time[0]] = true
			numbers += len(c.Time)
		}
	}
	return 8 * float64(numbers)
}

// heap is the size of all objects, garbage included.
func heap() uint64 {
	sample := []metrics.Sample{{Name: "/memory/classes/heap/objects:bytes"}}
	metrics.Read(sample)
	return sample[0].Value.Uint64()
}

// watchHeap keeps the largest heap seen until it is stopped.
func watchHeap() (peak *uint64, stop func()) {
	peak = new(uint64)
	quit, done := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(done)
		for {
			*peak = max(*peak, heap())
			select {
			case <-quit:
				return
			case <-time.After(time.Millisecond):
			}
		}
	}()
	return peak, func() { close(quit); <-done }
}
