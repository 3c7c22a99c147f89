package keep

import (
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

type word string

type inner struct {
	X, Y float64
	Name word
}

type sample struct {
	Yes    bool
	Small  int8
	Count  int
	Bytes  []byte
	Values []float64
	Pairs  [][2]float64
	Text   string
	Levels map[string]string
	Nested map[string][]inner
	Point  *inner
	inner
}

func back(t require.TestingT, in sample) sample {
	data, err := Encode(in)
	require.NoError(t, err)
	var out sample
	require.NoError(t, Decode(data, &out))
	return out
}

// bits is a number as it lies in memory: NaN equals itself, and minus zero is not zero.
func bits(values []float64) []uint64 {
	var out []uint64
	for _, v := range values {
		out = append(out, math.Float64bits(v))
	}
	return out
}

func TestNumbersComeBackBitForBit(t *testing.T) {
	payload := math.Float64frombits(0x7ff8_dead_beef_0001) // one NaN of many
	values := []float64{0, math.Copysign(0, -1), math.Inf(1), math.Inf(-1), math.NaN(), payload, math.SmallestNonzeroFloat64, math.MaxFloat64, 0.1, 1.0 / 3}
	out := back(t, sample{Values: values, Count: math.MinInt, Small: -7, inner: inner{}})
	require.Equal(t, bits(values), bits(out.Values))
	require.Equal(t, math.MinInt, out.Count)
	require.Equal(t, int8(-7), out.Small)

	in := struct{ Zero float64 }{math.Copysign(0, -1)} // alone in its field, where other encodings drop it
	data, err := Encode(in)
	require.NoError(t, err)
	in.Zero = 0
	require.NoError(t, Decode(data, &in))
	require.True(t, math.Signbit(in.Zero))
}

// A page shows no list as null and an empty one as [], so that the difference has to come back too.
func TestNilAndEmptyStayApart(t *testing.T) {
	out := back(t, sample{})
	require.Nil(t, out.Values)
	require.Nil(t, out.Levels)
	require.Nil(t, out.Point)
	out = back(t, sample{Values: []float64{}, Levels: map[string]string{}, Point: &inner{}})
	require.NotNil(t, out.Values)
	require.NotNil(t, out.Levels)
	require.NotNil(t, out.Point)
	require.Equal(t, "\xff\x00 not UTF-8", back(t, sample{Text: "\xff\x00 not UTF-8"}).Text)
}

func samples() *rapid.Generator[sample] {
	return rapid.Custom(func(t *rapid.T) sample {
		number := rapid.Float64()
		point := rapid.Custom(func(t *rapid.T) inner {
			return inner{number.Draw(t, "x"), number.Draw(t, "y"), word(rapid.String().Draw(t, "name"))}
		})
		s := sample{
			Yes: rapid.Bool().Draw(t, "yes"), Small: rapid.Int8().Draw(t, "small"), Count: rapid.Int().Draw(t, "count"), Text: rapid.String().Draw(t, "text"),
			Bytes: rapid.SliceOf(rapid.Byte()).Draw(t, "bytes"), Values: rapid.SliceOf(number).Draw(t, "values"),
			Levels: rapid.MapOf(rapid.String(), rapid.String()).Draw(t, "levels"),
			Nested: rapid.MapOf(rapid.String(), rapid.SliceOf(point)).Draw(t, "nested"),
		}
		if rapid.Bool().Draw(t, "has point") {
			p := point.Draw(t, "point")
			s.Point = &p
		}
		for _, v := range s.Values {
			s.Pairs = append(s.Pairs, [2]float64{v, -v})
		}
		return s
	})
}

// What comes back is equal and gives the same bytes again, however the maps were filled.
func TestEncodeAndDecodeAreInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := samples().Draw(t, "in")
		data, err := Encode(in)
		require.NoError(t, err)
		var out sample
		require.NoError(t, Decode(data, &out))
		require.Equal(t, in, out)
		again, err := Encode(out)
		require.NoError(t, err)
		require.Equal(t, data, again)
	})
}

