package identify

// times is k·x.
func (x state) times(k float64) state {
	for i := range x {
		x[i] *= k
	}
	return x
}

// square is a matrix over the states.
type square [states]state

// times is a·x.
func (a *square) times(x *state) (y state) {
	for i := range a {
		r := &a[i]
		y[i] = r[0]*x[0] + r[1]*x[1] + r[2]*x[2] + r[3]*x[3]
	}
	return y
}

// after is a·b.
func (a *square) after(b *square) (c square) {
	for i := range a {
		for j := range b {
			c[i][j] = a[i][0]*b[0][j] + a[i][1]*b[1][j] + a[i][2]*b[2][j] + a[i][3]*b[3][j]
		}
	}
	return c
}

// exponential gives Φ = exp(hA) and Ψ = ∫₀ʰ exp(A·s) ds by their series: with B = hA, Ψ = h(I + B/2 + B²/6 + B³/24) and Φ = I + AΨ.
// For steps of a tenth of a radian of the quickest motion the next term is below 1e-7.
func exponential(a *[states]state, h float64) (phi, psi square) {
	var b square
	for i := range a {
		for j := range a[i] {
			b[i][j] = h * a[i][j]
		}
	}
	b2 := b.after(&b)
	b3 := b2.after(&b)
	for i := range b {
		for j := range b {
			psi[i][j] = b[i][j]/2 + b2[i][j]/6 + b3[i][j]/24
		}
		psi[i][i]++
	}
	phi = b.after(&psi)
	for i := range phi {
		phi[i][i]++
		for j := range psi {
			psi[i][j] *= h
		}
	}
	return phi, psi
}
