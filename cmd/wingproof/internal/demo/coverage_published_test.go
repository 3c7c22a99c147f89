package demo

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"

	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog/rehearse"
)

// What programmes of published aircraft are told of their own errors, one standard deviation each, and what is drawn for them: those of the
// invented shop. The weather is that of a calm day: invented.
const (
	publishedMassSD    = 0.004 // relative
	publishedCGSD      = 0.003 // of the mean chord
	publishedInertiaSD = 0.02  // relative
	calmWind, windier  = 1.0, 3.0
	calmGusts, gustier = 0.1, 0.4
)

// otherDraws keeps the draws of this arm apart from those of the demo with the same seed.
const otherDraws = 1_000_000

// flyPublished is a programme of a model of a published aircraft, which takes its turn by seed: the truth comes from no lattice. One
// configuration, 4 to 6 flights at 2 or 3 CGs.
func flyPublished(dir string, seed uint64) ([]row, error) {
	all := rehearse.PublishedAircraft()
	one := all[int(seed)%len(all)]
	one.Aircraft.Propulsion.WindmillDrag = 0
	w := publishedProgramme{Published: one, seed: otherDraws + seed, dir: dir}
	if err := w.write(); err != nil {
		return nil, fmt.Errorf("%s: %w", one.Name, err)
	}
	p, s, err := fitted(dir)
	if err != nil {
		return nil, err
	}
	var out []row
	for _, f := range s.Fits {
		sh := w.errors(p)
		rows, err := rowsOf(reality{aircraft: one.Aircraft, cgOffset: sh.cgOffset, mass: sh.massScale, airspeed: sh.instruments.AirspeedScale}, s, f)
		if err != nil {
			return nil, err
		}
		for i := range rows {
			rows[i].Configuration = one.Name
		}
		out = append(out, rows...)
	}
	return out, nil
}

// publishedProgramme writes the folder of one programme.
type publishedProgramme struct {
	rehearse.Published
	seed uint64
	dir  string

	flights   int  // 0 draws 4 to 6
	alternate bool // each flight flies one half of the sheets of inputs, in turn
}

// errors are the draws that all flights share.
func (w publishedProgramme) errors(p *program.Program) shared {
	sh := drawShared(w.seed, p)
	sh.massScale = draw(w.seed, publishedMassSD, "scales", "mass")
	sh.cgOffset = draw(w.seed, publishedCGSD*w.Aircraft.Derivatives.Reference.MeanChord, "scales", "cg")
	return sh
}

// stations are the CGs, in the order of flights: 0.08 of the chord to either side of that of the set, and itself where there are three.
func (w publishedProgramme) stations() []float64 {
	rng := stream(w.seed, "plan")
	offsets := [][]float64{{-0.08, 0.08}, {-0.08, 0.08, 0}}[rng.IntN(2)]
	flights := 4 + rng.IntN(3)
	if w.flights > 0 {
		flights = w.flights
	}
	chord := w.Aircraft.Derivatives.Reference.MeanChord
	var out []float64
	for i := range flights {
		out = append(out, w.Aircraft.Derivatives.MomentPoint+offsets[i%len(offsets)]*chord)
	}
	return out
}

func (w publishedProgramme) write() error {
	if err := os.MkdirAll(filepath.Join(w.dir, "shape"), 0o755); err != nil {
		return err
	}
	files := w.geometry()
	files["program.toml"] = w.toml()
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(w.dir, filepath.FromSlash(name)), []byte(text), 0o644); err != nil {
			return err
		}
	}
	p, err := program.Load(w.dir)
	if err != nil {
		return err
	}
	sh := w.errors(p)
	if err := w.tables(p, sh); err != nil {
		return err
	}
	return w.logs(p, sh)
}

// cards are what each flight flies: all three sheets of a programme, a long day with one weighing.
func (w publishedProgramme) cards(flight int) []rehearse.Card {
	stall := w.Aircraft.StallSpeed(atmosphere.SeaLevelDensity)
	switch {
	case w.alternate && flight%2 == 0:
		return rehearse.TrimAndElevatorCards(stall)
	case w.alternate:
		return rehearse.LateralCards(stall)
	}
	cards := rehearse.TrimAndElevatorCards(stall)
	cards = append(cards, rehearse.LateralCards(stall)...)
	return append(cards, rehearse.SlowAndTurningCards(stall)...)
}

