package flightlog

import (
	"fmt"
	"strings"
	"testing"

	"wingproof/flightlog/unit"
)

// siUnit is a unit of the quantity that needs no conversion.
func siUnit(q Quantity) string {
	for _, name := range unit.Of(q.Dimension()) {
		if u, _ := unit.Lookup(name, q.Dimension()); u.Factor == 1 && u.Offset == 0 {
			return name
		}
	}
	return ""
}

// BenchmarkRead reads a log of twenty columns of which half are mapped.
func BenchmarkRead(b *testing.B) {
	for _, separator := range []string{",", ";"} {
		var text strings.Builder
		heads := []string{"time"}
		m := Map{Time: TimeColumn{"time", "s"}}
		for i, q := range Quantities()[:19] {
			heads = append(heads, string(q))
			if i%2 == 0 {
				m.Columns = append(m.Columns, Column{Column: string(q), Is: q, Unit: siUnit(q)})
			}
		}
		text.WriteString(strings.Join(heads, separator) + "\n")
		for i := range 50_000 {
			fmt.Fprintf(&text, "%.3f", float64(i)*0.02)
			for k := range 19 {
				text.WriteString(separator)
				if k%5 == 4 && i%5 != 0 {
					continue // a slower sensor
				}
				fmt.Fprintf(&text, "%.5f", float64((i*7919+k*104729)%20000-10000)/1000)
			}
			text.WriteByte('\n')
		}
		log := text.String()
		b.Run(fmt.Sprintf("separator=%s", separator), func(b *testing.B) {
			b.SetBytes(int64(len(log)))
			for b.Loop() {
				if _, err := Read(strings.NewReader(log), "a.csv", m); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
