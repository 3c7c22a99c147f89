package decide

import (
	"runtime"

	"golang.org/x/sync/errgroup"
)

// sideBySide runs work for each place of a list on all processors. The error is that of the first place that failed in the order of the list, so
// that it does not depend on who was first.
func sideBySide(places []int, work func(place int) error) error {
	var group errgroup.Group
	group.SetLimit(runtime.GOMAXPROCS(0))
	failed := make([]error, len(places))
	for k, place := range places {
		group.Go(func() error { failed[k] = work(place); return nil })
	}
	_ = group.Wait() // every error stands in failed
	for _, err := range failed {
		if err != nil {
			return err
		}
	}
	return nil
}
