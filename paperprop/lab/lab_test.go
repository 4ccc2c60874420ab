package lab_test

import (
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/lab"
)

// A value may be a temperature: a step, a margin and a spread of it are
// differences, which have no offset (common-practice, by hand).
func TestTemperatures(t *testing.T) {
	table := `id,calculation,inputs,expected,tolerance,kind,source,note
t1,replicates,value=[20.1 20.3 20.8] degC,mean=20.4 degC; range=0.7 K,rel 1e-9,common-practice,by hand,
t2,round,value=12.37 degC; step=0.5 K; tie=even,reported=12.5 degC,exact,common-practice,by hand,
t3,round,value=12.37 degC; step=0.5 degC; tie=even,refused,exact,common-practice,a temperature is no difference,
t4,conformity-absolute,value=23.4 degC; limit=23 degC; side=at-most,margin=-0.4 K; verdict=fail,rel 1e-9,common-practice,by hand,
t5,conformity-absolute,value=23.4 degC; limit=75 degF; side=at-most,verdict=pass,exact,common-practice,75 degF is 23.9 degC,
t6,conformity-guard-band,value=8.05 +- 0.02 %; limit=8.0 %; side=at-most; expanded-uncertainty=0.1 %,u(margin)=0.02 %; verdict=undecided,rel 1e-9,common-practice,by hand,
`
	checks, err := calc.ReadChecks("temperatures", strings.NewReader(table))
	if err != nil {
		t.Fatal(err)
	}
	for i := range checks {
		for _, f := range checks[i].Run(find) {
			t.Errorf("%s: %v", checks[i].ID, f)
		}
	}
}

func find(name string) (calc.Calculation, bool) {
	for _, c := range lab.Calculations() {
		if c.ID() == name {
			return c, true
		}
	}
	return nil, false
}