func (w publishedProgramme) weather(i int, vertical float64) rehearse.Weather {
	rng := stream(w.seed, "weather", fmt.Sprint(i))
	between := func(a, b float64) float64 { return a + (b-a)*rng.Float64() }
	out := rehearse.Weather{Pressure: math.Round(1013+6*rng.NormFloat64()) * 100, Temperature: 273.15 + math.Round(9+3*rng.NormFloat64()),
		WindSpeed: between(calmWind, windier), WindFrom: 2 * math.Pi * rng.Float64(), VerticalSD: vertical}
	out.Turbulence = between(calmGusts, gustier) / out.WindSpeed
	return out
}

func (w publishedProgramme) logs(p *program.Program, sh shared) error {
	if err := os.MkdirAll(filepath.Join(w.dir, "logs"), 0o755); err != nil {
		return err
	}
	for i, cg := range w.stations() {
		ac := w.Aircraft
		ac.CGX, ac.Servos = cg, sh.servos
		log, err := rehearse.Fly(ac, w.cards(i), w.weather(i, p.Model.Errors.VerticalAir), sh.instruments, stream(w.seed, "flight", fmt.Sprint(i)))
		if err != nil {
			return fmt.Errorf("flight %d: %w", i+1, err)
		}
		if err := writeLog(filepath.Join(w.dir, "logs", fmt.Sprintf("F%02d.csv", i+1)), "field-box", log); err != nil {
			return err
		}
	}
	return nil
}

