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
	s := streams{In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Terminal: isTerminal(os.Stderr)}
	status := run(ctx, s, os.Args[1:])
	stop()
	os.Exit(status)
}