// Data that was cut, or of which a byte changed, is refused or read as something else; it never ends the program, nor does
// a length that lies take memory.
func TestDecodeBearsAnyData(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		data, err := Encode(samples().Draw(t, "in"))
		require.NoError(t, err)
		cut := rapid.IntRange(0, len(data)-1).Draw(t, "cut")
		var out sample
		require.Error(t, Decode(data[:cut], &out))
		data[cut] ^= byte(rapid.IntRange(1, 255).Draw(t, "change"))
		_ = Decode(data, &out)
	})
	huge := []byte{1, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0x7f}
	var values []float64
	require.ErrorIs(t, Decode(huge, &values), errShort)
	require.Error(t, Decode(append(huge[:1:1], make([]byte, 9)...), &values), "a byte is left over")
	require.Error(t, Decode(nil, values), "no pointer")
}

func FuzzDecode(f *testing.F) {
	data, err := Encode(sample{Values: []float64{1, 2}, Levels: map[string]string{"winglet": "mid"}, Point: &inner{X: 1}})
	require.NoError(f, err)
	f.Add(data)
	f.Fuzz(func(t *testing.T, data []byte) {
		var out sample
		if Decode(data, &out) != nil {
			return
		}
		again, err := Encode(out)
		if err == nil { // unexported fields of inner cannot come back
			var twice sample
			require.NoError(t, Decode(again, &twice))
		}
	})
}

// What could not be given back whole is refused: it would come back as something else.
func TestEncodeRefusesWhatItCannotGiveBack(t *testing.T) {
	hidden := struct{ secret float64 }{1}
	type ring struct{ Next *ring }
	loop := &ring{}
	loop.Next = loop
	for name, value := range map[string]any{
		"a function": struct{ F func() }{func() {}}, "an interface": struct{ V any }{1.0}, "an unexported field": hidden, "a channel": make(chan int),
		"a ring": loop, "nothing": nil,
	} {
		_, err := Encode(value)
		require.Error(t, err, name)
	}
	_, err := Encode(struct{ secret float64 }{})
	require.NoError(t, err, "a field that holds nothing loses nothing")
	_, err = encodeKey(struct{ F func() }{func() {}})
	require.Error(t, err)
}

type straight struct{ slope float64 }

type bent struct{ slope float64 }

// A key sees what a value may not hold: unexported fields, and what stands in an interface, with its type.
func TestKeysSeeEverything(t *testing.T) {
	key := func(v any) string {
		data, err := encodeKey(v)
		require.NoError(t, err)
		return string(data)
	}
	require.NotEqual(t, key(straight{1}), key(straight{2}))
	list := func(v any) any { return []any{v} }
	require.NotEqual(t, key(list(straight{1})), key(list(bent{1})))
	require.NotEqual(t, key(list(straight{1})), key(list(&straight{1})))
	require.NotEqual(t, key(list(nil)), key(list(0)))
	require.NotEqual(t, key([]string{"ab", "c"}), key([]string{"a", "bc"}))
	many := map[string]float64{}
	for _, name := range []string{"c", "a", "b", "e", "d"} {
		many[name] = 1
	}
	for range 20 {
		require.Equal(t, key(many), key(map[string]float64{"a": 1, "b": 1, "c": 1, "d": 1, "e": 1}))
	}
}

// Every field counts, whatever its type: a change of any one of them changes the key.
func TestEveryFieldIsPartOfTheKey(t *testing.T) {
	base := sample{Values: []float64{1}, Levels: map[string]string{"a": "b"}, Point: &inner{}, Pairs: [][2]float64{{1, 2}}, Bytes: []byte{1}, Nested: map[string][]inner{"a": {{}}}}
	before, err := encodeKey(base)
	require.NoError(t, err)
	for i := range reflect.TypeFor[sample]().NumField() {
		name := reflect.TypeFor[sample]().Field(i).Name
		if name == "inner" {
			continue
		}
		changed := base
		field := reflect.ValueOf(&changed).Elem().Field(i)
		switch field.Kind() {
		case reflect.Bool:
			field.SetBool(true)
		case reflect.String:
			field.SetString("x")
		case reflect.Int, reflect.Int8:
			field.SetInt(1)
		default:
			field.SetZero()
		}
		after, err := encodeKey(changed)
		require.NoError(t, err)
		require.NotEqual(t, before, after, name)
	}
}
