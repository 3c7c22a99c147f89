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
	"slices"
	"strconv"
	"strings"
	"sync"

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
// progress (which may be nil) as it goes on. Nothing is left behind when it fails or is interrupted.
func Write(ctx context.Context, dir, truth string, seed uint64, progress func(done, total int, what string)) (err error) {
	absent, err := refuseNonEmpty(dir)
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, cleared(dir, absent))
		}
	}()
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

func refuseNonEmpty(dir string) (absent bool, err error) {
	entries, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return true, nil
	}
	if err != nil {
		return false, fmt.Errorf("look into %s: %w", dir, err)
	}
	if len(entries) > 0 {
		return false, fmt.Errorf("%s: %w; name another with --dir, or empty this one yourself", dir, ErrNotEmpty)
	}
	return false, nil
}

// cleared takes a half-written folder away: what was written into it, and the folder itself where it was absent.
func cleared(dir string, absent bool) error {
	if absent {
		return os.RemoveAll(dir)
	}
	entries, err := os.ReadDir(dir)
	for _, entry := range entries {
		err = errors.Join(err, os.RemoveAll(filepath.Join(dir, entry.Name())))
	}
	return err
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
		if rel == program.ProgramFile {
			before, after, ok := bytes.Cut(content, []byte("\nseed = 1"))
			if !ok {
				return fmt.Errorf("the embedded %s holds no line seed = 1", rel)
			}
			content = slices.Concat(before, []byte("\nseed = "+strconv.FormatUint(seed, 10)), after)
		}
		return os.WriteFile(target, content, 0o644)
	})
}

// predicted is the study of a program without its flights, which holds the model's greatest lifts as well: those are worked out for limits on
// slow flight only, when these are judged.
func predicted(ctx context.Context, p *program.Program) (*study.Study, error) {
	unflown := *p
	unflown.Flights, unflown.Parts = nil, nil
	st, err := study.Run(ctx, &unflown, study.Options{Until: study.Judged})
	if err != nil {
		return nil, err
	}
	for _, c := range st.Configurations {
		if len(c.FullSize.ModelLifts) < 2 {
			return nil, fmt.Errorf("%s: the greatest lift of the model is not predicted at two CGs: %s", c.Name, strings.Join(c.FullSize.Missing, "; "))
		}
	}
	return st, nil
}

// truthsOf draws the truth of every configuration.
func truthsOf(ctx context.Context, p *program.Program, seed uint64) ([]configurationTruth, error) {
	st, err := predicted(ctx, p)
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
	tell := counted(len(sorties), progress)
	group, ctx := errgroup.WithContext(ctx)
	group.SetLimit(runtime.GOMAXPROCS(0))
	for _, s := range sorties {
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
			if err := writeLog(filepath.Join(dir, "logs", s.name+".csv"), s.logger, log); err != nil {
				return err
			}
			tell()
			return nil
		})
	}
	return group.Wait()
}

// counted returns a function that tells that one more flight of total is done; the count never falls.
func counted(total int, progress func(done, total int, what string)) func() {
	var mu sync.Mutex
	done := 0
	return func() {
		mu.Lock()
		defer mu.Unlock()
		done++
		if progress != nil {
			progress(done, total, "flying the model (simulated)")
		}
	}
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
