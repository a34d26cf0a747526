package pipe

import (
	_ "embed"
	"strings"
	"sync"

	"spudgate/plan/units"
)

// Connection is a threaded connection of API Spec 5B.
type Connection uint8

// The connections the standards rate. Plain is pipe without threads.
const (
	Plain Connection = iota
	STC              // 8-round, short
	LTC              // 8-round, long
	BTC              // buttress
)

func (c Connection) String() string {
	return [...]string{"plain end", "STC", "LTC", "BTC"}[min(c, BTC)]
}

var connectionNames = map[string]Connection{
	"STC": STC, "ST&C": STC, "SC": STC, "SHORT": STC,
	"LTC": LTC, "LT&C": LTC, "LC": LTC, "LONG": LTC,
	"BTC": BTC, "BT&C": BTC, "BC": BTC, "BUTTRESS": BTC, "BUTT": BTC,
	"": Plain, "PE": Plain, "PLAINEND": Plain,
}

// ParseConnection finds a connection as plans write it. The error is an
// *Unknown: anything but the API threads needs ratings stated by its maker.
func ParseConnection(text string) (Connection, error) {
	c, ok := connectionNames[fold(strings.ReplaceAll(text, " & ", "&"))]
	if !ok {
		return Plain, &Unknown{"connection", text}
	}
	return c, nil
}

// Coupling is what is screwed on: its kind, and its grade if it differs from
// that of the pipe.
type Coupling struct {
	Special bool   // special clearance, of smaller OD
	Grade   *Grade // nil: the grade of the pipe
}

//go:embed rounds.csv
var roundsCSV string

//go:embed buttress.csv
var buttressCSV string

// round holds the dimensions of one 8-round thread, m.
type round struct {
	od                 units.Meters
	conn               Connection
	weight             units.KgPerM // of the one light pipe with a shorter thread, else zero
	l1, l4, e1, a, hub float64
}

// buttress holds the dimensions of one buttress thread, m; taper is a ratio.
type buttress struct {
	od        units.Meters
	l7, e7, i float64
	taper     float64
}

var rounds = sync.OnceValue(func() []round {
	var out []round
	for _, f := range rows(roundsCSV) {
		n := numbers(f)
		conn := connectionNames[f[1]]
		out = append(out, round{inches(n[0]), conn, units.KgPerM(n[2] * units.Pound / units.Foot),
			n[3] * units.Inch, n[4] * units.Inch, n[5] * units.Inch, n[6] * units.Inch, n[7] * units.Inch})
	}
	return out
})

var buttresses = sync.OnceValue(func() []buttress {
	var out []buttress
	for _, f := range rows(buttressCSV) {
		n := numbers(f)
		out = append(out, buttress{inches(n[0]), n[1] * units.Inch, n[2] * units.Inch, n[3] * units.Inch, n[4]})
	}
	return out
})

// roundOf finds the thread cut on a size; the row of a single weight stands
// before the one for all others.
func roundOf(s Size, c Connection) (round, bool) {
	for _, r := range rounds() {
		if sameSize(r.od, s.OD) && r.conn == c && (r.weight == 0 || r.weight == s.Weight) {
			return r, true
		}
	}
	return round{}, false
}

func buttressOf(s Size) (buttress, bool) {
	for _, b := range buttresses() {
		if sameSize(b.od, s.OD) {
			return b, true
		}
	}
	return buttress{}, false
}

// made says whether the standard has the connection in this size, and if not
// why. Long round thread exists from 4-1/2 to 9-5/8 in and in 20 in only.
func made(s Size, c Connection) (why string) {
	ok := false
	switch c {
	case STC, LTC:
		_, ok = roundOf(s, c)
	case BTC:
		_, ok = buttressOf(s)
	default:
		return "plain-end pipe has no connection"
	}
	if !ok || s.Coupling == 0 {
		return c.String() + " is not made in " + units.Size(s.OD) + " in"
	}
	return ""
}

// couplingOD is the OD of the coupling asked for; zero if the size has none.
func couplingOD(s Size, k Coupling) units.Meters {
	if k.Special {
		return s.Special
	}
	return s.Coupling
}
