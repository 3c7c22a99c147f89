package leastsquares

import (
	"math"
	"testing"
)

// rememberedSets are further sets of the same collection, from memory.
func rememberedSets(t *testing.T) []set {
	pressure, volume := file(t, "nist-misra1a.csv")
	span := func(from, to, step float64) (x []float64) {
		for v := from; v <= to+step/2; v += step {
			x = append(x, v)
		}
		return x
	}
	logistic := func(b []float64, x float64) float64 { return math.Exp(b[1] - b[2]*x) }
	mgh10 := set{name: "MGH10", x: span(50, 125, 5),
		y: []float64{34780, 28610, 23650, 19630, 16370, 13720, 11540, 9744, 8261, 7030, 6005, 5147, 4427, 3820, 3307, 2872},
		model: model{func(b []float64, x float64) float64 { return b[0] * math.Exp(b[1]/(x+b[2])) },
			func(b []float64, x float64, s []float64) {
				e := math.Exp(b[1] / (x + b[2]))
				s[0], s[1], s[2] = e, b[0]*e/(x+b[2]), -b[0]*e*b[1]/((x+b[2])*(x+b[2]))
			}},
		starts: [][]float64{{2, 400000, 25000}, {0.02, 4000, 250}}, want: []float64{5.6096364710e-03, 6.1813463463e+03, 3.4522363462e+02},
		sd: []float64{1.5687892471e-04, 2.3309021107e+01, 7.8486103508e-01}, residualSS: 8.7945855171e+01}
	return []set{
		{"Misra1b", pressure, volume, model{
			func(b []float64, x float64) float64 { u := 1 + b[1]*x/2; return b[0] * (1 - 1/(u*u)) },
			func(b []float64, x float64, s []float64) {
				u := 1 + b[1]*x/2
				s[0], s[1] = 1-1/(u*u), b[0]*x/(u*u*u)
			}}, [][]float64{{500, 0.0001}, {300, 0.0002}}, []float64{3.3799746163e+02, 3.9039091287e-04}, []float64{3.1643950207, 4.2547321834e-06}, 7.5464681533e-02},
		{"Misra1c", pressure, volume, model{
			func(b []float64, x float64) float64 { return b[0] * (1 - 1/math.Sqrt(1+2*b[1]*x)) },
			func(b []float64, x float64, s []float64) {
				u := 1 + 2*b[1]*x
				s[0], s[1] = 1-1/math.Sqrt(u), b[0]*x/(u*math.Sqrt(u))
			}}, [][]float64{{500, 0.0001}, {600, 0.0002}}, []float64{6.3642725809e+02, 2.0813627256e-04}, []float64{4.6638326572, 1.7728423155e-06}, 4.0966836971e-02},
		{"Misra1d", pressure, volume, model{
			func(b []float64, x float64) float64 { return b[0] * b[1] * x / (1 + b[1]*x) },
			func(b []float64, x float64, s []float64) {
				u := 1 + b[1]*x
				s[0], s[1] = b[1]*x/u, b[0]*x/(u*u)
			}}, [][]float64{{500, 0.0001}, {450, 0.0003}}, []float64{4.3736970754e+02, 3.0227324449e-04}, []float64{3.6489174345, 2.9334354479e-06}, 5.6419295283e-02},
		{"DanWood", []float64{1.309, 1.471, 1.490, 1.565, 1.611, 1.680}, []float64{2.138, 3.421, 3.597, 4.340, 4.882, 5.660}, model{
			func(b []float64, x float64) float64 { return b[0] * math.Pow(x, b[1]) },
			func(b []float64, x float64, s []float64) {
				s[0], s[1] = math.Pow(x, b[1]), b[0]*math.Pow(x, b[1])*math.Log(x)
			}}, [][]float64{{1, 5}, {0.7, 4}}, []float64{7.6886226176e-01, 3.8604055871}, []float64{1.8281973860e-02, 5.1726610913e-02}, 4.3173084083e-03},
		{"BoxBOD", []float64{1, 2, 3, 5, 7, 10}, []float64{109, 149, 149, 191, 213, 224}, misra1a(), [][]float64{{1, 1}, {100, 0.75}},
			[]float64{2.1380940889e+02, 5.4723748542e-01}, []float64{1.2354515176e+01, 1.0455993237e-01}, 1.1680088766e+03},
		{"Rat42", []float64{9, 14, 21, 28, 42, 57, 63, 70, 79}, []float64{8.930, 10.800, 18.590, 22.330, 39.350, 56.110, 61.730, 64.620, 67.080}, model{
			func(b []float64, x float64) float64 { return b[0] / (1 + logistic(b, x)) },
			func(b []float64, x float64, s []float64) {
				e := logistic(b, x)
				s[0], s[1], s[2] = 1/(1+e), -b[0]*e/((1+e)*(1+e)), b[0]*e*x/((1+e)*(1+e))
			}}, [][]float64{{100, 1, 0.1}, {75, 2.5, 0.07}}, []float64{7.2462237576e+01, 2.6180768402, 6.7359200066e-02},
			[]float64{1.7340283401, 8.8295217536e-02, 3.4465663377e-03}, 8.0565229338},
		{"Rat43", span(1, 15, 1), []float64{16.08, 33.83, 65.80, 97.20, 191.55, 326.20, 386.87, 520.53, 590.03, 651.92, 724.93, 699.56, 689.96, 637.56, 717.41}, model{
			func(b []float64, x float64) float64 { return b[0] / math.Pow(1+logistic(b, x), 1/b[3]) },
			func(b []float64, x float64, s []float64) {
				e := logistic(b, x)
				f := math.Pow(1+e, -1/b[3])
				s[0], s[1], s[2], s[3] = f, -b[0]*f/b[3]*e/(1+e), b[0]*f/b[3]*e*x/(1+e), b[0]*f*math.Log1p(e)/(b[3]*b[3])
			}}, [][]float64{{100, 10, 1, 1}, {700, 5, 0.75, 1.3}}, []float64{6.9964151270e+02, 5.2771253025, 7.5962938329e-01, 1.2792483859},
			[]float64{1.6302297817e+01, 2.0828735829, 1.9566123451e-01, 6.8761936385e-01}, 8.7864049080e+03},
		{"MGH09", []float64{4, 2, 1, 0.5, 0.25, 0.167, 0.125, 0.1, 0.0833, 0.0714, 0.0625}, []float64{0.1957, 0.1947, 0.1735, 0.16, 0.0844, 0.0627, 0.0456, 0.0342, 0.0323, 0.0235, 0.0246}, model{
			func(b []float64, x float64) float64 { return b[0] * (x*x + x*b[1]) / (x*x + x*b[2] + b[3]) },
			func(b []float64, x float64, s []float64) {
				o, u := x*x+x*b[1], x*x+x*b[2]+b[3]
				s[0], s[1], s[2], s[3] = o/u, b[0]*x/u, -b[0]*o*x/(u*u), -b[0]*o/(u*u)
			}}, [][]float64{{25, 39, 41.5, 39}, {0.25, 0.39, 0.415, 0.39}}, []float64{1.9280693458e-01, 1.9128232873e-01, 1.2305650693e-01, 1.3606233068e-01},
			[]float64{1.1435312227e-02, 1.9633220911e-01, 8.0842031232e-02, 9.0025542308e-02}, 3.0750560385e-04},
		mgh10,
	}
}
