package weighing

import "math"

// Kind is what an input of the computation is.
type Kind string

// The kinds of inputs. A report words them; each is one cell, or some cells, of what was written down.
const (
	Load          Kind = "reading"
	Tare          Kind = "tare"
	StationX      Kind = "station_x"
	StationY      Kind = "station_y"
	StationZ      Kind = "station_z"
	Angle         Kind = "angle"
	Spacing       Kind = "spacing"
	Length        Kind = "length"
	PivotDistance Kind = "pivot_distance"
	PivotX        Kind = "pivot_x"
	PivotZ        Kind = "pivot_z"
	Period        Kind = "period"
	Amplitude     Kind = "amplitude"
	HangerMass    Kind = "hanger_mass"
	HangerDepth   Kind = "hanger_depth"
	HangerPeriod  Kind = "hanger_period"
	LocalGravity  Kind = "gravity"
	AirEstimate   Kind = "air"
)

// smallestChange is the step of the differences in standard deviations: results are smooth, and this leaves truncation and round-off
// both far below a millionth.
const smallestChange = 1e-4

// Source names one independent input: its kind, and the point or the run that it belongs to.
type Source struct {
	Kind Kind
	Of   string
}

// book holds every input with its value and error.
type book struct {
	sources []Source
	values  []float64
	sds     []float64
}

// entry is the place of an input in the book.
type entry int

// enter takes an input into the book.
func (b *book) enter(kind Kind, of string, f Figure) entry {
	b.sources = append(b.sources, Source{kind, of})
	b.values = append(b.values, f.Value)
	b.sds = append(b.sds, math.Abs(f.SD))
	return entry(len(b.values) - 1)
}

// propagate returns what one standard deviation of each input does to each result, signed: parts[result][input].
func (b *book) propagate(results func(u []float64) []float64) [][]float64 {
	u := append([]float64(nil), b.values...)
	parts := make([][]float64, len(results(u)))
	for k := range parts {
		parts[k] = make([]float64, len(u))
	}
	for i, sd := range b.sds {
		if sd == 0 {
			continue
		}
		step := smallestChange * sd
		u[i] = b.values[i] + step
		above := results(u)
		up := u[i]
		u[i] = b.values[i] - step
		below := results(u)
		if up == u[i] { // an error of no more than round-off
			u[i] = b.values[i]
			continue
		}
		for k := range parts {
			parts[k][i] = (above[k] - below[k]) / (up - u[i]) * sd
		}
		u[i] = b.values[i]
	}
	return parts
}

// sumOfSquares is the variance that independent parts add up to.
func sumOfSquares(parts []float64) float64 {
	var sum float64
	for _, p := range parts {
		sum += p * p
	}
	return sum
}