// tables writes weighings.csv, with one weighing for each flight, and flights.csv.
func (w publishedProgramme) tables(p *program.Program, sh shared) error {
	b, ref, scale := w.Aircraft.Body, w.Aircraft.Derivatives.Reference, w.Aircraft.LengthRatio
	weighings := [][]string{{"weighing", "date", "mass_kg", "mass_sd_kg", "cg_x_mm", "cg_x_sd_mm", "cg_z_mm", "cg_z_sd_mm", "ix_kg_m2", "ix_sd_kg_m2", "iy_kg_m2", "iy_sd_kg_m2", "iz_kg_m2", "iz_sd_kg_m2", "ixz_kg_m2"}}
	flights := [][]string{{"flight", "date", "log", "logger", "weighing", "pressure_hpa", "temperature_c", "use"}}
	for i, cg := range w.stations() {
		name := fmt.Sprintf("F%02d", i+1)
		row := []string{"before " + name, "2026-05-01", decimals(b.Mass*(1+sh.massScale), 4), decimals(b.Mass*publishedMassSD, 4),
			decimals((cg+sh.cgOffset)*scale*1000, 2), decimals(publishedCGSD*ref.MeanChord*scale*1000, 3), "0", "2"}
		for k, of := range [...]float64{b.Ix, b.Iy, b.Iz} {
			row = append(row, decimals(of*(1+sh.inertiaScale[k]), 5), decimals(of*publishedInertiaSD, 5))
		}
		weighings = append(weighings, append(row, decimals(b.Ixz, 5)))
		air := w.weather(i, 0)
		flights = append(flights, []string{name, "2026-05-01", "logs/" + name + ".csv", "field-box", "before " + name,
			decimals(air.Pressure/100, 0), decimals(air.Temperature-273.15, 0), "yes"})
	}
	for file, rows := range map[string][][]string{"weighings.csv": weighings, "flights.csv": flights} {
		text, err := table(rows)
		if err != nil {
			return err
		}
		if err := os.WriteFile(filepath.Join(w.dir, file), text, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// geometry is a plain wing of the set's area and span with its elevator on the trailing edge and a fin behind, so that the lattice has something to
// solve: no role is that of a tail. The fits take nothing of it but the declared reference.
func (w publishedProgramme) geometry() map[string]string {
	ref := w.Aircraft.Derivatives.Reference
	millimetres := func(x float64) string { return decimals(1000*x, 1) }
	station := func(n int, x, y, z, chord float64) string {
		return strings.Join([]string{fmt.Sprint(n), millimetres(x), millimetres(y), millimetres(z), millimetres(x + chord), millimetres(y), millimetres(z), "plain"}, ",") + "\n"
	}
	const head = "station,le_x_mm,le_y_mm,le_z_mm,te_x_mm,te_y_mm,te_z_mm,aerofoil\n"
	chord := ref.Area / ref.Span
	tail := 3.1 * chord // where a fin stands
	return map[string]string{
		"shape/wing.csv": head + station(1, 0, 0, 0, chord) + station(2, 0, 0.3*ref.Span, 0, chord) + station(3, 0, 0.5*ref.Span, 0, chord),
		"shape/fin.csv":  head + station(1, tail, 0, 0.7, 0.8*chord) + station(2, tail+0.3, 0, 2.2, 0.5*chord),
	}
}

func (w publishedProgramme) toml() string {
	ref := w.Aircraft.Derivatives.Reference
	degrees := func(x float64) float64 { return x * 180 / math.Pi }
	var b strings.Builder
	linef := func(format string, parts ...any) { fmt.Fprintf(&b, format+"\n", parts...) }
	linef("format = 1\nname = %q\ncautions_read = \"study\"\nseed = %d\ndate_order = \"year_first\"", "model of "+w.Name, w.seed)
	linef("[model]\nlength_ratio = %g\nweighings = \"weighings.csv\"\ntest_altitude_m = 0", w.Aircraft.LengthRatio)
	linef("[model.errors]\nairspeed_scale_percent = 1\ndensity_percent = 0.5\nalpha_deg = 0.3\nelevator_deg = 0.2\nelevator_scale_percent = 2")
	linef("aileron_scale_percent = 2\nrudder_scale_percent = 2\nvertical_air_m_s = 0.12")
	linef("[full_size]\nmass_kg = { value = %.1f, sd = 5, status = \"weighed\", source = \"published\" }", w.Body.Mass)
	linef("empty_mass_kg = { value = %.1f, sd = 5, status = \"weighed\", source = \"published\" }", 0.7*w.Body.Mass)
	linef("empty_cg_x_m = { value = %.4f, sd = 0.01, status = \"weighed\", source = \"published\" }", w.Aircraft.Derivatives.MomentPoint)
	linef("empty_cg_z_m = { value = 0, sd = 0.01, status = \"weighed\", source = \"published\" }")
	linef("cruise = { speed_m_s = %.3f, altitude_m = 0 }\nlimit_load_factor = 3.8", w.Condition.Speed)
	linef("[reference]\narea_m2 = %.6f\nspan_m = %.6f\nmean_aerodynamic_chord_m = %.6f\nmean_aerodynamic_chord_leading_edge_x_m = 0", ref.Area, ref.Span, ref.MeanChord)
	linef("[[lifting_surface]]\nname = \"wing\"\nrole = \"wing\"\nstations = \"shape/wing.csv\"")
	linef("hinges = [{ control = \"elevator\", from_station = 1, to_station = 2, hinge_chord_percent = 75, travel_deg = [%g, %g] }, %s]",
		degrees(w.Aircraft.Elevator.Min), degrees(w.Aircraft.Elevator.Max), "{ control = \"aileron\", from_station = 2, to_station = 3, hinge_chord_percent = 75, travel_deg = [-25, 25] }")
	linef("[[lifting_surface]]\nname = \"fin\"\nrole = \"fin\"\nmirrored = false\nstations = \"shape/fin.csv\"")
	linef("hinges = [{ control = \"rudder\", from_station = 1, to_station = 2, hinge_chord_percent = 60, travel_deg = [-25, 25] }]")
	linef("[[aerofoil]]\nname = \"plain\"\nnaca = \"0012\"")
	for _, control := range [...]string{stability.Elevator, "aileron", "rudder"} {
		v := w.Aircraft.Servo
		linef("[servo.%s]\ndelay_ms = %g\nlag_ms = %g\nrate_deg_s = %.2f\nlag_sd_ms = 4\nsource = \"bench test\"", control, 1000*v.Delay, 1000*v.Lag, degrees(v.Rate))
	}
	content, err := scenario.ReadFile("scenario/" + program.ProgramFile)
	if err != nil {
		return b.String()
	}
	_, logger, _ := strings.Cut(string(content), "[logger.field-box]")
	logger, _, _ = strings.Cut(logger, "[logger.spare-box]")
	linef("[logger.field-box]%s", logger)
	return b.String()
}
