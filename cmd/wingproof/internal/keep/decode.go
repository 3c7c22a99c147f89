package keep

import (
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"reflect"
)

var errShort = errors.New("the data ends too early")

// Decode reads what Encode wrote of a value of the same type. into points to a zero value; after an error it may be half
// filled. It takes no more memory than the data accounts for, whatever the data says.
func Decode(data []byte, into any) error {
	target := reflect.ValueOf(into)
	if target.Kind() != reflect.Pointer || target.IsNil() {
		return fmt.Errorf("keep: decode into a %T, not a pointer to a value", into)
	}
	d := decoder{data}
	if err := d.take(target.Elem(), 0); err != nil {
		return fmt.Errorf("read a kept %s: %w", target.Elem().Type(), err)
	}
	if len(d.rest) > 0 {
		return fmt.Errorf("read a kept %s: %d bytes are left over", target.Elem().Type(), len(d.rest))
	}
	return nil
}

type decoder struct{ rest []byte }

func (d *decoder) number() (uint64, error) {
	if len(d.rest) < 8 {
		return 0, errShort
	}
	n := binary.LittleEndian.Uint64(d.rest)
	d.rest = d.rest[8:]
	return n, nil
}

func (d *decoder) flag() (bool, error) {
	if len(d.rest) < 1 {
		return false, errShort
	}
	b := d.rest[0]
	d.rest = d.rest[1:]
	if b > 1 {
		return false, fmt.Errorf("%d stands where only 0 or 1 may", b)
	}
	return b == 1, nil
}

// length reads the length of a list, of which each entry takes a byte at least.
func (d *decoder) length() (int, error) {
	n, err := d.number()
	if err == nil && n > uint64(len(d.rest)) {
		err = errShort
	}
	return int(n), err
}

func (d *decoder) take(v reflect.Value, depth int) error {
	if depth > deepest {
		return fmt.Errorf("%s nests deeper than %d", v.Type(), deepest)
	}
	switch v.Kind() {
	case reflect.Slice, reflect.Array:
		return d.list(v, depth)
	case reflect.Map:
		return d.table(v, depth)
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				if err := d.take(v.Field(i), depth+1); err != nil {
					return err
				}
			}
		}
		return nil
	case reflect.Pointer:
		set, err := d.flag()
		if err != nil || !set {
			return err
		}
		v.Set(reflect.New(v.Type().Elem()))
		return d.take(v.Elem(), depth+1)
	}
	return d.plain(v)
}

// plain reads a truth value, a number or a text.
func (d *decoder) plain(v reflect.Value) error {
	if v.Kind() == reflect.Bool {
		set, err := d.flag()
		v.SetBool(set)
		return err
	}
	if v.Kind() == reflect.String {
		n, err := d.length()
		if err != nil {
			return err
		}
		v.SetString(string(d.rest[:n]))
		d.rest = d.rest[n:]
		return nil
	}
	n, err := d.number()
	if err != nil {
		return err
	}
	switch v.Kind() {
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		v.SetInt(int64(n))
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		v.SetUint(n)
	case reflect.Float32, reflect.Float64:
		v.SetFloat(math.Float64frombits(n))
	default:
		return fmt.Errorf("a %s is no plain data", v.Type())
	}
	return nil
}

func (d *decoder) list(v reflect.Value, depth int) error {
	n := v.Len()
	if v.Kind() == reflect.Slice {
		set, err := d.flag()
		if err != nil || !set {
			return err
		}
		if n, err = d.length(); err != nil {
			return err
		}
		v.Set(reflect.MakeSlice(v.Type(), 0, 0)) // grown as it is read, since a length may lie
	}
	for i := range n {
		if v.Kind() == reflect.Slice {
			v.Grow(1)
			v.SetLen(i + 1)
		}
		if err := d.take(v.Index(i), depth+1); err != nil {
			return err
		}
	}
	return nil
}

func (d *decoder) table(v reflect.Value, depth int) error {
	set, err := d.flag()
	if err != nil || !set {
		return err
	}
	n, err := d.length()
	if err != nil {
		return err
	}
	v.Set(reflect.MakeMap(v.Type()))
	for range n {
		key, value := reflect.New(v.Type().Key()).Elem(), reflect.New(v.Type().Elem()).Elem()
		if err := d.take(key, depth+1); err != nil {
			return err
		}
		if err := d.take(value, depth+1); err != nil {
			return err
		}
		v.SetMapIndex(key, value)
	}
	return nil
}
