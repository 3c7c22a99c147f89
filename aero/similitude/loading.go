package similitude

// Loading is what is carried, at both sizes: the model to scale weighs and balances like that.
type Loading struct {
	Name      string   `json:"name"`
	Mass      float64  `json:"full_size_mass_kg"`
	ModelMass float64  `json:"model_mass_kg"`
	CGX       *float64 `json:"full_size_cg_x_m"` // null when the CG is not known, like all below
	CGZ       *float64 `json:"full_size_cg_z_m"`
	CGPercent *float64 `json:"cg_percent_of_chord"`
	ModelCGX  *float64 `json:"model_cg_x_m"`
	ModelCGZ  *float64 `json:"model_cg_z_m"`
	Flies     bool     `json:"flies"`
}

// NewLoading carries a loading to the model. cg may be nil; percent is its station in percent of the mean chord.
func NewLoading(r Ratios, name string, mass float64, cg *Place, percent func(x float64) float64) Loading {
	l := Loading{Name: name, Mass: mass, ModelMass: mass * r.Mass}
	if cg != nil {
		x, z, share, mx, mz := cg.X, cg.Z, percent(cg.X), cg.X*r.Length, cg.Z*r.Length
		l.CGX, l.CGZ, l.CGPercent, l.ModelCGX, l.ModelCGZ = &x, &z, &share, &mx, &mz
	}
	return l
}
