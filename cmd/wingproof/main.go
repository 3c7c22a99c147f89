// Command wingproof says which full-size parts of a foreplane aircraft may be started while its shape
// is still being proved with a radio-controlled scale model.
//
// Exit status: 0 done, 1 could not finish, 2 bad input or usage.
package main

import (
	"context"
	"os"
	"os/signal"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	status := run(ctx, terminalStreams(), os.Args[1:])
	stop()
	os.Exit(status)
}
