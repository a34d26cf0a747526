package schema

import (
	"strings"

	"spudgate/plan/form"
)

// likely is the member that key was probably meant to be; all members where
// none is near.
func likely(key string, o *form.Object) string {
	if near := nearest(key, o); near != "" {
		return near + "?"
	}
	all := make([]string, len(o.Fields))
	for i := range o.Fields {
		all[i] = o.Fields[i].Name
	}
	return strings.Join(all, ", ")
}

// nearest is the first member of those with the fewest slips, or "" where even
// that has more than one in three letters.
func nearest(key string, o *form.Object) string {
	key = strings.ToLower(key)
	best, fewest := "", len(key)/3+1
	for i := range o.Fields {
		name := o.Fields[i].Name
		if abs(len(name)-len(key)) >= fewest {
			continue
		}
		if s := slips(key, name); s < fewest {
			best, fewest = name, s
		}
	}
	return best
}

// slips is the number of letters to add, drop, change or swap with their
// neighbour to turn a into b: the optimal string alignment distance.
func slips(a, b string) int {
	var before, above []int
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(a); i++ {
		before, above = above, row
		row = make([]int, len(b)+1)
		row[0] = i
		for j := 1; j <= len(b); j++ {
			change := above[j-1]
			if a[i-1] != b[j-1] {
				change++
			}
			row[j] = min(above[j]+1, row[j-1]+1, change)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
	}
	return row[len(b)]
}

func abs(n int) int {
	if n < 0 {
		return -n
	}
	return n
}
