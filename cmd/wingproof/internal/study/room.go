package study

import (
	"context"
	"os"

	"golang.org/x/sync/semaphore"
)

// logsAtOnce is how many bytes of logs are read and reduced at one time. A log takes up to about eight times its bytes
// meanwhile (measured: 237 MB for a log of 28 MB with 40 columns of 100 Hz, path reconstruction included), so that what runs at
// once stays near two gibibytes; a log larger than this runs alone.
const logsAtOnce = 256 << 20

// room is the memory that logs share while they are read and reduced.
type room struct {
	bytes int64 // of logs
	free  *semaphore.Weighted
}

func newRoom(bytes int64) room { return room{bytes, semaphore.NewWeighted(bytes)} }

// take waits until the log at path has room beside those that are being read. done gives its place back. The error is
// that of the context.
func (r room) take(ctx context.Context, path string) (done func(), err error) {
	size := int64(1)
	if info, err := os.Stat(path); err == nil {
		size = min(max(info.Size(), 1), r.bytes)
	}
	if err := r.free.Acquire(ctx, size); err != nil {
		return nil, err
	}
	return func() { r.free.Release(size) }, nil
}
