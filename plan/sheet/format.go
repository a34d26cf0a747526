package sheet

import (
	"math"
	"strconv"
	"strings"
	"time"
)

// format is what the number format of a cell says about its number.
type format struct {
	date     bool // a day of the calendar, perhaps with a time
	clock    bool // hours and minutes without a day
	percent  bool
	fraction int    // largest denominator; 0 if not shown as a fraction
	exact    bool   // that denominator and no other
	fixed    bool   // decimals counts; else as many as it takes
	decimals int    // places behind the point
	literal  string // text shown behind the number
}

// builtin are the format codes a workbook needn't spell out, by id (ECMA-376
// part 1, 18.8.30). Ids 27-36 and 50-58 are dates of East Asian calendars.
var builtin = map[int]string{
	1: "0", 2: "0.00", 3: "#,##0", 4: "#,##0.00", 9: "0%", 10: "0.00%", 11: "0.00E+00", 12: "# ?/?", 13: "# ??/??",
	14: "m/d/yy", 15: "d-mmm-yy", 16: "d-mmm", 17: "mmm-yy", 18: "h:mm", 19: "h:mm:ss", 20: "h:mm", 21: "h:mm:ss", 22: "m/d/yy h:mm",
	37: "#,##0", 38: "#,##0", 39: "#,##0.00", 40: "#,##0.00", 45: "mm:ss", 46: "[h]:mm:ss", 47: "mm:ss", 48: "##0.0E+0",
}

// formatOf reads a number format; code counts if it's given, else the id.
func formatOf(id int, code string) format {
	if code == "" {
		code = builtin[id]
		if code == "" && (27 <= id && id <= 36 || 50 <= id && id <= 58) {
			return format{date: true}
		}
	}
	p := formatParser{}
	p.read(code)
	return p.format()
}

// formatParser splits the first section of a code into its digits, the letters
// of dates and the literal text behind the number.
type formatParser struct {
	digits  strings.Builder // of 0 # ? . / and digits
	letters strings.Builder // of y m d h s, outside of quotes
	literal strings.Builder
	percent bool
	elapsed bool
}

func (p *formatParser) read(code string) {
	if strings.HasPrefix(strings.ToLower(code), "general") {
		code = code[len("general"):]
	}
	for i := 0; i < len(code); i++ {
		switch c := code[i]; c {
		case ';':
			return
		case '"':
			end := i + 1 + strings.IndexByte(code[i+1:]+`"`, '"')
			p.literal.WriteString(code[i+1 : end])
			i = end
		case '\\':
			if i++; i < len(code) {
				p.literal.WriteByte(code[i])
			}
		case '_', '*':
			i++
		case '[':
			end := i + strings.IndexByte(code[i:]+"]", ']')
			p.elapsed = p.elapsed || strings.Trim(strings.ToLower(code[i+1:end]), "hms") == ""
			i = end
		case 'E':
			i++ // the sign of an exponent; its digits aren't decimals
			p.digits.WriteByte('E')
		default:
			p.plain(c)
		}
	}
}

func (p *formatParser) plain(c byte) {
	switch {
	case c == '%':
		p.percent = true
	case strings.IndexByte("0123456789#?./", c) >= 0:
		p.digits.WriteByte(c)
	case strings.IndexByte("yYmMdDhHsS", c) >= 0:
		p.letters.WriteByte(c | 0x20)
	case c == ' ' && p.digits.Len() > 0:
		p.digits.WriteByte(' ')
	}
}

func (p *formatParser) format() format {
	f := format{percent: p.percent, literal: strings.TrimSpace(p.literal.String())}
	letters := p.letters.String()
	if f.date = strings.ContainsAny(letters, "yd"); f.date {
		return f
	}
	if f.clock = p.elapsed || strings.ContainsAny(letters, "hs"); f.clock {
		return f
	}
	digits := strings.TrimSpace(p.digits.String())
	if _, below, ok := strings.Cut(digits, "/"); ok {
		f.fraction, f.exact = denominator(below)
		return f
	}
	whole, places, _ := strings.Cut(digits, ".")
	f.fixed = whole != "" && !strings.Contains(digits, "E")
	f.decimals = len(places)
	return f
}

