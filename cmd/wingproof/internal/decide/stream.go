package decide

import (
	"crypto/sha256"
	"encoding/binary"
	"math/rand/v2"
	"strings"
	"sync"
)

// normals returns n standard normal draws of the stream that the seed and the name of the drawn thing
// determine: PCG seeded by SHA-256, so that one thing's draws never depend on what else is drawn.
func normals(seed uint64, n int, name ...string) []float64 {
	text := binary.BigEndian.AppendUint64(nil, seed)
	text = append(text, strings.Join(name, "\x00")...)
	sum := sha256.Sum256(text)
	random := rand.New(rand.NewPCG(binary.BigEndian.Uint64(sum[:8]), binary.BigEndian.Uint64(sum[8:16])))
	draws := make([]float64, n)
	for i := range draws {
		draws[i] = random.NormFloat64()
	}
	return draws
}

// streams keeps normals, so that judgements of like problems need not draw them again. Nobody writes into what it hands out.
// It may be shared between goroutines.
type streams struct {
	seed uint64
	n    int // draws that it hands out
	all  *keptStreams
}

// keptStreams are as long as the longest judgement needs them: the first draws of a stream are those of a shorter one.
type keptStreams struct {
	n      int
	byName sync.Map // of *stream
}

// stream is drawn once, by whoever asks first.
type stream struct {
	once  sync.Once
	draws []float64
}

func newStreams(seed uint64, n int) *streams {
	return &streams{seed: seed, n: n, all: &keptStreams{n: n}}
}

// first shares the first n draws of every stream; n is at most what is kept.
func (s *streams) first(n int) *streams { return &streams{seed: s.seed, n: n, all: s.all} }

// normals is the stream of a name.
func (s *streams) normals(name ...string) []float64 {
	entry, _ := s.all.byName.LoadOrStore(strings.Join(name, "\x00"), &stream{})
	kept := entry.(*stream)
	kept.once.Do(func() { kept.draws = normals(s.seed, s.all.n, name...) })
	return kept.draws[:s.n:s.n]
}
