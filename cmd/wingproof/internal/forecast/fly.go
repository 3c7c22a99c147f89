package forecast

import (
	"bytes"
	"context"
	"errors"
	"fmt"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// sortie is one planned flight made ready.
type sortie struct {
	Planned
	name          string
	configuration study.Configuration
	row           program.Flight // as it would stand in flights.csv
	logger        flightlog.Map
	stated        bool // the program has that logger
	rates         rates
	cards         []rehearse.Card
}

// flown is what a rehearsed flight gave.
type flown struct {
	study.Flight
	seconds float64
}

// fly flies, writes, reads and reduces one flight. The recording is that of a file: rounded, in columns, read through a map.
func (r *rehearsal) fly(ctx context.Context, s sortie) (flown, error) {
	if err := ctx.Err(); err != nil {
		return flown{}, err
	}
	body := r.scales.body
	body.Mass /= 1 + r.shared.mass
	body.Ix, body.Iy, body.Iz = body.Ix/(1+r.shared.inertia[0]), body.Iy/(1+r.shared.inertia[1]), body.Iz/(1+r.shared.inertia[2])
	ac, err := r.model(s.configuration, s.CG-r.shared.cg, r.scales.cgZ, body)
	if err != nil {
		return flown{}, err
	}
	weather := r.weather(s.name)
	log, err := rehearse.Fly(ac, s.cards, weather, r.shared.recorder(s.logger, s.rates), r.stream("flight", s.name))
	if err != nil {
		return flown{}, refused(s, err)
	}
	row := s.row
	row.Pressure, row.Temperature = weather.Pressure, weather.Temperature
	recording, err := r.read(log, s)
	if err != nil {
		return flown{}, err
	}
	out := flown{Flight: study.Flight{Flight: row}, seconds: log.Time[len(log.Time)-1]}
	if out.Reduction, out.Why, err = study.ReduceLog(r.program, row, recording); err != nil {
		return flown{}, err
	}
	out.Used = out.Why == ""
	return out, nil
}

// read writes the log and reads it again.
func (r *rehearsal) read(log rehearse.Log, s sortie) (*flightlog.Recording, error) {
	var dialect rehearse.Dialect
	m, err := mapOf(log, dialect, s.logger, s.stated)
	if err != nil {
		return nil, err
	}
	var file bytes.Buffer
	if err := log.WriteCSV(&file, dialect); err != nil {
		return nil, err
	}
	recording, err := flightlog.Read(bytes.NewReader(file.Bytes()), s.name, m)
	if err != nil {
		return nil, fmt.Errorf("%s: read the rehearsed log: %w", s.name, err)
	}
	return recording, nil
}

// refused says what the simulated pilot could not fly.
func refused(s sortie, err error) error {
	if errors.Is(err, rehearse.ErrGround) {
		return &study.InputError{What: fmt.Sprintf("the simulated pilot could not fly %s with the CG at %.3f m (%v)", evidence.Name(s.Levels), s.CG, err),
			Right: "choose a CG further forward or faster cards"}
	}
	return fmt.Errorf("%s: %w", s.name, err)
}
