package identify

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/blas/blas64"

	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
)

// plainly leaves rows as they are.
type plainly struct{}

func (plainly) begin(int, int)        {}
func (plainly) whiten(int, []float64) {}

// placed is a fit of a study flight that stands at its starting values.
func placed(t *testing.T, axis Axis) *iteration {
	segments, ac := studySegments(t, axis, 0.3, 25, 3)
	setup := setupOf(ac)
	g, err := gather(segments, axis, setup)
	require.NoError(t, err)
	var used []*Segment
	for i := range g.segments {
		used = append(used, g.segments[i].segment)
	}
	it := newIteration(newProblem(used, axis, &setup))
	require.NoError(t, it.begin())
	return it
}

// Sensitivities that are carried along a motion, against the motion of parameters to both sides.
func TestSensitivitiesAgainstDifferences(t *testing.T) {
	for _, axis := range []Axis{Longitudinal, Lateral} {
		it := placed(t, axis)
		p := it.p
		it.linearise(plainly{})
		up, down := newModelled(p), newModelled(p)
		for j := range p.commons() {
			h := 1e-4 * math.Max(0.1, math.Abs(p.common[j]))
			was := p.common[j]
			p.common[j] = was + h
			p.place()
			require.True(t, p.fly(&up))
			p.common[j] = was - h
			p.place()
			require.True(t, p.fly(&down))
			p.common[j] = was
			for i := range p.tracks {
				row := it.rows[i].row(j)
				require.Equal(t, it.residuals[i], it.rows[i].residuals())
				size := blas64.Nrm2(blas64.Vector{N: len(row), Data: row, Inc: 1})
				away := 0.0
				for k, s := range row {
					away = math.Hypot(away, s+(up.residuals[i][k]-down.residuals[i][k])/(2*h)) // a residual falls as its output rises
				}
				require.LessOrEqual(t, away, 2e-3*size, "%s, parameter %d, segment %d", axis, j, i)
			}
		}
	}
}

// The sums of products in blocks of columns, against the plain ones.
func TestNormalEquationsAgainstPlainSums(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 1))
	const samples, outputs, width = 101, 4, 6
	var w whitened
	w.shape(width, samples*outputs)
	var want [width][width]float64
	change, against := make([]float64, samples*outputs), make([]float64, width-1)
	for k := range samples {
		rows := make([]float64, outputs*width)
		for i := range rows {
			rows[i] = rng.NormFloat64()
		}
		w.put(k, outputs, rows)
		for o := range outputs {
			row := rows[o*width : (o+1)*width]
			c := rng.NormFloat64()
			change[k*outputs+o] = c
			for a := range width {
				for b := range width {
					want[a][b] += row[a] * row[b]
				}
			}
			for a := range against {
				against[a] += row[a] * c
			}
		}
	}
	normal := w.normal([]float64{7: 1e9})
	for a := range width {
		require.InDeltaSlice(t, want[a][a:], normal[a*width+a:(a+1)*width], 1e-10)
	}
	require.InDeltaSlice(t, against, w.against(change), 1e-10)
}

// A track of which only constants differ shares its record, and flies as one that is prepared from the start.
func TestOtherFiguresShareTheRecord(t *testing.T) {
	for _, axis := range []Axis{Longitudinal, Lateral} {
		it := placed(t, axis)
		p := it.p
		shifts := map[string]reported{}
		for name, move := range map[string]func(*reported){
			"mass": func(r *reported) { r.mass = 1.05 }, "cg": func(r *reported) { r.cg = 0.01 }, "inertia": func(r *reported) { r.inertiaX, r.inertiaZ = 1.1, 0.9 },
			"airspeed": func(r *reported) { r.airspeed = 1.02 }, "mounting": func(r *reported) { r.mounting = 0.01 }, "rudder": func(r *reported) { r.rudder = 1.1 },
		} {
			r := asReported()
			move(&r)
			shifts[name] = r
		}
		for name, r := range shifts {
			e := shifted{reported: r}
			fast, plain := *p, *p
			fast.tracks, plain.tracks = nil, nil
			for _, track := range p.tracks {
				fast.tracks = append(fast.tracks, track.as(e, p.layout, p.setup))
				from := newTrack(track.segment, p.layout, p.setup, e)
				from.own, from.mean, from.sd = track.own, track.mean, track.sd
				from.keep(track)
				plain.tracks = append(plain.tracks, from)
			}
			require.Equal(t, name == "mass" || name == "cg" || name == "inertia", &fast.tracks[0].inputs[0] == &p.tracks[0].inputs[0], name)
			got, want := newModelled(&fast), newModelled(&plain)
			fast.place()
			require.True(t, fast.fly(&got))
			plain.place()
			require.True(t, plain.fly(&want))
			require.Equal(t, want, got, name)
			again := newModelled(p)
			p.place()
			require.True(t, p.fly(&again))
			require.Equal(t, it.modelled, again, "what is shared is not changed")
		}
	}
}

