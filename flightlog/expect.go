package flightlog

import (
	"bytes"
	"io"
	"io/fs"
	"strings"
)

const (
	// probes is in how many places a file is looked at before it is read, probeSize how many bytes there. A file that
	// is not probes times as long as all of that is guessed from its first chunk: it costs little to be wrong.
	probes    = 16
	probeSize = 16 << 10
)

// sizeOf is how many bytes a reader holds, 0 when it does not tell.
func sizeOf(r io.Reader) int64 {
	if file, ok := r.(fs.File); ok {
		if info, err := file.Stat(); err == nil && info.Mode().IsRegular() {
			return info.Size()
		}
	}
	return fixedSize(r)
}

// fixedSize is sizeOf where nothing can be added any more.
func fixedSize(r io.Reader) int64 {
	switch r := r.(type) {
	case *io.SectionReader:
		return r.Size()
	case *bytes.Reader:
		return r.Size()
	case *strings.Reader:
		return r.Size()
	}
	return 0
}

// expect guesses how many samples of each channel a text holds from places spread over it, where the reader lets itself
// be read there: sensors that start late, or a logger that idles on the ground, make the first rows unlike the others.
func expect(r io.Reader, t *text, l *layout) estimate {
	size := sizeOf(r)
	if size == 0 || t.raw == nil {
		return estimate{}
	}
	places, ok := r.(io.ReaderAt)
	if ok {
		if n, _ := places.ReadAt(make([]byte, 1), size-1); n == 0 {
			return estimate{} // it ends earlier than it says
		}
	}
	if !ok || size < probes*probes*probeSize {
		return estimate{bytes: int(size)}
	}
	p, b := parser{layout: l}, newBlock(len(l.plans))
	samples, parsed := make([]float64, len(l.plans)), 0.0
	for k := range int64(probes) {
		var probe io.Reader = io.NewSectionReader(places, k*(size/probes), probeSize)
		if t.returns {
			probe = returnsAsLines{probe}
		}
		p.parse(linesOf(probe), false, b)
		parsed += float64(b.bytes)
		for i := range samples {
			samples[i] += float64(b.samples[i].n)
		}
	}
	if parsed == 0 {
		return estimate{bytes: int(size)}
	}
	for i := range samples {
		samples[i] *= float64(size) / parsed
	}
	return estimate{bytes: int(size), samples: samples}
}

// linesOf gives the whole lines in a piece of a text.
func linesOf(r io.Reader) []byte {
	piece := make([]byte, probeSize, probeSize+linePad)
	n, _ := io.ReadFull(r, piece) // where it cannot be read, reading in order will say why
	piece = piece[:n]
	from := 0
	for from < n && piece[from] != '\n' {
		from++
	}
	to := n
	for to > from && piece[to-1] != '\n' {
		to--
	}
	return piece[min(from+1, to):to]
}
