package report

import (
	"fmt"
	"io"
	"strings"

	"wingproof/aero/similitude"
)

// ballastPart writes what to put where, what comes of it, and what it does not reach.
func ballastPart(w io.Writer, s Scaling, width int) error {
	if s.Ballast == nil {
		return nil
	}
	b := s.Ballast
	head := fmt.Sprintf("ballast: the model as weighed (%s), with all that it carried then", plain(s.Weighing))
	if len(b.Lumps) == 0 {
		head += "; nothing is to be added"
	} else {
		head += fmt.Sprintf(", and %s kg more:", number(b.Added, 3))
	}
	if _, err := fmt.Fprintln(w); err != nil {
		return err
	}
	if err := paragraph(w, head, width); err != nil {
		return err
	}
	if err := lumpTable(w, b, width); err != nil {
		return err
	}
	if err := resultTable(w, b, width); err != nil {
		return err
	}
	for _, line := range b.Advice {
		if err := paragraph(w, "not met: "+plain(line), width); err != nil {
			return err
		}
	}
	return paragraph(w, "CAUTION: fix ballast so that it cannot shift in any attitude, weigh the model again before it flies, and begin at the forward CG: "+
		"a CG behind the neutral point can make a model impossible to hold within seconds", width)
}

func lumpTable(w io.Writer, b *similitude.Proposal, width int) error {
	if len(b.Lumps) == 0 {
		return nil
	}
	t := textTable{heads: []string{"bay", "aft of datum", "beside middle", "above datum", "put in"}, most: []int{30, 14, 14, 14, 0}}
	for _, l := range b.Lumps {
		beside, put := "middle", number(l.Mass, 3)+" kg"
		if l.Sides == 2 {
			beside, put = "± "+number(1000*l.Y, 0)+" mm", number(l.Each, 3)+" kg on either side"
		}
		for _, full := range b.Full {
			if full == l.Bay {
				put += " (full)"
			}
		}
		t.add(plain(l.Bay), number(1000*l.X, 0)+" mm", beside, number(1000*l.Z, 0)+" mm", put)
	}
	return t.write(w, width)
}

func resultTable(w io.Writer, b *similitude.Proposal, width int) error {
	if _, err := fmt.Fprintln(w); err != nil {
		return err
	}
	t := textTable{heads: []string{"quantity", "target", "as weighed", "with this ballast", "left over"}, most: []int{22, 16, 16, 18, 0}}
	for _, r := range b.Rows {
		name := inertiaWords(r.Quantity)
		if strings.HasPrefix(r.Quantity, "cg_") {
			name = placeWords(r.Quantity)
		}
		t.add(name, ballastValue(r.Unit, r.Target), ballastValue(r.Unit, r.Now), ballastValue(r.Unit, r.After), leftWords(r))
	}
	if err := t.write(w, width); err != nil {
		return err
	}
	return paragraph(w, fmt.Sprintf("masses are rounded to %s g on a kitchen scale; mass and CG aft of datum come first, height and inertias as near as the bays allow", trimmed(1000*b.Step)), width)
}
