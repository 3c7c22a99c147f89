package identify

// Sizes of the models below; both axes have four states.
const (
	states       = 4
	coefficients = 4 // three of the air, and what else is linear in its parameters
	mostOutputs  = 5
	mostInputs   = 8
	mostTerms    = 7 // regressors of one coefficient
	mostSurfaces = 2
	mostGusts    = 2
)

// state of the motion: speed in the plane of symmetry, α, q, θ; or side velocity, p, r, φ.
type state [states]float64

// instant holds the known inputs at one time: surfaces first, then what was measured of the other axis.
type instant [mostInputs]float64

// linearised is a model about one state: ẋ = f(x, c), y = h(x, c) with the three coefficients c between them. Only what a model
// fills in means anything.
type linearised struct {
	byState  [states]state       // ∂f_i/∂x_j at [i][j], coefficients following the state
	byForce  [coefficients]state // ∂f/∂c
	out      [mostOutputs]float64
	outState [mostOutputs]state
	outForce [coefficients][mostOutputs]float64
	terms    [coefficients][mostTerms]float64    // the regressors: c = Σ parameter·term
	surface  [mostSurfaces][coefficients]float64 // ∂c/∂surface
	gust     [mostGusts]state                    // ∂f/∂(gust velocity), flow changed and path not
	outGust  [mostGusts][mostOutputs]float64
	byInput  state // ∂f/∂(the input that is noisy)
}

// plant is the motion of one segment for one set of parameters.
type plant interface {
	// set takes parameters, common ones and the segment's own constants; to be called again when one of them has changed.
	set(common, own []float64)
	// rate is ẋ.
	rate(x *state, in *instant, dx *state)
	// outputs are y.
	outputs(x *state, in *instant) [mostOutputs]float64
	// linearise fills in the derivatives of the rates about one state, with regressors and surfaces.
	linearise(x *state, in *instant, l *linearised)
	// observe fills in the outputs and their derivatives, with regressors and surfaces.
	observe(x *state, in *instant, l *linearised)
}

// term says which regressor of which coefficient a parameter multiplies.
type term struct{ coefficient, regressor int }

// layout names the parameters of an axis and their order: first the common ones, then those of each segment.
type layout struct {
	axis     Axis
	names    []string // quantities that are given, a prefix of the common parameters
	common   []term
	constant []term  // own: the zero terms
	known    []prior // what is known beforehand of the common parameters
	outputs  []outputChannel
	biased   []int // outputs with an own bias
	gusts    int   // states of the air, one after another
	// noisyInput: a measured input moves the states, so that its noise does too
	noisyInput bool
	surfaces   int
}

// prior is what is known of a parameter beforehand; an sd of 0 is nothing.
type prior struct{ mean, sd float64 }

// outputChannel is one output of a model.
type outputChannel struct {
	name, unit string
	bias       float64 // prior sd of an own bias, in the unit of the output
}

// own parameters of a segment in order: constants, initial state, biases, edges of the command.
func (l *layout) initial() int { return len(l.constant) }
func (l *layout) bias() int    { return l.initial() + states }
func (l *layout) edge() int    { return l.bias() + len(l.biased) }