// denominator reads what stands below the line: "8" is that one, "??" any of
// two digits.
func denominator(s string) (int, bool) {
	s = strings.TrimSpace(s)
	if n, err := strconv.Atoi(s); err == nil && n > 0 && n <= 999 {
		return n, true
	}
	return int(math.Pow10(min(max(len(s), 1), 3))) - 1, false
}

// shown is a number as its cell shows it, close enough for a name or a mark
// that happens to be a number.
func (f format) shown(x float64) string {
	switch {
	case f.percent:
		return decimal(x*100) + " %"
	case f.fraction > 0:
		return f.asFraction(x)
	case f.fixed:
		return strconv.FormatFloat(x, 'f', f.decimals, 64)
	}
	return decimal(x)
}

// asFraction writes "13 3/8" with the nearest denominator the format allows;
// a number that no such fraction meets stays decimal.
func (f format) asFraction(x float64) string {
	if math.Abs(x) > 1e9 {
		return decimal(x)
	}
	whole := math.Trunc(x)
	part := math.Abs(x - whole)
	first := 1
	if f.exact {
		first = f.fraction
	}
	for den := first; den <= f.fraction; den++ {
		num := math.Round(part * float64(den))
		if math.Abs(part-num/float64(den)) > 1e-9 {
			continue
		}
		return mixed(x < 0, math.Abs(whole), int(num), den)
	}
	return decimal(x)
}

func mixed(negative bool, whole float64, num, den int) string {
	if num == den {
		whole, num = whole+1, 0
	}
	s := strconv.Itoa(num) + "/" + strconv.Itoa(den)
	switch {
	case num == 0:
		s = decimal(whole)
	case whole > 0:
		s = decimal(whole) + " " + s
	}
	if negative {
		s = "-" + s
	}
	return s
}

// significant is how many digits spreadsheet programs keep and show.
const significant = 15

// decimal writes a number with at most 15 digits, which undoes the noise of
// the binary form a workbook stores: 1.1000000000000001 was typed as 1.1.
func decimal(x float64) string {
	return strconv.FormatFloat(rounded(x), 'f', -1, 64)
}

func rounded(x float64) float64 {
	y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', significant-1, 64), 64)
	if err != nil { // the largest numbers round up to infinity
		return x
	}
	return y
}

// lastDay is 9999-12-31, the last day spreadsheet programs know.
const lastDay = 2958465

// day is the date a serial number stands for. The calendar of 1900 has a 29th
// of February that never was: before it, days are one off.
func day(x float64, from1904 bool) (string, bool) {
	n := int(math.Floor(x))
	if !(x >= 0 && x < lastDay+1) || !from1904 && (n == 0 || n == 60) {
		return "", false
	}
	start := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
	switch {
	case from1904:
		start = time.Date(1904, 1, 1, 0, 0, 0, 0, time.UTC)
	case n < 60:
		start = time.Date(1899, 12, 31, 0, 0, 0, 0, time.UTC)
	}
	return start.AddDate(0, 0, n).Format(time.DateOnly), true
}

// wordDates are the ways a date in words is written that leave no doubt which
// number is the day.
var wordDates = []string{"2 January 2006", "2 Jan 2006", "2-Jan-2006", "2-January-2006", "2-Jan-06", "January 2, 2006", "Jan 2, 2006", "2006-01-02T15:04:05", "2006-01-02 15:04:05"}

// worded gives the yyyy-mm-dd of a date in words; any other text stays as is.
func worded(s string) string {
	for _, form := range wordDates {
		if t, err := time.Parse(form, s); err == nil {
			return t.Format(time.DateOnly)
		}
	}
	return s
}
