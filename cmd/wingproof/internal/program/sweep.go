package program

import (
	"errors"
	"strings"

	"wingproof/aero"
	"wingproof/flightlog/unit"
)

// Size is a size of one surface that a command may sweep over a range, named as program.toml names it:
// surface, point, key with its unit, such as winglet.height_m, foreplane.span_ft or winglet.cant_deg.
type Size struct {
	Key     string // as given, with the surface as the program writes it
	Surface string
	Name    string // without surface and unit: height
	Unit    string // suffix of the unit: m; empty for chord_scale, a plain factor

	unit unit.Unit
	size editSize
}

// EditOf reads the name of a size. It does not know which surfaces there are: Program.EditOf does.
//
// An error says what is wrong with the name and lists the sizes that can be swept.
func EditOf(key string) (Size, error) {
	cut := strings.LastIndex(key, ".")
	if cut < 0 {
		return Size{}, errors.New("the size " + quoted(key) + " does not say of which surface; write SURFACE.SIZE, such as winglet.height_m; sizes are " + listed(sizeKeys()))
	}
	surface, name := strings.TrimSpace(key[:cut]), strings.TrimSpace(key[cut+1:])
	if surface == "" {
		return Size{}, errors.New("the size " + quoted(key) + " names no surface; write SURFACE.SIZE, such as winglet." + name)
	}
	for _, size := range editSizes() {
		u, how := size.measure.match(name)
		switch how {
		case rightly:
			return Size{Key: surface + "." + name, Surface: surface, Name: size.measure.stem, Unit: u.Name, unit: u, size: size}, nil
		case withoutUnit, wrongUnit:
			what, right := size.measure.unitMistake(name, how)
			return Size{}, errors.New("the size " + quoted(key) + ": " + what + "; " + right)
		}
	}
	right := "sizes that can be swept are " + listed(sizeKeys())
	if best, ok := nearest(name, sizeKeys()); ok {
		right = "did you mean " + surface + "." + best + "? " + right
	}
	return Size{}, errors.New("there is no size " + quoted(name) + " of a surface; " + right)
}

// EditOf reads the name of a size of one of the program's surfaces. A surface is found whatever its letter
// case and with underscores for spaces. An error lists the sizes that this geometry lets be swept.
func (p *Program) EditOf(key string) (Size, error) {
	size, err := EditOf(key)
	if err != nil {
		return Size{}, errors.New(err.Error() + "; here: " + strings.Join(p.Sizes(), ", "))
	}
	names := namesOf(p.Surfaces, func(s aero.Surface) string { return s.Name })
	surface, ok := known(size.Surface, names)
	if !ok {
		return Size{}, errors.New("there is no lifting surface " + quoted(size.Surface) + "; " + suggest(size.Surface, names, "lifting surface") +
			"; sizes that can be swept here are " + strings.Join(p.Sizes(), ", "))
	}
	size.Key = surface + strings.TrimPrefix(size.Key, size.Surface)
	size.Surface = surface
	return size, nil
}

// Sizes lists the sizes that the baseline's surfaces can be swept in, in the usual units: in the order of
// the surfaces, each only where it means something (a height needs an extent in z, a toe an upright surface). A
// surface that is joined to another is not moved away from it.
func (p *Program) Sizes() []string {
	var out []string
	for _, s := range p.Surfaces {
		for _, size := range editSizes() {
			moves := strings.HasPrefix(size.measure.stem, "move_")
			if _, ok := size.now(s); ok && !(moves && s.Joins != "") {
				out = append(out, s.Name+"."+size.measure.name())
			}
		}
	}
	return out
}

func sizeKeys() []string {
	var out []string
	for _, size := range editSizes() {
		out = append(out, size.measure.name())
	}
	return out
}

// Edit is the edit that gives the surface this size: a number in the size's own unit becomes SI. An error
// says which numbers program.toml takes here.
func (s Size) Edit(written float64) (Edit, error) {
	si, what, right := s.size.measure.convert(written, s.unit, s.Key)
	if what != "" {
		return Edit{}, errors.New(what + "; " + right)
	}
	e := Edit{Surface: s.Surface}
	*s.size.field(&e) = &si
	return e, nil
}

// Now is the size as it stands in an airframe, in the size's own unit, where a sweep may mark it; ok is
// false when the surface is not there or has no such size. Factors stand at 1 and shifts at 0.
func (s Size) Now(a aero.Airframe) (written float64, ok bool) {
	for _, surface := range a.Surfaces {
		if surface.Name != s.Surface || len(surface.Stations) < 2 {
			continue
		}
		si, ok := s.size.now(surface)
		return s.unit.From(si), ok
	}
	return 0, false
}

// ParseEdit is the edit of one size: surface, key as program.toml writes it (height_m) and the number in
// that unit.
func ParseEdit(surface, key string, written float64) (Edit, error) {
	size, err := EditOf(surface + "." + key)
	if err != nil {
		return Edit{}, err
	}
	return size.Edit(written)
}
