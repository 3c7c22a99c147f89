package keep

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
)

const (
	magic = "wingproof kept result\n"
	// format is the number of the layout that package comment and Encode describe. It rises with every change of either.
	format = 1
)

// seal is the content of the file of an entry.
func seal(key, value []byte) []byte {
	out := make([]byte, 0, len(magic)+4+8+len(key)+8+len(value)+sha256.Size)
	out = append(out, magic...)
	out = binary.LittleEndian.AppendUint32(out, format)
	out = append(binary.LittleEndian.AppendUint64(out, uint64(len(key))), key...)
	out = append(binary.LittleEndian.AppendUint64(out, uint64(len(value))), value...)
	sum := sha256.Sum256(out)
	return append(out, sum[:]...)
}

// unseal takes the value out of a file. It is false for a file that seal has not written whole, with this key.
func unseal(file, key []byte) (value []byte, ok bool) {
	end := len(file) - sha256.Size
	if end < 0 {
		return nil, false
	}
	if sum := sha256.Sum256(file[:end]); !bytes.Equal(sum[:], file[end:]) {
		return nil, false
	}
	rest, ok := bytes.CutPrefix(file[:end], []byte(magic))
	if !ok || len(rest) < 4 || binary.LittleEndian.Uint32(rest) != format {
		return nil, false
	}
	have, rest, ok := part(rest[4:])
	if !ok || !bytes.Equal(have, key) {
		return nil, false
	}
	value, rest, ok = part(rest)
	return value, ok && len(rest) == 0
}

// part cuts a length and as many bytes off the front.
func part(data []byte) (front, rest []byte, ok bool) {
	if len(data) < 8 {
		return nil, nil, false
	}
	n := binary.LittleEndian.Uint64(data)
	if data = data[8:]; n > uint64(len(data)) {
		return nil, nil, false
	}
	return data[:n], data[n:], true
}
