package flightlog

import (
	"encoding/binary"
	"math/bits"
)

// Eight bytes of text at once, as one word with the first byte lowest. The tricks are those of H. S. Warren,
// Hacker's Delight, 2nd edition, 2013, chapter 6 (from memory), and common practice in fast number parsers.

const (
	wordSize   = 8
	everyByte  = 0x0101010101010101 // times a byte: that byte in all eight places
	lowBits    = 0x7f7f7f7f7f7f7f7f
	topBits    = 0x8080808080808080
	zeroDigits = everyByte * uint64('0')
	overNine   = everyByte * (0x80 - 10) // added to a byte below 0x80, sets its top bit when it is above 9
)

const (
	blockSize = 64 // bytes that are looked at for separators at once
	batch     = 16 // separators that are written down at once
)

// linePad is how many bytes behind a line can be loaded though they are no part of it.
const linePad = blockSize

// word loads the eight bytes of b from i on.
func word(b []byte, i int) uint64 { return binary.LittleEndian.Uint64(b[i : i+wordSize]) }

// zeroBytes sets the top bit of each byte that is zero in x, and no other bit.
func zeroBytes(x uint64) uint64 { return ^((x&lowBits + lowBits) | x | lowBits) }

// marks gathers the top bits that zeroBytes sets in the lowest byte, that of the first byte lowest.
func marks(found uint64) uint64 { return found >> 7 * 0x0102040810204080 >> 56 }

// blockMarks has a bit for each of the 64 bytes of b from i on, set where the byte is the one in all places of same.
func blockMarks(b []byte, i int, same uint64) (set uint64) {
	some := b[i : i+blockSize]
	for k := uint(0); k < blockSize; k += wordSize {
		set |= marks(zeroBytes(binary.LittleEndian.Uint64(some[k:])^same)) << (k & 63)
	}
	return set
}

// cellEnds gives where the cells of a row of length bytes end, the last one behind it. It returns the number of cells, or 0
// when ends is too short for them.
//
// Places are written sixteen at a time, more than there may be: that is faster than to look how many there are.
func cellEnds(row []byte, length int, separators uint64, ends []uint16) (cells int) {
	for i := 0; i <= length; i += blockSize {
		set := blockMarks(row, i, separators)
		if rest := length - i; rest < blockSize {
			set = set&(1<<rest-1) | 1<<rest
		}
		for n := bits.OnesCount64(set); n > 0; n -= batch {
			if cells+batch > len(ends) {
				return 0
			}
			some := (*[batch]uint16)(ends[cells:])
			for k := 0; k < batch; k += 4 {
				some[k] = uint16(i + bits.TrailingZeros64(set))
				set &= set - 1
				some[k+1] = uint16(i + bits.TrailingZeros64(set))
				set &= set - 1
				some[k+2] = uint16(i + bits.TrailingZeros64(set))
				set &= set - 1
				some[k+3] = uint16(i + bits.TrailingZeros64(set))
				set &= set - 1
			}
			cells += min(n, batch)
		}
	}
	return cells
}

// digitsAtOnce reads the first n bytes of x, 0 to 8, as decimal digits. ok is false when one is none.
func digitsAtOnce(x uint64, n uint) (value uint64, ok bool) {
	// leading zeros come in front, what stands behind the digits falls out
	return eightDigits((x ^ zeroDigits) << (64 - 8*n))
}

// eightDigits reads eight bytes that are digits already, the first one lowest and worth most. ok is false when one is
// above 9.
func eightDigits(x uint64) (value uint64, ok bool) {
	if ((x+overNine)|x)&topBits != 0 {
		return 0, false
	}
	x = x*10 + x>>8 // pairs of digits in every second byte
	const pairs = 0x000000ff000000ff
	return ((x&pairs)*(100+1000000<<32) + (x>>16&pairs)*(1+10000<<32)) >> 32, true
}