// A step that does not help leaves the fit where it was, with the motion that belongs there.
func TestBackToAPoint(t *testing.T) {
	it := placed(t, Longitudinal)
	p, from := it.p, it.p.point()
	for j := range p.common {
		p.common[j] *= 1.1
	}
	p.tracks[0].own[p.layout.edge()] += 0.004
	p.place()
	p.set(from)
	again := newModelled(p)
	require.True(t, p.fly(&again))
	require.Equal(t, it.modelled, again)
}

// The lateral rates by the coefficients as books have them, against the accelerations that set works out once.
func TestLateralRatesAgainstCoefficients(t *testing.T) {
	const g = atmosphere.Gravity
	b := stability.Body{Mass: 15, Ix: 1.2, Iy: 1.3, Iz: 2.3, Ixz: 0.15}
	m := &lateral{body: b, force: 0.03, span: 2.15, x: 0.05, z: -0.03, aileron: 0.01, rudder: -0.02}
	c := []float64{-0.55, -0.05, 0.25, 0.01, 0.12, -0.09, -0.45, 0.12, 0.15, 0.01, 0.06, -0.04, -0.13, -0.01, -0.05}
	own := []float64{0.01, 0.002, -0.003, 0.3, -0.2}
	m.set(c, own)
	x, q, pitch, v, u, w := state{1.5, 0.5, -0.3, 0.4}, 0.3, 0.12, 20.0, 19.8, 2.0
	in := instant{0.05, 0.1, v, u, w, q, g * math.Cos(pitch), math.Tan(pitch)}
	beta := math.Asin(x[0]/v) + (x[1]*m.z-x[2]*m.x)/math.Sqrt(v*v-x[0]*x[0])
	terms := []float64{beta, x[1] * m.span / (2 * v), x[2] * m.span / (2 * v), in[inAileron] - m.aileron, in[inRudder] - m.rudder}
	coefficient := func(k int) float64 {
		sum := own[k]
		for i, term := range terms {
			sum += c[5*k+i] * term
		}
		return sum
	}
	pressure := m.force * v * v * b.Mass
	side := pressure * coefficient(0)
	p, r := x[1], x[2]
	roll := pressure*m.span*coefficient(1) + m.z*side + (b.Iy-b.Iz)*q*r + b.Ixz*p*q
	yaw := pressure*m.span*coefficient(2) - m.x*side + (b.Ix-b.Iy)*p*q - b.Ixz*q*r
	determinant := b.Ix*b.Iz - b.Ixz*b.Ixz
	want := []float64{
		side/b.Mass + p*(w+own[downError]) - r*(u+own[forwardError]) + g*math.Cos(pitch)*math.Sin(x[3]),
		(b.Iz*roll + b.Ixz*yaw) / determinant,
		(b.Ixz*roll + b.Ix*yaw) / determinant,
		p + math.Tan(pitch)*(q*math.Sin(x[3])+r*math.Cos(x[3])),
	}
	var got state
	m.rate(&x, &in, &got)
	require.InDeltaSlice(t, want, got[:], 1e-12)
	y := m.outputs(&x, &in)
	require.InDelta(t, side/b.Mass, y[2], 1e-12)
}
