package reduce

import "math"

// fit is a mean or a slope over one window with what its standard deviation comes from: residuals about a straight
// line, for a mean too. A trend is no noise: lift and elevator trend together when the speed does.
type fit struct {
	value     float64
	residuals []float64
	x         []float64 // regressor less its mean
	square    float64   // Σx²
	slope     bool      // value is the slope, not the mean
}

// meanFit is the mean of a series, with residuals about its trend. A series of one or two samples has none.
func meanFit(values []float64) fit {
	index := make([]float64, len(values))
	for i := range index {
		index[i] = float64(i)
	}
	f := slopeFit(index, values)
	f.value, f.slope = mean(values), false
	return f
}

// slopeFit is b of the least-squares line y = a + b·x; 0 where x does not vary. x and y share one length.
func slopeFit(x, y []float64) fit {
	mx, my := mean(x), mean(y)
	f := fit{x: make([]float64, len(x)), residuals: make([]float64, len(x)), slope: true}
	xy := 0.0
	for i := range x {
		f.x[i] = x[i] - mx
		f.square += f.x[i] * f.x[i]
		xy += f.x[i] * (y[i] - my)
	}
	if f.square > 0 {
		f.value = xy / f.square
	}
	for i := range x {
		f.residuals[i] = y[i] - my - f.value*f.x[i]
	}
	return f
}

// blockSlopes cuts a window into blocks of a second and fits a slope to each. Its mean is a rougher slope than that of
// the whole window, but its scatter shows what the residuals of a straight line hide: noise that adds up, as the
// vertical air does in the height.
func blockSlopes(x, y []float64) fit {
	n := int(math.Round(1 / gridStep))
	var slopes []float64
	for i := 0; i+n < len(x); i += n {
		slopes = append(slopes, slopeFit(x[i:i+n+1], y[i:i+n+1]).value)
	}
	return levelFit(slopes)
}

// levelFit is the mean of a series with residuals about the mean.
func levelFit(values []float64) fit {
	f := slopeFit(make([]float64, len(values)), values)
	f.value, f.slope = mean(values), false
	return f
}

func mean(values []float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v
	}
	return sum / float64(len(values))
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}
