package result_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"millmaths.example/paperprop/result"
)

const (
	threeFigures  = "rounding to three significant figures; the tie 80.05 goes to 80.0 under half-even (80.1 under half-away-from-zero)"
	isoAnnexB     = "ISO 80000-1:2009 Annex B (B.2/B.3); ISO 31-0:1992 Annex B; text itself not seen here"
	astmE29       = "ASTM E29 rounding rules as given in a public 'Field sampling and testing manual: rounding procedures' page citing ASTM E29"
	is2           = "IS 2:1960 Rules I and II, examples on a public page 'Rounding off' (concrete basics)"
	dataBook      = "Public data book page '2.05 Number rounding' (survey of national rules; refers to ISO 31-0, IS 2, JIS Z 8401)"
	sp811         = "NIST SP 811 (2008) App. B.7.1, example as quoted in a public source file"
	pyDecimal     = "Python 3.11 decimal module, ROUND_HALF_EVEN or ROUND_HALF_UP of x/step"
	ownArithmetic = "no source: arithmetic of the definition, own figures"
)

// step returns the rule of a step that is known to be one.
func step(text string, tie result.Tie) result.Rule {
	r, err := result.Step(text, tie)
	if err != nil {
		panic(err)
	}
	return r
}

func TestRound(t *testing.T) {
	for _, test := range []struct {
		id, value          string
		rule               result.Rule
		want, kind, source string
	}{
		{"SH-123-a", "127.9504", result.Figures(3, result.Even), "128", "memory", threeFigures},
		{"SH-123-b", "0.98765", result.Figures(3, result.Even), "0.988", "memory", threeFigures},
		{"SH-123-c", "1316.9", result.Figures(3, result.Even), "1320", "memory", threeFigures},
		{"SH-123-d", "80.05", result.Figures(3, result.Even), "80.0", "memory", threeFigures},
		{"RND-001", "12.223", step("0.1", result.Even), "12.2", "memory", isoAnnexB},
		{"RND-002", "12.251", step("0.1", result.Even), "12.3", "memory", isoAnnexB},
		{"RND-004", "1222.3", step("10", result.Even), "1220", "memory", isoAnnexB},
		{"RND-006", "1227.5", step("10", result.Even), "1230", "memory", isoAnnexB},
		{"RND-007", "12.25", step("0.1", result.Even), "12.2", "memory", isoAnnexB},
		{"RND-008", "12.35", step("0.1", result.Even), "12.4", "memory", isoAnnexB},
		{"RND-010", "1235.0", step("10", result.Even), "1240", "memory", isoAnnexB},
		{"RND-012", "12.35", step("0.1", result.Away), "12.4", "memory", isoAnnexB},
		{"RND-013", "1225.0", step("10", result.Away), "1230", "memory", isoAnnexB},
		{"RND-014", "1235.0", step("10", result.Away), "1240", "memory", isoAnnexB},
		{"RND-015", "45.71", step("0.1", result.Even), "45.7", "published", astmE29},
		{"RND-017", "45.7500", step("0.1", result.Even), "45.8", "published", astmE29},
		{"RND-020", "45.45105", step("0.1", result.Even), "45.5", "published", astmE29},
		{"RND-021", "4.36", step("1", result.Even), "4", "published", is2},
		{"RND-022", "2.355", step("1", result.Even), "2", "published", is2},
		{"RND-023", "15.205", step("0.1", result.Even), "15.2", "published", is2},
		{"RND-024", "9.625", step("1", result.Even), "10", "published", is2},
		{"RND-027", "12.545001", step("0.01", result.Even), "12.55", "published", is2},
		{"RND-030", "123.454", step("0.01", result.Away), "123.45", "published", dataBook},
		{"RND-034", "123.454", step("0.005", result.Even), "123.455", "published", dataBook},
		{"RND-036", "123.325", step("0.05", result.Even), "123.30", "published", dataBook},
		{"RND-039", "6.9749515", result.Figures(7, result.Even), "6.974952", "published", sp811},
		{"RND-040", "6.9749505", result.Figures(7, result.Even), "6.974950", "published", sp811},
		{"RND-042", "-12.25", step("0.1", result.Away), "-12.3", "library", pyDecimal},
		{"RND-044", "0.75", step("0.5", result.Even), "1.0", "library", pyDecimal},
		{"RND-045", "2.75", step("0.5", result.Away), "3.0", "library", pyDecimal},
		{"RND-046", "127.5", step("5", result.Even), "130", "library", pyDecimal},
		{"RND-047", "132.5", step("5", result.Even), "130", "library", pyDecimal},
		{"RND-048", "132.5", step("5", result.Away), "135", "library", pyDecimal},
		{"RND-049", "42025", step("50", result.Even), "42000", "library", pyDecimal},
		{"RND-050", "42075", step("50", result.Even), "42100", "library", pyDecimal},
		{"RND-051", "2.675", step("0.01", result.Away), "2.68", "library", pyDecimal},
		{"RND-052", "2.675", step("0.01", result.Even), "2.68", "library", pyDecimal},
		{"RND-053", "1.005", step("0.01", result.Away), "1.01", "library", pyDecimal},
		{"RND-054", "0.285", step("0.01", result.Away), "0.29", "library", pyDecimal},
		{"RND-055", "8.345", step("0.01", result.Even), "8.34", "library", pyDecimal},
		{"RND-056", "1.15", step("0.1", result.Away), "1.2", "library", pyDecimal},
		{"RND-059", "12.2451", step("0.1", result.Away), "12.2", "library", pyDecimal},
		{"RND-060", "0.4499", step("0.1", result.Away), "0.4", "library", pyDecimal},
		{"RND-061", "74.46", step("1", result.Away), "74", "library", pyDecimal},
		{"RND-062", "1.0249", step("0.05", result.Away), "1.00", "library", pyDecimal},
		{"RS-201", "0", result.Figures(3, result.Even), "0", "common-practice", ownArithmetic},
		{"RS-206", "99.95", result.Figures(3, result.Even), "100", "library", pyDecimal},
		{"RS-207", "127.74", step("0.5", result.Away), "127.5", "common-practice", ownArithmetic},
		{"RS-208", "-0.04", step("0.1", result.Even), "0.0", "library", pyDecimal},
	} {
		d, err := result.ParseDecimal(test.value)
		if err != nil {
			t.Errorf("%s: ParseDecimal(%q): %v", test.id, test.value, err)
			continue
		}
		if got := test.rule.Text(d); got != test.want {
			t.Errorf("%s: %v: Text(%s) = %s, want %s (%s: %s)", test.id, test.rule, test.value, got, test.want, test.kind, test.source)
		}
		if got := test.rule.Round(d.InexactFloat64()); got != test.want {
			t.Errorf("%s: %v: Round(%s) = %s, want %s (%s: %s)", test.id, test.rule, test.value, got, test.want, test.kind, test.source)
		}
	}
}

