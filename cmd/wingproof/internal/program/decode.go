package program

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"unicode/utf16"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
)

// encoding is how the letters of a text file are stored.
type encoding int

const (
	utf8Plain encoding = iota
	utf8Marked
	utf16Little
	utf16Big
	utf16LittleBare // without a byte-order mark
	windows1252
)

func (e encoding) String() string {
	switch e {
	case utf16Little, utf16Big, utf16LittleBare:
		return "UTF-16"
	case windows1252:
		return "Windows-1252"
	}
	return "UTF-8"
}

// byteOrderMarks are the first bytes of a file in UTF-8 and in UTF-16 of either byte order.
func byteOrderMarks() (plain, little, big []byte) {
	return []byte("\xef\xbb\xbf"), []byte("\xff\xfe"), []byte("\xfe\xff")
}

// decode turns the bytes of a text file into UTF-8 without a byte-order mark, and says how they were
// stored. Bytes that are not UTF-8 are read as Windows-1252, which is how older spreadsheets save.
func decode(raw []byte) ([]byte, encoding) {
	plain, little, big := byteOrderMarks()
	switch {
	case bytes.HasPrefix(raw, plain):
		rest := raw[len(plain):]
		if utf8.Valid(rest) {
			return rest, utf8Marked
		}
		return fromWindows(raw), windows1252
	case bytes.HasPrefix(raw, little):
		return fromUTF16(raw[2:], binary.LittleEndian), utf16Little
	case bytes.HasPrefix(raw, big):
		return fromUTF16(raw[2:], binary.BigEndian), utf16Big
	case looksLittleEndian(raw):
		return fromUTF16(raw, binary.LittleEndian), utf16LittleBare
	case utf8.Valid(raw):
		return raw, utf8Plain
	}
	return fromWindows(raw), windows1252
}

// looksLittleEndian sees UTF-16 without a mark: an even number of bytes, with a zero in every second
// place of the beginning.
func looksLittleEndian(raw []byte) bool {
	if len(raw) < 4 || len(raw)%2 != 0 {
		return false
	}
	for i := 0; i < min(len(raw), 16); i += 2 {
		if raw[i] == 0 || raw[i+1] != 0 {
			return false
		}
	}
	return true
}

func fromUTF16(raw []byte, order binary.ByteOrder) []byte {
	units := make([]uint16, 0, len(raw)/2)
	for i := 0; i+1 < len(raw); i += 2 {
		units = append(units, order.Uint16(raw[i:]))
	}
	return []byte(string(utf16.Decode(units)))
}

func fromWindows(raw []byte) []byte {
	out := make([]byte, 0, len(raw)+len(raw)/8)
	for _, b := range raw {
		out = utf8.AppendRune(out, charmap.Windows1252.DecodeByte(b))
	}
	return out
}

// encode stores UTF-8 text in the given way, without a byte-order mark: it is meant for text that goes
// behind what a file already holds.
func (e encoding) encode(text string) ([]byte, error) {
	switch e {
	case utf16Little, utf16LittleBare:
		return toUTF16(text, binary.LittleEndian), nil
	case utf16Big:
		return toUTF16(text, binary.BigEndian), nil
	case windows1252:
		var out []byte
		for _, r := range text {
			b, ok := charmap.Windows1252.EncodeRune(r)
			if !ok {
				return nil, fmt.Errorf("the letter %q does not fit a file in Windows-1252; save the file as UTF-8 and repeat", r)
			}
			out = append(out, b)
		}
		return out, nil
	}
	return []byte(text), nil
}

// mark is the byte-order mark that a file in this encoding begins with.
func (e encoding) mark() []byte {
	plain, little, big := byteOrderMarks()
	switch e {
	case utf8Marked:
		return plain
	case utf16Little:
		return little
	case utf16Big:
		return big
	}
	return nil
}

func toUTF16(text string, order binary.AppendByteOrder) []byte {
	var out []byte
	for _, u := range utf16.Encode([]rune(text)) {
		out = order.AppendUint16(out, u)
	}
	return out
}
