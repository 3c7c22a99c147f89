package demo

import (
	"crypto/sha256"
	"encoding/binary"
	"math/rand/v2"
	"strconv"
	"strings"
)

// stream returns the random stream of one named thing. It depends on the seed and the names alone, never
// on the order in which streams are opened.
func stream(seed uint64, names ...string) *rand.Rand {
	sum := sha256.Sum256([]byte(strconv.FormatUint(seed, 10) + "\x00" + strings.Join(names, "\x00")))
	return rand.New(rand.NewPCG(binary.LittleEndian.Uint64(sum[:8]), binary.LittleEndian.Uint64(sum[8:16])))
}

// draw returns one normal draw with mean zero from the stream of the names.
func draw(seed uint64, sd float64, names ...string) float64 {
	return sd * stream(seed, names...).NormFloat64()
}