func TestStepRefuses(t *testing.T) {
	for _, text := range []string{
		"", "0", "-1", "0.0", "0,1", "1.", "+1", "1e401", "1e-401", "0x1", "Inf", "NaN", "1_0", "1e", "1e1.5", "1.2.3", ".", "-",
		"1234567890123456789", strings.Repeat("1", 65),
	} {
		r, err := result.Step(text, result.Even)
		var input *result.InputError
		if !errors.As(err, &input) || input.Input != "step" || !r.IsZero() {
			t.Errorf("Step(%q) = %v, %v, want an InputError of the step", text, r, err)
		}
	}
	if _, err := result.Step("0.1", 2); err == nil {
		t.Error("Step with a third tie rule is taken")
	}
}

func TestRuleString(t *testing.T) {
	for _, test := range []struct {
		rule result.Rule
		want string
	}{
		{result.Rule{}, "not rounded"},
		{result.Figures(1, result.Away), "1 significant figure, ties away from zero (ISO 80000-1 rule B)"},
		{result.Figures(3, result.Even), "3 significant figures, ties to even (ISO 80000-1 rule A)"},
		{step("0.10", result.Away), "step 0.1, ties away from zero (ISO 80000-1 rule B)"},
		{step("1e20", result.Even), "step 100000000000000000000, ties to even (ISO 80000-1 rule A)"},
	} {
		if got := test.rule.String(); got != test.want {
			t.Errorf("String() = %q, want %q", got, test.want)
		}
	}
}

