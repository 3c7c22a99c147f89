package program

func (l *loader) readLoadings(all []*scope) {
	for _, s := range all {
		var loading Loading
		var at spot
		loading.Name, at = s.text("name", true)
		if _, twice := known(loading.Name, l.loadingNames()); twice {
			s.wrong(at, "the loading "+quoted(loading.Name)+" is there twice", "give each loading a name of its own")
		}
		loading.Flies = s.truth("flies", true)
		for _, item := range s.groups("items", "an item of loading "+loading.Name, true) {
			var i Item
			i.What, _ = item.text("what", true)
			i.Mass, _ = item.number(mass("mass").required())
			i.X, _ = item.number(length("x").required())
			i.Y, _ = item.number(length("y"))
			i.Z, _ = item.number(length("z").required())
			item.done()
			loading.Items = append(loading.Items, i)
		}
		s.done()
		l.p.Loadings = append(l.p.Loadings, loading)
	}
}

func (l *loader) loadingNames() []string {
	return namesOf(l.p.Loadings, func(x Loading) string { return x.Name })
}
