package decide

import (
	"crypto/sha256"
	"encoding/binary"
	"math/rand/v2"
	"strings"
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
