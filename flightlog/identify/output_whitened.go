package identify

import (
	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
)

// whitened are the whitened sensitivities of a segment: a row for each common parameter, for each of the segment's own, and last for the
// residual; a column for each output of each sample, so that what is summed up over samples lies side by side.
type whitened struct{ blas64.General }

// shape gives memory for a segment.
func (w *whitened) shape(rows, columns int) {
	w.Rows, w.Cols, w.Stride = rows, columns, columns
	w.Data = sized(w.Data, rows*columns)
}

// put takes up the rows [outputs × parameters] of a sample as columns.
func (w *whitened) put(sample, outputs int, rows []float64) {
	for j := range w.Rows {
		to := w.Data[j*w.Stride+sample*outputs:][:outputs]
		for o := range to {
			to[o] = rows[o*w.Rows+j]
		}
	}
}

// row is that of one parameter.
func (w *whitened) row(j int) []float64 { return w.Data[j*w.Stride : (j+1)*w.Stride] }

// residuals are the last row.
func (w *whitened) residuals() []float64 { return w.row(w.Rows - 1) }

// together is how many columns are summed up at a time: so few that those of all parameters stay within reach of the processor.
const together = 128

// normal are the sums of products of all pairs of rows, the upper triangle of rows × rows.
func (w *whitened) normal(into []float64) []float64 {
	into = sized(into, w.Rows*w.Rows)
	sums := blas64.Symmetric{Uplo: blas.Upper, N: w.Rows, Stride: w.Rows, Data: into}
	clear(into)
	for from := 0; from < w.Cols; from += together {
		part := w.General
		part.Data, part.Cols = w.Data[from:], min(together, w.Cols-from)
		blas64.Syrk(blas.NoTrans, 1, part, 1, sums)
	}
	return into
}

// against are the products of the rows of all parameters with a change of the residuals.
func (w *whitened) against(change []float64) []float64 {
	parameters := w.General
	parameters.Rows--
	out := make([]float64, parameters.Rows)
	blas64.Gemv(blas.NoTrans, 1, parameters, blas64.Vector{N: len(change), Data: change, Inc: 1}, 0, blas64.Vector{N: len(out), Data: out, Inc: 1})
	return out
}
