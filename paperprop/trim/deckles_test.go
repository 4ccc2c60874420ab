package trim

import (
	"reflect"
	"testing"
)

// A model with so many sets of each parent is the same but for a stock of each.
func TestSplit(t *testing.T) {
	m := &model{
		rows: []row{{1, 2}}, cuts: []cut{{3, 0, 1, 0}}, groups: [][]int32{{0}}, pieces: 4, kinds: 3, runs: 2, strict: true,
		parents: []parent{{width: 9, cost: 9, draws: []draw{{0, 2}}}, {width: 8, cost: 7}}, stocks: []int64{5},
	}
	want := *m
	want.parents = []parent{{width: 9, cost: 9, draws: []draw{{0, 2}, {1, 1}}}, {width: 8, cost: 7, draws: []draw{{2, 1}}}}
	want.stocks = []int64{5, 3, 4}
	if got := m.split([]int64{3, 4}); !reflect.DeepEqual(got, &want) {
		t.Errorf("split is %+v, want %+v", got, want)
	}
	if len(m.stocks) != 1 || len(m.parents[0].draws) != 1 {
		t.Errorf("splitting changes %+v", m)
	}
	if !m.varied() {
		t.Error("costs of 9 and 7 are not varied")
	}
	if m.parents[1].cost = 9; m.varied() {
		t.Error("costs of 9 and 9 are varied")
	}
}

// Ways to make up a cost are listed up to sixty, and looked for a hundred thousand times.
func TestSplitsLimits(t *testing.T) {
	for _, test := range []struct {
		each, cost int64
		parents    int
		ways       int
		ok         bool
	}{
		{1, 59, 2, 60, true}, {1, 60, 2, 61, false}, {2, 199_997, 2, 0, true}, {2, 199_999, 2, 0, false}, {2, 501, 4, 0, false}, {2, 101, 4, 0, true},
	} {
		m := &model{}
		for range test.parents {
			m.parents = append(m.parents, parent{width: 9, cost: test.each})
		}
		if got, ok := m.splits(test.cost); ok != test.ok || len(got) != test.ways {
			t.Errorf("%+v: %d ways, %v", test, len(got), ok)
		}
	}
}
