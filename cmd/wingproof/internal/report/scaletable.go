package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"wingproof/aero/similitude"
)

// sure is how many standard deviations bound 95 % of a normal error.
const sure = 1.96

// ScaleTable writes the scaling sheet as text no wider than width columns (100 when width is 0): the loading that the model
// imitates, targets beside the weighing, what its departures spoil, the CGs that the loadings ask for, speeds, the other ratios
// in words, and the ballast.
func ScaleTable(w io.Writer, s Scaling, width int) error {
	for _, part := range []func(io.Writer, Scaling, int) error{scaleHead, targetTable, spoilLines, loadingTable, speedTable, ratioLines, ballastPart, noteLines} {
		if err := part(w, s, width); err != nil {
			return err
		}
	}
	return nil
}

func scaleHead(w io.Writer, s Scaling, width int) error {
	words := plain(s.Imitates.Name)
	if s.Imitates.CGX != nil && s.Imitates.Name == "gross mass" {
		words += ", CG midway between the ends of the loadings that fly (--loading NAME for one of these)"
	}
	r := s.Sheet.Ratios
	for _, line := range []string{
		"the model imitates: " + words,
		fmt.Sprintf("length ratio %s; air %s times as dense at the model's field (%s °C, %s hPa) as where full size flies, standard atmosphere",
			trimmed(r.Length), number(r.Density, 3), number(s.Sheet.ModelAir.Temperature-273.15, 1), number(s.Sheet.ModelAir.Pressure/100, 0)),
	} {
		if err := paragraph(w, line, width); err != nil {
			return err
		}
	}
	_, err := fmt.Fprintln(w)
	return err
}

func targetTable(w io.Writer, s Scaling, width int) error {
	weighed := "model measured"
	if s.Weighing != "" {
		weighed = "weighed: " + plain(s.Weighing)
	}
	t := textTable{heads: []string{"quantity", "full size", "model target", weighed, "departure, 95 %"}, most: []int{21, 26, 14, 24, 0}}
	for _, r := range scaleRows(&s.Sheet) {
		t.add(plain(r.Quantity), r.Full, r.Target, r.Measured, r.Departure)
	}
	for i, r := range s.Sheet.CG {
		full := number(r.FullSize, 3) + " m"
		if i == 0 && s.Imitates.CGPercent != nil {
			full += ", " + number(*s.Imitates.CGPercent, 1) + " % of chord"
		}
		measured, off := "not measured", ""
		if r.Measured != nil {
			measured = number(1000**r.Measured, 1) + " mm"
			off = signed(1000**r.Departure, 1) + plusMinus(1000**r.DepartureSD, 1) + " mm"
		}
		t.add(placeWords(r.Quantity), full, number(1000*r.Target, 1)+" mm", measured, off)
	}
	if err := t.write(w, width); err != nil {
		return err
	}
	return paragraph(w, doubtWords(s), width)
}

func placeWords(quantity string) string {
	if quantity == "cg_x" {
		return "CG aft of datum"
	}
	return "CG above datum"
}

// plusMinus words the 95 % of a standard deviation; nothing for an exact figure.
func plusMinus(sd float64, decimals int) string {
	if sd <= 0 {
		return ""
	}
	return " ± " + number(sure*sd, decimals)
}

// doubtWords says how well the full-size figures are known: no ballast is better than its target.
func doubtWords(s Scaling) string {
	var parts []string
	for _, d := range s.Doubts {
		if d.Percent > 0 {
			parts = append(parts, fmt.Sprintf("%s ± %s %% (%s)", d.Quantity, number(sure*d.Percent, 1), d.Status))
		}
	}
	if s.CGXSD != nil && *s.CGXSD > 0 {
		parts = append(parts, fmt.Sprintf("CG ± %s mm on the model (from the empty weight)", number(1000*sure**s.CGXSD*s.Sheet.Ratios.Length, 1)))
	}
	if len(parts) == 0 {
		return ""
	}
	return "the targets are no better than the full-size figures, 95 %: " + strings.Join(parts, ", ")
}

// spoilLines say what each departure spoils, and which are too small for this weighing to tell.
func spoilLines(w io.Writer, s Scaling, width int) error {
	var lines []string
	for _, r := range s.Sheet.Rows {
		if r.Departure != nil {
			off := signed(*r.Departure, 1) + " %"
			lines = append(lines, spoilLine(inertiaWords(r.Quantity), off, r.Spoils, *r.Clear))
		}
	}
	for _, r := range s.Sheet.CG {
		if r.Departure != nil {
			lines = append(lines, spoilLine(placeWords(r.Quantity), signed(1000**r.Departure, 1)+" mm", r.Spoils, *r.Clear))
		}
	}
	if len(lines) == 0 {
		return nil
	}
	if _, err := fmt.Fprintln(w, "\nwhat the departures spoil"); err != nil {
		return err
	}
	for _, line := range lines {
		if err := paragraph(w, plain(line), width); err != nil {
			return err
		}
	}
	return nil
}

