package prediction

import (
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero/loads"
	"wingproof/cmd/wingproof/internal/program"
)

// loadCorner is one weight and CG that is flown, with the tanks along the surfaces that hold fuel in it.
type loadCorner struct {
	loads.Loading
	tanks []program.Item
}

// corners are the weights and CGs that are flown: the gross mass first, then every loading that flies, as it is
// stated and with the tanks along its surfaces run dry. Where no speed, no gust and no such tank is stated, a lighter loading
// flies with the load shape of the gross mass and bears less: then the gross mass is all.
func (f *loadFlier) corners() []loadCorner {
	var out []loadCorner
	full := f.program.FullSize
	if full.EmptyMass.Value > 0 {
		for _, l := range FlyingLoadings(f.program) {
			with := loaded(full, l, true)
			out = append(out, with)
			if len(with.tanks) > 0 {
				out = append(out, loaded(full, l, false))
				f.tanked, f.made = true, f.made || with.Mass >= full.Mass.Value-full.Mass.SD
			}
		}
	}
	switch {
	case f.made:
		return out
	case full.ManoeuvreSpeed == 0 && len(f.statedGusts()) == 0 && !f.tanked:
		return f.gross()
	}
	return append(f.gross(), out...)
}

// gross is the gross mass at the foremost and at the aftmost CG, without fuel along the surfaces.
func (f *loadFlier) gross() []loadCorner {
	at := func(name string, x float64) loadCorner {
		return loadCorner{Loading: loads.Loading{Name: name, Mass: f.program.FullSize.Mass.Value, CG: r3.Vec{X: x, Z: f.setup.CG.Z}}}
	}
	forward, aft, ok := LoadedRange(f.program)
	switch {
	case !ok:
		return []loadCorner{at("gross mass", f.setup.CG.X)}
	case forward == aft:
		return []loadCorner{at("gross mass", aft)}
	}
	return []loadCorner{at("gross mass at the aftmost CG", aft), at("gross mass at the foremost CG", forward)}
}

// loaded is the empty aircraft with a loading: with the fuel along its surfaces, or with those tanks run dry.
func loaded(full program.FullSize, l program.Loading, wet bool) loadCorner {
	out := loadCorner{Loading: loads.Loading{Name: l.Name, Mass: full.EmptyMass.Value}}
	moment := r3.Scale(out.Mass, r3.Vec{X: full.EmptyX.Value, Z: full.EmptyZ.Value})
	for _, item := range l.Items {
		tank := item.SpanTo > item.SpanFrom
		if tank && !wet {
			continue
		}
		if tank && item.Mass > 0 {
			out.tanks = append(out.tanks, item)
		}
		out.Mass += item.Mass
		moment = r3.Add(moment, r3.Scale(item.Mass, r3.Vec{X: item.X, Z: item.Z}))
	}
	if !wet {
		out.Name += " (tanks dry)"
	}
	out.FuelFull = len(out.tanks) > 0
	out.CG = r3.Scale(1/out.Mass, moment)
	return out
}
