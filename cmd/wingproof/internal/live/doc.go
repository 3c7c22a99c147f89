// Package live serves a report from memory while its program folder changes: which page is the newest, what is being worked out,
// what is wrong in the folder?
//
// It knows nothing of a study. A function makes all files of the report; this package calls it once at the start and again
// whenever something in the folder has changed, one call at a time, and hands out what the last good call gave. Pages learn by
// server-sent events that there is a newer one and fetch it. While the folder has a mistake the last good page stays, headed by
// every mistake with its place.
//
// The server is read-only and knows no folder: a request is looked up in the list of files that were made, and nothing else is
// ever read. It answers GET and HEAD, under the address that it listens on and under no other name. What one client does holds no
// other up: a stream is told the newest state when it is ready for it, never a queue of old ones; streams and connections
// are counted; whoever is slow is dropped.
//
// Times are those of the computer's clock: the only ones in the program that reach a page, and none of them is part of a file.
package live
