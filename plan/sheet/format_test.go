package sheet

import "testing"

// Expected: what the number formats of ECMA-376 part 1, 18.8.30 and 18.8.31
// show for the value, worked out by hand.
func TestFormats(t *testing.T) {
	for _, c := range []struct {
		id   int
		code string
		x    float64
		want string
	}{
		{0, "", 13.375, "13.375"}, {0, "General", 1.1000000000000001, "1.1"}, {0, "", 0.1 + 0.2, "0.3"}, {1, "", 2, "2"}, {2, "", 2, "2.00"},
		{12, "", 13.375, "13 3/8"}, {13, "", 9.625, "9 5/8"}, {0, "# ?/8", 9.5, "9 4/8"}, {0, "# ?/?", 5, "5"}, {0, "# ?/?", 0.375, "3/8"}, {0, "# ?/?", -1.5, "-1 1/2"},
		{0, "# ?/?", 3.14159, "3.14159"}, {0, "# ??/??", 0.0625, "1/16"}, {9, "", 0.25, "25 %"}, {10, "", 0.07, "7 %"}, {0, "0.0%", 0.105, "10.5 %"},
		{0, `0.0" in"`, 12.25, "12.2"}, {0, "0.000;[Red]-0.000", 1.5, "1.500"}, {0, "0.00E+00", 1500, "1500"},
	} {
		if got := formatOf(c.id, c.code).shown(c.x); got != c.want {
			t.Errorf("%d %q: %v shows %q, want %q", c.id, c.code, c.x, got, c.want)
		}
	}
}

func TestFormatKinds(t *testing.T) {
	for _, c := range []struct {
		id          int
		code        string
		date, clock bool
		literal     string
	}{
		{14, "", true, false, ""}, {20, "", false, true, ""}, {22, "", true, false, ""}, {46, "", false, true, ""}, {30, "", true, false, ""},
		{0, "yyyy-mm-dd", true, false, "--"}, {0, `d "de" mmmm`, true, false, "de"}, {0, "[h]:mm", false, true, ""}, {0, "[Red]0.00", false, false, ""},
		{0, `0.00" ppg"`, false, false, "ppg"}, {0, `0\ \m`, false, false, "m"}, {0, `#,##0 "ft";-0 "m"`, false, false, "ft"}, {49, "@", false, false, ""}, {0, "General", false, false, ""},
	} {
		f := formatOf(c.id, c.code)
		if f.date != c.date || f.clock != c.clock || c.literal != "--" && f.literal != c.literal {
			t.Errorf("%d %q: %+v", c.id, c.code, f)
		}
	}
}

// Expected: ECMA-376 part 1, 18.17.4.1 (serial 1 is 1900-01-01, 1904-01-01 is
// serial 0 of the other base); 46450 is 2027-03-04: 2023-03-15 is 45000, and
// 1450 days later.
func TestDays(t *testing.T) {
	for _, c := range []struct {
		x        float64
		from1904 bool
		want     string
	}{
		{1, false, "1900-01-01"}, {59, false, "1900-02-28"}, {61, false, "1900-03-01"}, {45000, false, "2023-03-15"}, {46450, false, "2027-03-04"}, {46450.75, false, "2027-03-04"},
		{2958465, false, "9999-12-31"}, {0, true, "1904-01-01"}, {43538, true, "2023-03-15"},
		{60, false, ""}, {0, false, ""}, {-1, false, ""}, {2958466, false, ""},
	} {
		if got, ok := day(c.x, c.from1904); got != c.want || ok != (c.want != "") {
			t.Errorf("%v: %q, want %q", c.x, got, c.want)
		}
	}
	for in, want := range map[string]string{"2 Oct 2026": "2026-10-02", "02-Oct-2026": "2026-10-02", "October 2, 2026": "2026-10-02", "2026-10-02T00:00:00": "2026-10-02", "10/02/2026": "10/02/2026"} {
		if got := worded(in); got != want {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
	}
}

func TestNames(t *testing.T) {
	for _, c := range []struct {
		col, row int
		want     string
	}{{1, 1, "A1"}, {26, 9, "Z9"}, {27, 10, "AA10"}, {702, 1, "ZZ1"}, {703, 1, "AAA1"}, {16384, 1048576, "XFD1048576"}} {
		if got := name(c.col, c.row); got != c.want {
			t.Errorf("%d,%d: %s", c.col, c.row, got)
		}
		if col, row, ok := coordinates(c.want); !ok || col != c.col || row != c.row {
			t.Errorf("%s: %d,%d", c.want, col, row)
		}
	}
	for _, s := range []string{"", "A", "1", "A0", "A-5", "A99999999", "XFE1", "AAAA1", "A1048577", "A1B"} {
		if _, _, ok := coordinates(s); ok {
			t.Errorf("%q is no cell", s)
		}
	}
}
