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
	n    int
	kept sync.Map // of *stream by name
}

// stream is drawn once, by whoever asks first.
type stream struct {
	once  sync.Once
	draws []float64
}

func newStreams(seed uint64, n int) *streams { return &streams{seed: seed, n: n} }

// normals is the stream of a name.
func (s *streams) normals(name ...string) []float64 {
	entry, _ := s.kept.LoadOrStore(strings.Join(name, "\x00"), &stream{})
	kept := entry.(*stream)
	kept.once.Do(func() { kept.draws = normals(s.seed, s.n, name...) })
	return kept.draws
}