func TestRulesAreComparable(t *testing.T) {
	for _, text := range []string{"5", "5.0", "0.5e1", "500e-2"} {
		if got := step(text, result.Even); got != result.StepOf(5, 0, result.Even) {
			t.Errorf("Step(%q) = %v, want the step 5", text, got)
		}
	}
}

func TestNoRule(t *testing.T) {
	for _, r := range []result.Rule{
		{}, result.Figures(0, result.Even), result.Figures(16, result.Even), result.Figures(3, 2),
		result.StepOf(0, 0, result.Even), result.StepOf(-1, 0, result.Even), result.StepOf(1, 501, result.Even),
		result.StepOf(1, -501, result.Even), result.StepOf(1, math.MinInt32, result.Even), result.StepOf(1, 0, 2),
	} {
		if !r.IsZero() {
			t.Errorf("%v is a rule", r)
		}
		if got := r.Round(-1.5e20); got != "-150000000000000000000" {
			t.Errorf("%v: Round(-1.5e20) = %s", r, got)
		}
	}
}

// The ends of what a rule takes are taken.
func TestRulesAtTheirEnds(t *testing.T) {
	for _, r := range []result.Rule{
		result.Figures(1, result.Even), result.Figures(15, result.Away), result.StepOf(1, 500, result.Even),
		result.StepOf(1, -500, result.Even), result.StepOf(999_999_999_999_999_999, 0, result.Even),
	} {
		if r.IsZero() {
			t.Error("an end is no rule")
		}
	}
}

func TestRoundWithoutAnswer(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		for _, r := range []result.Rule{{}, result.Figures(3, result.Even), step("0.1", result.Away)} {
			if got := r.Round(x); got != "" {
				t.Errorf("%v: Round(%v) = %q, want nothing", r, x, got)
			}
		}
		if got := result.Exact(x); !got.IsZero() {
			t.Errorf("Exact(%v) = %v, want 0", x, got)
		}
	}
}

func TestParseDecimal(t *testing.T) {
	for text, want := range map[string]decimal.Decimal{
		"4.05":                        decimal.New(405, -2),
		"-.5":                         decimal.New(-5, -1),
		"−2":                          decimal.New(-2, 0),
		"1.5e+3":                      decimal.New(1500, 0),
		"1E-400":                      decimal.New(1, -400),
		"007":                         decimal.New(7, 0),
		"1e400":                       decimal.New(1, 400),
		strings.Repeat("0", 63) + "9": decimal.New(9, 0),
		"-0.0":                        {},
	} {
		if got, err := result.ParseDecimal(text); err != nil || !got.Equal(want) {
			t.Errorf("ParseDecimal(%q) = %v, %v, want %v", text, got, err, want)
		}
	}
	for text, want := range map[string]string{
		"4,05":                  `number is "4,05", want digits with at most one decimal point, such as 4.05 or -1.2e3`,
		strings.Repeat("x", 64): `number is "` + strings.Repeat("x", 64) + `", want digits with at most one decimal point, such as 4.05 or -1.2e3`,
		"1e401":                 `number is "1e401", want an exponent from -400 to 400`,
		"1e99999999999999":      `number is "1e99999999999999", want an exponent from -400 to 400`,
		strings.Repeat("9", 65): `number is "` + strings.Repeat("9", 64) + `"..., want at most 64 bytes`,
	} {
		if _, err := result.ParseDecimal(text); err == nil || err.Error() != want {
			t.Errorf("ParseDecimal(%q): %v, want %s", text, err, want)
		}
	}
}
