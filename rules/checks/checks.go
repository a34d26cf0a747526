// Package checks lists every check the tool has. A family of checks is a
// package below this one; adding a check is one file there, its test, and
// go generate ./...
package checks

//go:generate go run ./gen
