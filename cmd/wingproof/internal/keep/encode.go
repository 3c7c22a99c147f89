package keep

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"reflect"
	"slices"
)

// deepest is how far values may nest: further than any plain data does, so that a ring of pointers ends as an error.
const deepest = 64

// Encode writes plain data so that Decode gives it back bit for bit: also minus zero, NaN, text that is not UTF-8, and the
// difference between no list and an empty one. Equal data gives equal bytes; maps are sorted.
//
// Numbers are little endian, 8 bytes each; a text, a list and a map begin with a length; what may be nil begins with a
// byte, 0 for nil. Fields stand in their order without names, so the bytes mean something only to the same type.
//
// The error names what cannot be given back: functions, channels, interfaces, and unexported fields that are not zero.
func Encode(value any) ([]byte, error) {
	e := encoder{}
	if err := e.add(reflect.ValueOf(value), 0); err != nil {
		return nil, fmt.Errorf("keep %T: %w", value, err)
	}
	return e.out, nil
}

// encodeKey writes what a computation reads. Unlike Encode it takes unexported fields as they are, and what stands in
// an interface with the name of its type, since a key is compared and never read back.
func encodeKey(value any) ([]byte, error) {
	e := encoder{key: true}
	if err := e.add(reflect.ValueOf(value), 0); err != nil {
		return nil, fmt.Errorf("key of %T: %w", value, err)
	}
	return e.out, nil
}

type encoder struct {
	key bool
	out []byte
}

func (e *encoder) number(n uint64) { e.out = binary.LittleEndian.AppendUint64(e.out, n) }

func (e *encoder) flag(set bool) {
	if set {
		e.out = append(e.out, 1)
		return
	}
	e.out = append(e.out, 0)
}

func (e *encoder) text(s string) {
	e.number(uint64(len(s)))
	e.out = append(e.out, s...)
}

func (e *encoder) add(v reflect.Value, depth int) error {
	if !v.IsValid() {
		return fmt.Errorf("there is no value")
	}
	if depth > deepest {
		return fmt.Errorf("%s nests deeper than %d", v.Type(), deepest)
	}
	switch v.Kind() {
	case reflect.Bool:
		e.flag(v.Bool())
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		e.number(uint64(v.Int()))
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		e.number(v.Uint())
	case reflect.Float32, reflect.Float64:
		e.number(math.Float64bits(v.Float()))
	case reflect.String:
		e.text(v.String())
	case reflect.Slice, reflect.Array:
		return e.list(v, depth)
	case reflect.Map:
		return e.table(v, depth)
	case reflect.Struct:
		return e.fields(v, depth)
	case reflect.Pointer:
		e.flag(!v.IsNil())
		if !v.IsNil() {
			return e.add(v.Elem(), depth+1)
		}
	case reflect.Interface:
		return e.dynamic(v, depth)
	default:
		return fmt.Errorf("a %s is no plain data", v.Type())
	}
	return nil
}

func (e *encoder) list(v reflect.Value, depth int) error {
	if v.Kind() == reflect.Slice {
		e.flag(!v.IsNil())
		if v.IsNil() {
			return nil
		}
		e.number(uint64(v.Len()))
	}
	for i := range v.Len() {
		if err := e.add(v.Index(i), depth+1); err != nil {
			return err
		}
	}
	return nil
}

// table writes a map sorted by the bytes of its entries.
func (e *encoder) table(v reflect.Value, depth int) error {
	e.flag(!v.IsNil())
	if v.IsNil() {
		return nil
	}
	e.number(uint64(v.Len()))
	var rows [][]byte
	for entries := v.MapRange(); entries.Next(); {
		row := encoder{key: e.key}
		if err := row.add(entries.Key(), depth+1); err != nil {
			return err
		}
		if err := row.add(entries.Value(), depth+1); err != nil {
			return err
		}
		rows = append(rows, row.out)
	}
	slices.SortFunc(rows, bytes.Compare)
	for _, row := range rows {
		e.out = append(e.out, row...)
	}
	return nil
}

func (e *encoder) fields(v reflect.Value, depth int) error {
	for i := range v.NumField() {
		field := v.Type().Field(i)
		if !e.key && !field.IsExported() {
			if !v.Field(i).IsZero() {
				return fmt.Errorf("field %s of %s is unexported and holds something", field.Name, v.Type())
			}
			continue
		}
		if err := e.add(v.Field(i), depth+1); err != nil {
			return fmt.Errorf("field %s: %w", field.Name, err)
		}
	}
	return nil
}

// dynamic writes what an interface holds, with its type. Only a key may hold one.
func (e *encoder) dynamic(v reflect.Value, depth int) error {
	if !e.key {
		return fmt.Errorf("what a %s holds cannot be read back", v.Type())
	}
	e.flag(!v.IsNil())
	if v.IsNil() {
		return nil
	}
	e.text(typeName(v.Elem().Type()))
	return e.add(v.Elem(), depth+1)
}

// typeName tells types apart, those of one name in two packages too.
func typeName(t reflect.Type) string {
	if t.Kind() == reflect.Pointer {
		return "*" + typeName(t.Elem())
	}
	return t.PkgPath() + " " + t.String()
}
