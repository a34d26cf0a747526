package expr_test

import "testing"

func cell(name string) string {
	return map[string]string{"x": "A1", "minus": "A2", "md": "A3", "p": "A4", "gap": "A5", "inc": "A6", "mud": "A7", "tvd": "A8", "yes": "B1", "no": "B2", "string.role": "B3", "zero": "A9"}[name]
}

func TestSheet(t *testing.T) {
	for src, want := range map[string]string{
		"x + 1 - 2":                    "A1+1-2",
		"x - (1 - 2)":                  "A1-(1-2)",
		"x + (1 + 2)":                  "A1+(1+2)",
		"(x + 1) * 2 / 4":              "(A1+1)*2/4",
		"x / (2 * 4)":                  "A1/(2*4)",
		"((x))":                        "A1",
		"-x + 1":                       "-A1+1",
		"1 - -x":                       "1-(-A1)",
		"2 * -x":                       "2*(-A1)",
		"-x^2":                         "-(A1^2)", // a spreadsheet reads -A1^2 as (-A1)^2
		"(-x)^2":                       "(-A1)^2",
		"(x + 1)^2":                    "(A1+1)^2",
		"(x^2)^3":                      "(A1^2)^3",
		"x^-0.5":                       "A1^(-0.5)",
		"2 * x^2":                      "2*A1^2",
		"md + 10 ft":                   "A3+3.048",
		"p * 10 %":                     "A4*0.1",
		"1e20 * x":                     "1E+20*A1",
		"1e-7 * x":                     "1E-07*A1",
		"-300 degC - x * 1 K":          "-26.850000000000023-A1*1",
		"x * (-300 degC) / 1 K":        "A1*(-26.850000000000023)/1",
		"mud * g * tvd":                "A7*9.80665*A8",
		"pi / 4 * gap^2":               "PI()/4*A5^2",
		"greater(p, 0, 1 MPa)":         "MAX(A4,0,1000000)",
		"lesser(x, minus)":             "MIN(A1,A2)",
		"sqrt(abs(x)) + exp(ln(x))":    "SQRT(ABS(A1))+EXP(LN(A1))",
		"sin(inc) * cos(inc) * tan(x)": "SIN(A6)*COS(A6)*TAN(A1)",
		"round(x + 1, 0.01) * 2":       "INT(ROUND((A1+1)/0.01,6)+0.5)*0.01*2",
		"band(x, 2: 5, else: minus)":   "IF(A1-2<=1E-09*MAX(ABS(A1),ABS(2)),5,A2)",
		"band(x, 0: 1, 2: 5, else: 6)": "IF(A1<=0,1,IF(A1-2<=1E-09*MAX(ABS(A1),ABS(2)),5,6))",
		"x > 0":                        "A1>0",
		"0 <> x - 1":                   "0<>A1-1",
		"x <= minus":                   "A1-A2<=1E-09*MAX(ABS(A1),ABS(A2))",
		"x > minus":                    "A1-A2>1E-09*MAX(ABS(A1),ABS(A2))",
		"x >= minus":                   "A1-A2>=-1E-09*MAX(ABS(A1),ABS(A2))",
		"x < minus - 1":                "A1-(A2-1)<-1E-09*MAX(ABS(A1),ABS(A2-1))",
		"x = minus":                    "ABS(A1-A2)<=1E-09*MAX(ABS(A1),ABS(A2))",
		"x <> minus":                   "ABS(A1-A2)>1E-09*MAX(ABS(A1),ABS(A2))",
		"yes and no":                   "AND(B1,B2)",
		"yes and no and yes":           "AND(B1,B2,B1)",
		"yes and (no and yes)":         "AND(B1,AND(B2,B1))",
		"yes or no and not yes":        "OR(B1,AND(B2,NOT(B1)))",
		"string.role = 'say \"x\"'":    `EXACT(B3,"say ""x""")`,
		"string.role <> 'liner'":       `NOT(EXACT(B3,"liner"))`,
		"string.role in ('a')":         `EXACT(B3,"a")`,
		"string.role in ('a', 'b')":    `OR(EXACT(B3,"a"),EXACT(B3,"b"))`,
	} {
		if got := compile(t, src).Sheet(cell); got != want {
			t.Errorf("%s: %s, want %s", src, got, want)
		}
	}
}
