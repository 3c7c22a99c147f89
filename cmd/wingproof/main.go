// Command wingproof says which full-size parts of a foreplane aircraft may be started while its shape
// is still being proved with a radio-controlled scale model.
package main

func main() {}
