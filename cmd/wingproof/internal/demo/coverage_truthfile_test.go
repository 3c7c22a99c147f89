package demo

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
)

// The truth file says what the study of coverage compares with.
func TestTruthFileHoldsTheTruthOfTheStudy(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, writeScenario(dir, 3))
	p, err := program.Load(dir)
	require.NoError(t, err)
	s, err := study.Run(context.Background(), p, study.Options{Until: study.Predicted})
	require.NoError(t, err)
	truths, err := truthsOf(context.Background(), p, 3)
	require.NoError(t, err)
	path := filepath.Join(dir, "truth.json")
	require.NoError(t, writeTruth(path, 3, drawShared(3, p), truths))
	content, err := os.ReadFile(path)
	require.NoError(t, err)
	var file struct {
		Configurations []struct {
			Configuration string             `json:"configuration"`
			NeutralPoint  float64            `json:"neutral_point_m"`
			Along         map[string]float64 `json:"derivatives_about_reference_cg"`
			Across        map[string]float64 `json:"derivatives_about_directional_stiffness_cg"`
		} `json:"configurations"`
	}
	require.NoError(t, json.Unmarshal(content, &file))
	for _, c := range file.Configurations {
		r, err := demoReality(p, truths, 3, c.Configuration)
		require.NoError(t, err)
		first := s.Configurations[0]
		all := r.derivatives(s.ReferenceCG, first.StiffnessCG, first.Derivatives.MomentZ, 1.2)
		for quantity, want := range c.Along {
			require.InDelta(t, want, all[quantity], 1e-9, quantity)
		}
		for _, quantity := range []string{"side_force_slope", "roll_damping", "directional_stiffness", "aileron_power"} {
			require.InDelta(t, c.Across[quantity], all[quantity], 1e-9, quantity)
		}
		require.InDelta(t, 2*c.Across["rudder_power"], all["rudder_power"], 1e-9)
		x, err := r.neutralPoint()
		require.NoError(t, err)
		require.InDelta(t, c.NeutralPoint, x, 0.003, "where the moment is flat about itself, and by textbook about the reference CG")
	}
}
