package identify

// What is known beforehand of parameters that are not given out, as standard deviations about zero (biases, drag) or about the
// measured start (initial states). They are several times what occurs, so that they steady a poorly excited fit and do not move a
// well excited one. Common practice, no source.
const (
	rateBias  = 0.02 // rad/s: a degree per second is a bad gyro
	forceBias = 0.5  // m/s²

	pathForward = 0.5 // m/s: gusts shift the mean of some seconds by as much
	pathDown    = 0.5 // m/s: a degree and a half of angle of attack
)

// What is known beforehand of drag. Where it is not measured, drag enters only by its share of the force along Z, CD·sin α: the spread of
// these numbers moves the lift slope by a third of a percent. Models with wings of moderate aspect ratio. Common practice, no source.
var (
	dragAtZero        = prior{0.035, 0.015}
	dragByLiftSquared = prior{0.05, 0.03}
)

// What is known beforehand of Cm_α̇. Light aircraft with a tail have −4 to −5 (the Navion sets of package rehearse), a foreplane less, of either
// sign. Common practice, no source.
var pitchByAlphaRate = prior{0, 5}
