package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"strings"
	"time"

	"github.com/spf13/pflag"
	"golang.org/x/term"

	"spudgate/plan/doc"
)

// Exit statuses. They never depend on the format of an output.
const (
	statusClear  = 0 // CLEAR, or a command that did what it was asked
	statusHold   = 1 // HOLD
	statusUnfit  = 2 // something given can't be used
	statusFailed = 3 // our fault, or an output that couldn't be written
)

// unfit is the error of something given that can't be used: status 2.
type unfit struct{ error }

func (u unfit) Unwrap() error { return u.error }

func unfitf(format string, args ...any) error { return unfit{fmt.Errorf(format, args...)} }

// command is the program with its streams, clock and environment handed in.
type command struct {
	out, errs io.Writer
	now       func() time.Time
	env       func(string) string
	tty       func() int // columns of the terminal; 0 when out is none
}

// terminalWidth is the width of the terminal on standard output, 0 when it is
// none.
func terminalWidth() int {
	fd := int(os.Stdout.Fd())
	if !term.IsTerminal(fd) {
		return 0
	}
	w, _, err := term.GetSize(fd)
	if err != nil {
		return 80
	}
	return w
}

// verb is one command of the program.
type verb struct {
	name, args, about string
	run               func(c *command, args []string) (int, error)
}

func verbs() []verb {
	return []verb{
		{"audit", "PLAN...", "judge a plan against a design basis and rulebooks", (*command).audit},
		{"pipe", "SIZE WEIGHT GRADE [CONNECTION]", "the ratings of one pipe, with the working", (*command).pipe},
		{"requirements", "[ID]", "what is judged, and where it stands", (*command).requirements},
		{"template", "OUT.xlsx|OUT.json", "an empty plan to fill in", (*command).template},
		{"convert", "IN OUT", "a plan from JSON to workbook or back, nothing lost", (*command).convert},
		{"draw", "PLAN OUT", "schematic, pressure window, loads or cement placement, as SVG, PNG or PDF", (*command).draw},
		{"report", "FINDINGS.json", "write reports from an audit on record", (*command).report},
		{"schema", "NAME", "print the form of a document", (*command).schema},
	}
}

// run runs the program and gives its exit status. A panic is a fault of ours:
// it is said in a line and never shown to the user as a trace.
func (c *command) run(args []string) (status int) {
	defer func() {
		if p := recover(); p != nil {
			fmt.Fprintf(c.errs, "spudgate: a fault of the program: %v\n", p)
			if c.env("SPUDGATE_TRACE") != "" {
				fmt.Fprintf(c.errs, "%s\n", debug.Stack())
			}
			status = statusFailed
		}
	}()
	if len(args) == 0 {
		c.help(c.errs)
		return statusUnfit
	}
	switch args[0] {
	case "--help", "-h", "help":
		c.help(c.out)
		return statusClear
	case "--version":
		fmt.Fprintln(c.out, "spudgate", version())
		return statusClear
	}
	for _, v := range verbs() {
		if v.name == args[0] {
			return c.finish(v.run(c, args[1:]))
		}
	}
	fmt.Fprintf(c.errs, "spudgate: found command %q, expected one of %s\n", args[0], strings.Join(verbNames(), ", "))
	return statusUnfit
}

func verbNames() []string {
	var out []string
	for _, v := range verbs() {
		out = append(out, v.name)
	}
	return out
}

// finish prints an error and turns it into a status.
func (c *command) finish(status int, err error) int {
	var faults doc.Faults
	var u unfit
	switch {
	case err == nil:
		return status
	case errors.Is(err, pflag.ErrHelp):
		return statusClear
	case errors.As(err, &faults):
		c.faults(faults)
		return statusUnfit
	case errors.As(err, &u):
		fmt.Fprintf(c.errs, "spudgate: %v\n", err)
		return statusUnfit
	}
	fmt.Fprintf(c.errs, "spudgate: %v\n", err)
	return max(status, statusFailed)
}

// mostFaults bounds what is printed of a hopeless document; the rest is
// counted.
const mostFaults = 50

func (c *command) faults(fs doc.Faults) {
	for i, f := range fs {
		if i == mostFaults {
			fmt.Fprintf(c.errs, "and %d more\n", len(fs)-i)
			return
		}
		fmt.Fprintln(c.errs, f.String())
	}
}

func version() string {
	info, ok := debug.ReadBuildInfo()
	if ok && info.Main.Version != "" && info.Main.Version != "(devel)" {
		return info.Main.Version
	}
	return "0.1.0"
}

func (c *command) help(w io.Writer) {
	fmt.Fprint(w, "spudgate audits a casing-and-cementing plan before spud.\n\n")
	for _, v := range verbs() {
		left := v.name + " " + v.args
		fmt.Fprintf(w, "  spudgate %-44s\n      %s\n", left, v.about)
	}
	fmt.Fprint(w, "\nEach command explains itself: spudgate audit --help\n"+
		"Status: 0 CLEAR, 1 HOLD, 2 something given can't be used, 3 our fault.\n"+
		"An aid to a competent reviewer. Local codes and the agency's word prevail.\n")
}

// flags makes the flag set of a command, with its help.
func (c *command) flags(usage, about string) *pflag.FlagSet {
	f := pflag.NewFlagSet(usage, pflag.ContinueOnError)
	f.SetOutput(io.Discard)
	f.SortFlags = false
	f.Usage = func() {
		fmt.Fprintf(c.out, "spudgate %s\n%s\n", usage, about)
		if f.HasFlags() {
			text := strings.ReplaceAll(f.FlagUsagesWrapped(80), "[=true|false]", strings.Repeat(" ", len("[=true|false]")))
			fmt.Fprintf(c.out, "\n%s", text)
		}
	}
	return f
}

// parse reads flags; a wrong one is the user's to mend.
func parse(f *pflag.FlagSet, args []string) error {
	if err := f.Parse(args); err != nil {
		if errors.Is(err, pflag.ErrHelp) {
			return err
		}
		return unfit{err}
	}
	return nil
}
