package demo

import (
	"bytes"
	"context"
	"embed"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strconv"

	"golang.org/x/sync/errgroup"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
)

//go:embed scenario
var scenario embed.FS

// ErrNotEmpty says that the folder holds something already.
var ErrNotEmpty = errors.New("the folder is not empty")

// truthFile is what was really true, for whoever wants to compare afterwards.
type truthFile struct {
	Note           string               `json:"note"`
	Seed           uint64               `json:"seed"`
	ReferenceCG    float64              `json:"reference_cg_m"`
	AirspeedScale  float64              `json:"airspeed_scale_error"`
	Boresight      float64              `json:"alpha_error_rad"`
	ElevatorScale  float64              `json:"elevator_scale_error"`
	CGOffset       float64              `json:"cg_error_m"`
	MassScale      float64              `json:"mass_error"`
	Configurations []configurationTruth `json:"configurations"`
}

// Write makes the program folder dir, which must be empty or absent, and the truth file. It calls
// progress (which may be nil) as it goes on.
func Write(ctx context.Context, dir, truth string, seed uint64, progress func(done, total int, what string)) error {
	if err := refuseNonEmpty(dir); err != nil {
		return err
	}
	if err := writeScenario(dir, seed); err != nil {
		return err
	}
	p, err := program.Load(dir)
	if err != nil {
		return fmt.Errorf("the embedded scenario: %w", err)
	}
	truths, err := truthsOf(ctx, p, seed)
	if err != nil {
		return err
	}
	sh := drawShared(seed, p)
	if err := writeTables(dir, p, seed, sh); err != nil {
		return err
	}
	if err := writeLogs(ctx, dir, p, seed, sh, truths, progress); err != nil {
		return err
	}
	return writeTruth(truth, seed, sh, truths)
}

func refuseNonEmpty(dir string) error {
	entries, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return fmt.Errorf("look into %s: %w", dir, err)
	}
	if len(entries) > 0 {
		return fmt.Errorf("%s: %w; name another with --dir, or empty this one yourself", dir, ErrNotEmpty)
	}
	return nil
}

// writeScenario copies the embedded files, with the seed in program.toml.
func writeScenario(dir string, seed uint64) error {
	return fs.WalkDir(scenario, "scenario", func(path string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel("scenario", filepath.FromSlash(path))
		if err != nil {
			return err
		}
		target := filepath.Join(dir, rel)
		if entry.IsDir() {
			return os.MkdirAll(target, 0o755)
		}
		content, err := scenario.ReadFile(path)
		if err != nil {
			return err
		}
		if rel == "program.toml" {
			content = bytes.Replace(content, []byte("\nseed = 1\n"), []byte("\nseed = "+strconv.FormatUint(seed, 10)+"\n"), 1)
		}
		return os.WriteFile(target, content, 0o644)
	})
}

// truthsOf draws the truth of every configuration.
func truthsOf(ctx context.Context, p *program.Program, seed uint64) ([]configurationTruth, error) {
	st, err := study.Run(ctx, p, study.Options{Until: study.Predicted})
	if err != nil {
		return nil, err
	}
	errors := study.TheoryErrors(p, st.Configurations[0].Airframe.Reference.MeanChord)
	truths := make([]configurationTruth, len(st.Configurations))
	for i, c := range st.Configurations {
		truths[i] = truthOf(seed, c, errors)
	}
	return truths, nil
}

func writeTables(dir string, p *program.Program, seed uint64, sh shared) error {
	weighed, err := weighings(p, sh)
	if err != nil {
		return err
	}
	flown, err := flights(seed)
	if err != nil {
		return err
	}
	if err := os.WriteFile(filepath.Join(dir, "weighings.csv"), weighed, 0o644); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, "flights.csv"), flown, 0o644)
}

// writeLogs flies the season, one flight to a processor at a time.
func writeLogs(ctx context.Context, dir string, p *program.Program, seed uint64, sh shared, truths []configurationTruth, progress func(int, int, string)) error {
	if err := os.MkdirAll(filepath.Join(dir, "logs"), 0o755); err != nil {
		return err
	}
	sorties := season()
	group, ctx := errgroup.WithContext(ctx)
	group.SetLimit(runtime.GOMAXPROCS(0))
	for i, s := range sorties {
		group.Go(func() error {
			if err := ctx.Err(); err != nil {
				return err
			}
			t, err := truthNamed(truths, map[string]string{"winglet": s.winglet, "foreplane": s.foreplane})
			if err != nil {
				return err
			}
			log, err := fly(seed, s, t, p, sh)
			if err != nil {
				return err
			}
			if progress != nil {
				progress(i+1, len(sorties), "flying the model (simulated)")
			}
			return writeLog(filepath.Join(dir, "logs", s.name+".csv"), s.logger, log)
		})
	}
	return group.Wait()
}

func truthNamed(truths []configurationTruth, levels map[string]string) (configurationTruth, error) {
	for _, t := range truths {
		if t.Configuration == evidence.Name(levels) {
			return t, nil
		}
	}
	return configurationTruth{}, fmt.Errorf("the season flies %s, which the scenario does not have", evidence.Name(levels))
}

func writeTruth(path string, seed uint64, sh shared, truths []configurationTruth) error {
	content, err := json.MarshalIndent(truthFile{
		Note: "What was really true of the invented flights, at model scale. No command reads this file.",
		Seed: seed, ReferenceCG: truths[0].derivatives.MomentPoint, AirspeedScale: sh.instruments.AirspeedScale, Boresight: sh.instruments.Boresight,
		ElevatorScale: sh.instruments.ElevatorScale, CGOffset: sh.cgOffset, MassScale: sh.massScale, Configurations: truths,
	}, "", "  ")
	if err != nil {
		return err
	}
	return os.WriteFile(path, append(content, '\n'), 0o644)
}