func spoilLine(quantity, off, spoils string, clear bool) string {
	switch {
	case !clear && strings.HasPrefix(spoils, "nothing"):
		return quantity + " " + off + ": smaller than its 95 %, so the weighing cannot tell it from none, and " + spoils
	case !clear:
		return quantity + " " + off + ": smaller than its 95 %, so the weighing cannot tell it from none; if it is real: " + spoils
	}
	return quantity + " " + off + ": " + spoils
}

// loadingTable lists the CGs that the loadings ask of the model.
func loadingTable(w io.Writer, s Scaling, width int) error {
	if len(s.Loadings) == 0 {
		return nil
	}
	first, last := s.Loadings[0], s.Loadings[len(s.Loadings)-1]
	if _, err := fmt.Fprintln(w); err != nil {
		return err
	}
	head := fmt.Sprintf("CGs that the loadings ask of the model: %s to %s mm aft of its datum", number(1000**first.ModelCGX, 1), number(1000**last.ModelCGX, 1))
	if err := paragraph(w, head, width); err != nil {
		return err
	}
	t := textTable{heads: []string{"loading", "full size", "CG, full size", "of chord", "model", "CG, model", "its height"}, most: []int{0, 10, 13, 9, 9, 10, 10}}
	for _, l := range s.Loadings {
		t.add(plain(l.Name), figures(l.Mass, 4)+" kg", number(*l.CGX, 3)+" m", number(*l.CGPercent, 1)+" %", figures(l.ModelMass, 4)+" kg", number(1000**l.ModelCGX, 1)+" mm", number(1000**l.ModelCGZ, 1)+" mm")
	}
	return t.write(w, width)
}

func speedTable(w io.Writer, s Scaling, width int) error {
	if len(s.Sheet.Speeds) == 0 {
		return nil
	}
	if _, err := fmt.Fprintln(w); err != nil {
		return err
	}
	if err := paragraph(w, "speeds in m/s; the crew flies the calibrated one, which the model's airspeed sensor reads; pairs are full size / model, CL is the lift coefficient", width); err != nil {
		return err
	}
	t := textTable{heads: []string{"speed", "full size true", "full size calibrated", "model true", "model calibrated", "model as weighed", "Reynolds, millions", "Mach number"}, most: []int{24, 9, 10, 7, 10, 10, 13, 0}}
	words := speedRows(&s.Sheet)
	for i, v := range s.Sheet.Speeds {
		t.add(strings.Replace(plain(v.Name), "lift coefficient", "CL", 1), number(v.FullTrue, 1), number(v.FullCalibrated, 1), number(v.ModelTrue, 1), words[i].Model, strings.Replace(words[i].AsWeighed, "not weighed", "–", 1), strings.TrimSuffix(words[i].Reynolds, " million"),
			number(v.FullMach, 3)+" / "+number(v.ModelMach, 3))
	}
	return t.write(w, width)
}

// ratioLines put the ratios that the tables do not show into words, with an example each.
func ratioLines(w io.Writer, s Scaling, width int) error {
	r := s.Sheet.Ratios
	if _, err := fmt.Fprintln(w); err != nil {
		return err
	}
	for _, line := range []string{
		fmt.Sprintf("time: everything happens %s times as fast on the model; a period of 10 s at full size takes %s s", number(1/r.Time, 2), number(10*r.Time, 2)),
		fmt.Sprintf("rates and frequencies: times %s; 20 °/s of roll at full size are %s °/s on the model; the same angles, load factors, lift coefficients and damping ratios", number(r.AngularRate, 2), number(20*r.AngularRate, 1)),
		fmt.Sprintf("forces and moments: 1 N on the model stands for %s N, 1 N·m for %s N·m", figures(1/r.Force, 3), figures(1/r.Moment, 3)),
		fmt.Sprintf("not to scale: the Reynolds number is %s times the full-size one, the Mach number %s times; drag at zero lift and greatest lift need their own correction", number(r.Reynolds, 3), number(r.Mach, 3)),
	} {
		if err := paragraph(w, line, width); err != nil {
			return err
		}
	}
	return nil
}

func noteLines(w io.Writer, s Scaling, width int) error {
	for i, note := range s.Notes {
		if i == 0 {
			if _, err := fmt.Fprintln(w); err != nil {
				return err
			}
		}
		if err := paragraph(w, "note: "+plain(note), width); err != nil {
			return err
		}
	}
	return nil
}

// leftWords words what is left over of a quantity, in percent, of a CG in millimetres.
func leftWords(r similitude.BallastRow) string {
	if r.Percent != nil {
		return noMinusZero(signed(*r.Percent, 1)) + " %"
	}
	return noMinusZero(signed(1000*r.Left, 1)) + " mm"
}

func noMinusZero(s string) string {
	if strings.Trim(s, "+−0.") == "" {
		return strings.TrimLeft(s, "+−")
	}
	return s
}

// ballastValue words a quantity of the ballast table in its unit.
func ballastValue(unit string, x float64) string {
	switch unit {
	case "m":
		return number(1000*x, 1) + " mm"
	case "kg":
		return number(x, decimalsOfMass(x)) + " kg"
	}
	return figures(x, 4) + " " + unit
}

// decimalsOfMass: grams below a kilogram, hundredths of a kilogram from ten on.
func decimalsOfMass(x float64) int {
	if math.Abs(x) >= 10 {
		return 2
	}
	return 3
}
