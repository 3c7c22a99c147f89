package reduce

import "math"

const (
	degree    = math.Pi / 180
	gridStep  = 0.1  // s
	lowPass   = 0.15 // s, standard deviation of the Gaussian: half power at 0.9 Hz
	perSample = 0.75 // the Gaussian is at least this share of the slowest needed channel's step wide
)

// Limits of a steady window; the package comment gives the reasons.
const (
	longest, shortest = 8.0, 3.0   // s
	maxSpeedTrend     = 0.02       // 1/s, relative
	maxSpeedDrift     = 0.05       // relative, over the window
	maxSpeedScatter   = 0.035      // relative: light gusts
	maxPitchRate      = 1 * degree // rad/s, mean, from the pitch angle
	maxGyroPitchRate  = 2 * degree // rad/s, mean, from a gyro with its bias

	maxPitchRateTrend  = 1 * degree  // rad/s²
	maxRateScatter     = 8 * degree  // rad/s, roll and pitch
	maxLoadOffset      = 0.15        // mean load factor against 1
	maxLoadScatter     = 0.2         // light gusts
	maxBank            = 10 * degree // mean
	maxBankScatter     = 5 * degree
	maxElevatorTrend   = 0.5 * degree // rad/s
	maxElevatorScatter = 1.5 * degree
	maxThrottleDrift   = 0.05 // over the window
	maxThrottleScatter = 0.03
)

// Limits of a calm stretch that is worth reporting as dropped.
const (
	calmShortest        = 4.0  // s
	calmSpeedTrend      = 0.04 // 1/s
	calmLoadScatter     = 0.3
	calmBankScatter     = 8 * degree
	calmElevatorTrend   = 2 * degree
	calmElevatorScatter = 2.5 * degree
)

// What a window is taken for.
const (
	idleThrottle  = 0.05         // below: glide
	fullThrottle  = 0.95         // above: full power
	levelAngle    = 2.5 * degree // path angle below which flight counts as level
	heldRudder    = 3 * degree   // rudder off its median: a sideslip
	heldSideForce = 0.6          // m/s² off its median: a sideslip
	flyingShare   = 0.55         // of the median speed in the air: below, the model rolls on the ground
	leastSpeed    = 5.0          // m/s, below no model of this kind flies
)

// A stall break is a fall of load factor with the nose pitching down while the elevator is held, from a lift
// coefficient close to the greatest of the flight.
const (
	breakSpan     = 1.0          // s
	breakFall     = 0.3          // load factor
	breakPitch    = -12 * degree // rad/s
	breakElevator = 3 * degree   // at most this much elevator movement in the span and half as long ahead of it
	breakLift     = 0.9          // of the lift coefficient that 1 % of the flight exceeds
	breakMargin   = 3.0          // s around a break without test points
)
