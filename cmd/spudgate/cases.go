package main

import (
	"fmt"
	"slices"
	"strings"

	"spudgate/reports/terminal"
	"spudgate/rules/finding"
)

// leastCase is the least room the words of a case need in the table of cases.
const leastCase = 14

// listCases lists the worked cases as a table: a column for each name, lettered
// because names are long, and nothing in it where the case leaves the value out.
func (c *command) listCases(cases []finding.Example) {
	var names []string
	for _, x := range cases {
		for _, g := range x.Given {
			if !slices.Contains(names, g.Name) {
				names = append(names, g.Name)
			}
		}
	}
	fmt.Fprintf(c.out, "\nCases\n")
	for i, n := range names {
		c.hang("  "+letter(i), 5, n)
	}
	fmt.Fprintln(c.out)
	wide, last := widths(cases, names)
	room := columns - 2 - last
	for _, w := range wide {
		room -= w
	}
	if room < leastCase {
		c.stackCases(cases, names)
		return
	}
	row := func(words, gives string, value func(i int) string) {
		for k, line := range terminal.Wrap(words, room-2) {
			if k > 0 {
				fmt.Fprintf(c.out, "  %s\n", line)
				continue
			}
			var b strings.Builder
			fmt.Fprintf(&b, "  %-*s", room, line)
			for i, w := range wide {
				fmt.Fprintf(&b, "%-*s", w, value(i))
			}
			fmt.Fprintln(c.out, b.String()+gives)
		}
	}
	row("case", "gives", letter)
	for _, x := range cases {
		row(lettered(x.Case, names), string(x.Gives), func(i int) string { return x.Value(names[i]) })
	}
}

// widths is the room each column of values needs, and the last of verdicts.
func widths(cases []finding.Example, names []string) (wide []int, last int) {
	wide = make([]int, len(names))
	for _, x := range cases {
		last = max(last, len(x.Gives), len("gives"))
		for i, n := range names {
			wide[i] = max(wide[i], len([]rune(x.Value(n)))+2, 3)
		}
	}
	return wide, last
}

// stackCases lists cases with more values than a line holds one below the other.
func (c *command) stackCases(cases []finding.Example, names []string) {
	for _, x := range cases {
		var given []string
		for i, n := range names {
			if v := x.Value(n); v != "" {
				given = append(given, letter(i)+" "+v)
			}
		}
		c.hang("  ", 2, lettered(x.Case, names)+": "+string(x.Gives))
		c.hang("      ", 6, strings.Join(given, ", "))
	}
}

// letter names a column: a, b and so on; a requirement has no more than a few.
func letter(i int) string { return string(rune('a' + i%26)) }

// lettered puts a column's letter for its name in the words of a case.
func lettered(words string, names []string) string {
	list := strings.Fields(words)
	for i, w := range list {
		if k := slices.Index(names, w); k >= 0 {
			list[i] = letter(k)
		}
	}
	return strings.Join(list, " ")
}
