package main

import (
	"context"
	"slices"

	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

// forecastNext works out what could be done next, as the page shows it. A forecast that cannot be made is said there and costs the rest of the
// page nothing; the only error is that of ctx. A board without parts needs none. tell may be nil.
func forecastNext(ctx context.Context, st *study.Study, tell func(done, total int, what string)) (report.Next, error) {
	if len(st.Verdict.Board) == 0 {
		return report.Next{}, nil
	}
	outlook, err := st.Next(ctx, tell)
	switch {
	case ctx.Err() != nil:
		return report.Next{}, ctx.Err()
	case err != nil:
		return report.Next{State: report.NextFailed, Failed: err.Error()}, nil
	}
	return report.Next{State: report.NextKnown, Outlook: outlook}, nil
}

// forecastKept is the forecast where it was worked out before; toCome where it is still to be.
func forecastKept(st *study.Study) (next report.Next, toCome bool) {
	if len(st.Verdict.Board) == 0 {
		return report.Next{}, false
	}
	if outlook, ok := st.NextKept(); ok {
		return report.Next{State: report.NextKnown, Outlook: outlook}, false
	}
	return report.Next{State: report.NextPending}, true
}

// foretold are the files of a report whose forecast has come: those that show it are made anew, in their places.
func (m *maker) foretold(next report.Next) ([]report.File, error) {
	m.content.Next = next
	files := slices.Clone(m.files)
	for _, anew := range []struct {
		name string
		make func() ([]byte, error)
	}{{evidenceFile, m.evidenceBody}, {firstFile, func() ([]byte, error) { return report.Laid(*m.content) }}} {
		body, err := anew.make()
		if err != nil {
			return nil, err
		}
		at := slices.IndexFunc(files, func(f report.File) bool { return f.Name == anew.name })
		files[at].Body = body
	}
	return files, nil
}
