// Command spudgate audits a well's casing-and-cementing plan before spud.
package main

import (
	"os"
	"time"
)

func main() {
	c := &command{out: os.Stdout, errs: os.Stderr, now: time.Now, env: os.Getenv, tty: terminalWidth}
	os.Exit(c.run(os.Args[1:]))
}
