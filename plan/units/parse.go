package units

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

var unitIndex = func() map[string]Unit {
	m := make(map[string]Unit, 2*len(unitList)+len(aliases))
	for _, u := range unitList {
		m[u.Symbol] = u
		m[foldUnit(u.Symbol)] = u
	}
	for a, s := range aliases {
		m[foldUnit(a)] = m[s]
	}
	return m
}()

// foldUnit drops spaces and case; "MPa" and "mPa.s" differ in more than case,
// so folding loses nothing in the list above (a test proves it).
func foldUnit(s string) string {
	return strings.ToLower(strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return -1
		}
		return r
	}, s))
}

// ByName finds a unit by its symbol or another spelling the trade uses.
func ByName(name string) (Unit, bool) {
	if u, ok := unitIndex[name]; ok {
		return u, ok
	}
	u, ok := unitIndex[foldUnit(name)]
	return u, ok
}

// Written is a quantity as read from text: the number as written, its unit if
// it named one, and a depth's datum if it named one.
type Written struct {
	Number  float64
	Unit    Unit
	HasUnit bool
	Datum   string // "", rotary, ground, mudline, sea_level
}

// SI is the value in SI; def is the unit of a bare number.
func (w Written) SI(def Unit) float64 {
	if w.HasUnit {
		return w.Unit.ToSI(w.Number)
	}
	return def.ToSI(w.Number)
}

var datums = map[string]string{
	"rotary": "rotary", "rt": "rotary", "rkb": "rotary", "kb": "rotary", "drill floor": "rotary", "df": "rotary",
	"ground": "ground", "gl": "ground", "ground level": "ground", "surface": "ground",
	"mudline": "mudline", "seabed": "mudline", "sea bed": "mudline", "ml": "mudline",
	"sea level": "sea_level", "sea_level": "sea_level", "msl": "sea_level", "sl": "sea_level",
}

// DatumByName folds the ways a datum is written to rotary, ground, mudline or
// sea_level.
func DatumByName(s string) (string, bool) {
	d, ok := datums[strings.ToLower(strings.TrimSpace(s))]
	return d, ok
}

// Parse reads a quantity as the trade writes it: a number, a fraction or a
// mixed number, thousands grouped by commas, then an optional unit, then for a
// depth an optional "from DATUM". The error says what was expected and never
// repeats the whole text.
func Parse(text string) (Written, error) {
	s := strings.TrimSpace(text)
	var w Written
	if s == "" {
		return w, fmt.Errorf("nothing written")
	}
	if i := lastFrom(s); i >= 0 {
		d, ok := DatumByName(s[i+len(" from "):])
		if !ok {
			return w, fmt.Errorf("a datum after \"from\" is rotary, ground, mudline or sea level")
		}
		w.Datum, s = d, strings.TrimSpace(s[:i])
	}
	num, rest, err := parseNumber(s)
	if err != nil {
		return w, err
	}
	w.Number = num
	rest = strings.TrimSpace(rest)
	if rest == "" {
		return w, nil
	}
	u, ok := ByName(rest)
	if !ok {
		return w, &UnknownUnit{rest}
	}
	w.Unit, w.HasUnit = u, true
	return w, nil
}

// lastFrom is where the last " from " begins, in any case; -1 without one. It
// looks at bytes: changing the case of a whole text may change its length.
func lastFrom(s string) int {
	const word = " from "
	for i := len(s) - len(word); i >= 0; i-- {
		if strings.EqualFold(s[i:i+len(word)], word) {
			return i
		}
	}
	return -1
}

// UnknownUnit is the error of a unit nobody taught us.
type UnknownUnit struct{ Unit string }

func (e *UnknownUnit) Error() string { return fmt.Sprintf("unknown unit %q", clip(e.Unit, 24)) }

func clip(s string, n int) string {
	r := []rune(s)
	if len(r) <= n {
		return s
	}
	return string(r[:n-1]) + "…"
}

var vulgar = map[rune]float64{
	'½': 1. / 2, '¼': 1. / 4, '¾': 3. / 4, '⅛': 1. / 8, '⅜': 3. / 8, '⅝': 5. / 8, '⅞': 7. / 8,
}

