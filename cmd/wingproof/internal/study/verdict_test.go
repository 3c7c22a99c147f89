package study

import (
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/program"
)

// A verdict that is kept must not be found again when anything that it follows from has changed: every field of the problem is among
// its inputs, with the same type, but for the function for motions, which its own inputs stand for.
func TestVerdictIsKeptByTheWholeProblem(t *testing.T) {
	problem, inputs := reflect.TypeFor[decide.Problem](), reflect.TypeFor[verdictInputs]()
	var p decide.Problem
	filled := reflect.ValueOf(&p).Elem()
	for i := range problem.NumField() {
		field := problem.Field(i)
		if !field.IsExported() || field.Name == "Motions" {
			continue
		}
		kept, ok := inputs.FieldByName(field.Name)
		require.True(t, ok, "%s is no part of the key", field.Name)
		require.Equal(t, field.Type, kept.Type, field.Name)
		switch value := filled.Field(i); value.Kind() {
		case reflect.Slice:
			value.Set(reflect.MakeSlice(field.Type, 1, 1))
		case reflect.String:
			value.SetString("a")
		case reflect.Uint64:
			value.SetUint(1)
		case reflect.Int:
			value.SetInt(1)
		case reflect.Float64:
			value.SetFloat(1)
		case reflect.Struct:
			p.Aircraft.MeanChord = 1
		}
	}
	in := reflect.ValueOf((&Study{Program: &program.Program{}}).verdictInputs(p))
	for i := range inputs.NumField() {
		if name := inputs.Field(i).Name; name != "Motions" && name != "Altitude" {
			require.False(t, in.Field(i).IsZero(), "%s is not handed on", name)
		}
	}
}
