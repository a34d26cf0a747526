//go:build race

package read_test

// slower is how much longer a test may take: the limit is one for the program
// as built, and the race detector watches every access of a 200 MB text.
const slower = 10