// parseNumber reads the number at the start of s and gives what follows it.
func parseNumber(s string) (float64, string, error) {
	i := 0
	if i < len(s) && (s[i] == '-' || s[i] == '+') {
		i++
	}
	neg := i > 0 && s[0] == '-'
	whole, n, err := scanDecimal(s[i:])
	if err != nil {
		return 0, "", err
	}
	hadDigits := n > 0
	i += n
	plain := !strings.ContainsAny(s[:i], ".eE")
	frac, m, err := scanFraction(s[i:], hadDigits && plain, whole)
	if err != nil {
		return 0, "", err
	}
	if !hadDigits && m == 0 {
		return 0, "", fmt.Errorf("no number at the start")
	}
	v := whole
	if m > 0 {
		v = frac
		i += m
	}
	if neg {
		v = -v
	}
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return 0, "", fmt.Errorf("a number too large to hold")
	}
	return v, s[i:], nil
}

// scanDecimal reads digits with grouping commas, a decimal point and an
// exponent; n is the number of bytes used, zero when there is no digit.
func scanDecimal(s string) (v float64, n int, err error) {
	i := 0
	for i < len(s) && (isDigit(s[i]) || (s[i] == ',' && i+1 < len(s) && isDigit(s[i+1]))) {
		i++
	}
	intPart := s[:i]
	if strings.Contains(intPart, ",") {
		groups := strings.Split(intPart, ",")
		for k, g := range groups {
			if (k == 0 && (len(g) == 0 || len(g) > 3)) || (k > 0 && len(g) != 3) {
				return 0, 0, fmt.Errorf("a comma groups thousands; write %s", strings.Replace(intPart, ",", ".", 1))
			}
		}
		if len(groups) == 2 && groups[0] == "0" {
			return 0, 0, fmt.Errorf("a comma groups thousands; write %s", strings.Replace(intPart, ",", ".", 1))
		}
	}
	j := i
	if j < len(s) && s[j] == '.' && (i > 0 || (j+1 < len(s) && isDigit(s[j+1]))) {
		j++
		for j < len(s) && isDigit(s[j]) {
			j++
		}
	}
	if j == 0 {
		return 0, 0, nil
	}
	if j < len(s) && (s[j] == 'e' || s[j] == 'E') {
		k := j + 1
		if k < len(s) && (s[k] == '+' || s[k] == '-') {
			k++
		}
		if k < len(s) && isDigit(s[k]) {
			for k < len(s) && isDigit(s[k]) {
				k++
			}
			j = k
		}
	}
	v, perr := strconv.ParseFloat(strings.ReplaceAll(s[:j], ",", ""), 64)
	if perr != nil {
		return 0, 0, fmt.Errorf("a number too large to hold")
	}
	return v, j, nil
}

// scanFraction reads what makes a number mixed: "-3/8", " 3/8", "⅜", or "/8"
// after whole digits. It gives the whole value, and zero bytes when there is
// no fraction.
func scanFraction(s string, afterWhole bool, whole float64) (float64, int, error) {
	if s == "" {
		return 0, 0, nil
	}
	if r, n := utf8.DecodeRuneInString(s); afterWhole || whole == 0 {
		if f, ok := vulgar[r]; ok {
			return whole + f, n, nil
		}
	}
	if !afterWhole {
		return 0, 0, nil
	}
	if s[0] == '/' { // "3/8"
		d, n := scanInt(s[1:])
		if n == 0 {
			return 0, 0, nil
		}
		if d == 0 {
			return 0, 0, fmt.Errorf("a fraction over zero")
		}
		if d > finest { // "250/3000" is two numbers, not a fraction
			return 0, 0, fmt.Errorf("two numbers and a stroke; write one number")
		}
		return whole / d, 1 + n, nil
	}
	i := 0
	for i < len(s) && (s[i] == ' ' || s[i] == '-') {
		i++
	}
	if i == 0 || i > 3 {
		return 0, 0, nil
	}
	r, k := utf8.DecodeRuneInString(s[i:])
	if f, ok := vulgar[r]; ok {
		return whole + f, i + k, nil
	}
	a, n := scanInt(s[i:])
	if n == 0 || i+n >= len(s) || s[i+n] != '/' {
		return 0, 0, nil
	}
	d, m := scanInt(s[i+n+1:])
	if m == 0 {
		return 0, 0, nil
	}
	if d == 0 {
		return 0, 0, fmt.Errorf("a fraction over zero")
	}
	return whole + a/d, i + n + 1 + m, nil
}

// finest is the finest fraction of an inch the trade writes, 1/64.
const finest = 64

func scanInt(s string) (float64, int) {
	i, v := 0, 0.0
	for i < len(s) && isDigit(s[i]) && i < 9 {
		v = v*10 + float64(s[i]-'0')
		i++
	}
	return v, i
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }
