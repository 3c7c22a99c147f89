package main

import (
	"fmt"
	"io"
	"reflect"
	"slices"
	"strings"

	"wingproof/flightlog/reduce"
)

// pointsCSV writes a row for each test point, kept or not: SI units, radians, model size. The columns are the keys of
// reduce --json in their order, so that both say the same.
func pointsCSV(w io.Writer, flights []reduce.Reduction) error {
	var rows [][]string
	for _, f := range flights {
		for _, p := range f.Points {
			rows = append(rows, pointRow(p))
		}
	}
	return writeCSV(w, pointHeads(), rows)
}

// pointHeads are the heads of the columns.
func pointHeads() []string {
	var heads []string
	for _, c := range pointColumns() {
		heads = append(heads, c.head)
	}
	return heads
}

// pointColumn is a field of a test point.
type pointColumn struct {
	head  string
	index int   // of the field
	has   []int // of the fields that tell whether it holds anything
}

// pointColumns lists the fields of a test point by their JSON keys. A field has_drag is no column: it tells of those whose key
// begins with drag whether they hold anything.
func pointColumns() []pointColumn {
	var columns []pointColumn
	tells := map[string]int{}
	for i := range reflect.TypeFor[reduce.TestPoint]().NumField() {
		key, _, _ := strings.Cut(reflect.TypeFor[reduce.TestPoint]().Field(i).Tag.Get("json"), ",")
		if what, ok := strings.CutPrefix(key, "has_"); ok {
			tells[what] = i
			continue
		}
		columns = append(columns, pointColumn{head: key, index: i})
	}
	for what, index := range tells {
		for i := range columns {
			if columns[i].head == what || strings.HasPrefix(columns[i].head, what+"_") {
				columns[i].has = append(columns[i].has, index)
			}
		}
	}
	return columns
}

// zeroIsUnknown lists the columns in which 0 says that there is no number.
func zeroIsUnknown() []string { return []string{"alpha_absolute_sd_rad"} }

// pointRow writes the cells of a point; what it does not hold stays empty.
func pointRow(p reduce.TestPoint) []string {
	var row []string
	fields := reflect.ValueOf(p)
	for _, c := range pointColumns() {
		cell := ""
		if c.holds(fields) {
			cell = fieldCell(fields.Field(c.index))
		}
		row = append(row, cell)
	}
	return row
}

// holds tells whether a point has anything in the column.
func (c pointColumn) holds(point reflect.Value) bool {
	holds := !(point.Field(c.index).IsZero() && slices.Contains(zeroIsUnknown(), c.head))
	for _, i := range c.has {
		holds = holds && point.Field(i).Bool()
	}
	return holds
}

func fieldCell(v reflect.Value) string {
	switch v.Kind() {
	case reflect.Float64:
		return cellOf(v.Float())
	case reflect.Bool:
		return yesNo(v.Bool())
	case reflect.String:
		return v.String()
	}
	return fmt.Sprint(v.Interface())
}
