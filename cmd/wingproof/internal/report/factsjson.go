package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
)

// FactsJSON writes plain data as one JSON document whose bytes follow from the data alone. Keys are those of the json tags, or the
// names of the fields; fields of an exported embedded struct stand among those around it, and an embedded struct that is not exported
// is left out with all its fields, unlike in encoding/json. omitempty counts for nothing: every other field is there. What is not known is null: nil pointers, and numbers that are none or endless. A list or a table
// without anything in it is an empty one. Numbers have seven significant digits, which is more than any of them is known to, and
// the same on every processor.
//
// The error names a type that is no plain data.
func FactsJSON(value any) ([]byte, error) {
	var b bytes.Buffer
	if err := writeFacts(&b, reflect.ValueOf(value)); err != nil {
		return nil, fmt.Errorf("report: %w", err)
	}
	b.WriteByte('\n')
	return b.Bytes(), nil
}

func writeFacts(b *bytes.Buffer, v reflect.Value) error {
	switch v.Kind() {
	case reflect.Bool:
		b.WriteString(strconv.FormatBool(v.Bool()))
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		b.WriteString(strconv.FormatInt(v.Int(), 10))
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		b.WriteString(strconv.FormatUint(v.Uint(), 10))
	case reflect.Float32, reflect.Float64:
		writeFactNumber(b, v.Float())
	case reflect.String:
		return writeFactText(b, v.String())
	case reflect.Slice, reflect.Array:
		return writeFactList(b, v)
	case reflect.Map:
		return writeFactTable(b, v)
	case reflect.Pointer, reflect.Interface:
		if v.IsNil() {
			b.WriteString("null")
			return nil
		}
		return writeFacts(b, v.Elem())
	case reflect.Struct:
		b.WriteByte('{')
		first := true
		err := writeFactFields(b, v, &first)
		b.WriteByte('}')
		return err
	default:
		return fmt.Errorf("a %s is no plain data", v.Type())
	}
	return nil
}

func writeFactNumber(b *bytes.Buffer, x float64) {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		b.WriteString("null")
		return
	}
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'e', 6, 64), 64) // its own output can be read
	if rounded == 0 {
		rounded = 0 // no minus
	}
	b.WriteString(strconv.FormatFloat(rounded, 'g', -1, 64))
}

func writeFactText(b *bytes.Buffer, s string) error {
	var text bytes.Buffer
	encoder := json.NewEncoder(&text)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(strings.ToValidUTF8(s, "\ufffd")); err != nil {
		return err
	}
	b.Write(bytes.TrimRight(text.Bytes(), "\n"))
	return nil
}

func writeFactList(b *bytes.Buffer, v reflect.Value) error {
	b.WriteByte('[')
	for i := range v.Len() {
		if i > 0 {
			b.WriteByte(',')
		}
		if err := writeFacts(b, v.Index(i)); err != nil {
			return err
		}
	}
	b.WriteByte(']')
	return nil
}

func writeFactTable(b *bytes.Buffer, v reflect.Value) error {
	if v.Type().Key().Kind() != reflect.String {
		return fmt.Errorf("a %s has keys that are no words", v.Type())
	}
	byName := map[string]reflect.Value{}
	for entries := v.MapRange(); entries.Next(); {
		byName[entries.Key().String()] = entries.Value()
	}
	b.WriteByte('{')
	for i, name := range slices.Sorted(maps.Keys(byName)) {
		if i > 0 {
			b.WriteByte(',')
		}
		if err := writeFactText(b, name); err != nil {
			return err
		}
		b.WriteByte(':')
		if err := writeFacts(b, byName[name]); err != nil {
			return err
		}
	}
	b.WriteByte('}')
	return nil
}

// writeFactFields writes the fields of a struct; those of an embedded one without a key of its own stand among them.
func writeFactFields(b *bytes.Buffer, v reflect.Value, first *bool) error {
	for i := range v.NumField() {
		field := v.Type().Field(i)
		key, _, _ := strings.Cut(field.Tag.Get("json"), ",")
		switch {
		case !field.IsExported() || key == "-":
			continue
		case field.Anonymous && key == "" && field.Type.Kind() == reflect.Struct:
			if err := writeFactFields(b, v.Field(i), first); err != nil {
				return err
			}
			continue
		case key == "":
			key = field.Name
		}
		if !*first {
			b.WriteByte(',')
		}
		*first = false
		if err := writeFactText(b, key); err != nil {
			return err
		}
		b.WriteByte(':')
		if err := writeFacts(b, v.Field(i)); err != nil {
			return fmt.Errorf("%s: %w", key, err)
		}
	}
	return nil
}
