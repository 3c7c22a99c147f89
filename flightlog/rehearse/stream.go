package rehearse

import (
	"crypto/sha256"
	"encoding/binary"
	"math/rand/v2"
	"strconv"
	"strings"
)

// Stream is the random stream of one named thing: PCG, seeded by SHA-256. It depends on the seed and the names alone, never on the order
// in which streams are opened.
func Stream(seed uint64, names ...string) *rand.Rand {
	sum := sha256.Sum256([]byte(strconv.FormatUint(seed, 10) + "\x00" + strings.Join(names, "\x00")))
	return rand.New(rand.NewPCG(binary.LittleEndian.Uint64(sum[:8]), binary.LittleEndian.Uint64(sum[8:16])))
}
