package table

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"testing/iotest"
	"unicode/utf16"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
)

// parsed is all that reading a file gave.
type parsed struct {
	notes []string
	lines []string // "17 data a|b|c", or with the error behind
	raw   string
	err   string
}

// parse reads a whole table through blocks of the given size.
func parse(source io.Reader, o Options, block int) (p parsed) {
	r, err := Open(source, o)
	if err != nil {
		p.err = err.Error()
		return p
	}
	p.notes = r.Layout().Notes()
	r.block = block
	// The text of the sample is at hand, and would be one block whatever its size.
	r.source, r.text, r.ended = io.MultiReader(bytes.NewReader(r.text), r.source), nil, false
	var raw strings.Builder
	defer func() { p.raw = raw.String() }()
	var b Block
	var rec Record
	for {
		err := r.Next(&b)
		if err == io.EOF {
			return p
		}
		if err != nil {
			p.err = err.Error()
			return p
		}
		for b.Record(&rec) {
			raw.Write(rec.Raw)
			line := fmt.Sprintf("%d %v %s", rec.Line, rec.Class, bytes.Join(rec.Fields, []byte{'|'}))
			if rec.Err != nil {
				line += " ! " + rec.Err.Error()
			}
			p.lines = append(p.lines, line)
		}
	}
}

func parseText(text string, o Options) parsed { return parse(strings.NewReader(text), o, blockSize) }

// The texts of the tests of this file are written for them; what is right
// about each is the convention of people who write such files
// (common-practice), and RFC 4180 of 2005, section 2, for quotes (published).

func TestRecords(t *testing.T) {
	for _, test := range []struct {
		name, text string
		want       []string
	}{
		{"line ends of all three kinds", "a,b\r\n1,2\r3,4\n5,6\r\n", []string{"2 data 1|2", "3 data 3|4", "4 data 5|6"}},
		{"carriage returns alone", "a;b\r1;2\r3;4\r", []string{"2 data 1|2", "3 data 3|4"}},
		{"no line end at the end", "a,b\n1,2", []string{"2 data 1|2"}},
		{"blank lines and lines of empty cells", "a,b\n\n1,2\n,\n  \n3,4\n\n",
			[]string{"2 blank ", "3 data 1|2", "4 blank |", "5 blank ", "6 data 3|4", "7 blank "}},
		{"delimiter at the line end", "a;b;\n1;2;\n3;4\n5;6;;\n5;6;7\n",
			[]string{"2 data 1|2|", "3 data 3|4", "4 data 5|6|", "5 data 5|6|7"}},
		{"delimiter at the line end, no cell there", "a;b;\n1;2;\n3;4\n5;6;;\n", []string{"2 data 1|2", "3 data 3|4", "4 data 5|6"}},
		{"blanks around cells", "a, b\n 1 ,\t2 \n\" 3 \" , \"4\" \n5\u00A0,\u202F6\n\u00A07\u202F,\u202F8\u00A0\n",
			[]string{"2 data 1|2", "3 data 3|4", "4 data 5|6", "5 data 7|8"}},
		{"tabs before quotes", "a,b\n1,\t\"x,y\"\n", []string{"2 data 1|x,y"}},
		{"tabs before quotes between tabs", "a\tb\n\t\"x\ty\"\n", []string{"2 data |x\ty"}},
		{"a line end right behind a quote", "a,b\n\"\nx\",1\n\"\r\",2\n", []string{"2 data \nx|1", "4 data \r|2"}},
		{"doubled quotes, delimiters and line ends in quotes", "a,b\n\"x \"\"y\"\"\",1\n\"p,q\r\nr\",2\nz,3\n",
			[]string{"2 data x \"y\"|1", "3 data p,q\r\nr|2", "5 data z|3"}},
		{"a quote within a cell is text", "a,b\n32.5\",1\nx\"y\"z,2\n", []string{"2 data 32.5\"|1", "3 data x\"y\"z|2"}},
		{"text after a closing quote", "a,b\n\"x\"y,1\n\"\"z,2\n3,4\n", []string{
			"2 bad x|1 ! f:2:1: a \"y\": text after a closing quote, want a quote within quotes written twice: \"\"",
			"3 bad |2 ! f:3:1: a \"z\": text after a closing quote, want a quote within quotes written twice: \"\"",
			"4 data 3|4"}},
		{"rows within quotes, in the last cell", "id,force,note\n1,5,\"see\n2,6,\n3,7,12\"\n4,8,\n", []string{
			"2 bad 1|5|see\n2,6,\n3,7,12 ! f:2:3: note \"see\\n2,6,\\n3,7,12\": the quotes hold what looks like rows (the record has lines 2 to 4), want every quote closed in its own cell",
			"5 data 4|8|"}},
		{"rows within quotes, in a cell between", "id,name,force\n1,\"a,5\n2,b\",6\n", []string{
			"2 bad 1|a,5\n2,b|6 ! f:2:2: name \"a,5\\n2,b\": the quotes hold what looks like rows (the record has lines 2 to 3), want every quote closed in its own cell"}},
		{"rows within quotes, the first of them at the line end", "id,force,note\n1,5,\"\n2,6,\"\n3,7,\n", []string{
			"2 bad 1|5|\n2,6, ! f:2:3: note \"\\n2,6,\": the quotes hold what looks like rows (the record has lines 2 to 3), want every quote closed in its own cell",
			"4 data 3|7|"}},
		{"quotes for the same again, and a delimiter at the line end", "id;side;force;\n1;top;5;\n2;\";6;\n3;\";7;\n4;top;8;\n", []string{"2 data 1|top|5",
			"3 bad 2|;6;\n3;|7 ! f:3:2: side \";6;\\n3;\": the quotes hold what looks like rows (the record has lines 3 to 4), want every quote closed in its own cell",
			"5 data 4|top|8"}},
		{"quotes for the same again, in the last cell, and a delimiter at the line end", "id;force;note;\n1;5;torn;\n2;6;\";\n3;7;\";\n4;8;;\n", []string{"2 data 1|5|torn",
			"3 bad 2|6|;\n3;7; ! f:3:3: note \";\\n3;7;\": the quotes hold what looks like rows (the record has lines 3 to 4), want every quote closed in its own cell",
			"5 data 4|8|"}},
		{"rows within quotes, of a reading below a limit and of none", "id,force,note\nA,<5,\"\nB,<5,\"\nC,n/a,\"\nD,n/a,\"\nE,-,see\n", []string{
			"2 bad A|<5|\nB,<5, ! f:2:3: note \"\\nB,<5,\": the quotes hold what looks like rows (the record has lines 2 to 3), want every quote closed in its own cell",
			"4 bad C|n/a|\nD,n/a, ! f:4:3: note \"\\nD,n/a,\": the quotes hold what looks like rows (the record has lines 4 to 5), want every quote closed in its own cell",
			"6 data E|-|see"}},
		{"inches in two columns, and quotes around one of them", "force,roll,core\n44.7,40\" wide,\"12\"\"\n12.4,40\",\n2.6,,3\"\n", []string{
			"2 bad 44.7|40\" wide|12\"\n12.4,40 ! f:2:3: core \"12\\\"\\n12.4,40\": the quotes hold what looks like rows (the record has lines 2 to 3), want every quote closed in its own cell",
			"4 data 2.6||3\""}},
		{"inches in quotes, their sign alone below, and an empty cell behind", "force;roll;core\n7.7;none;\"16\"\"\n3.9;\"\"\";\"\"\n60.3;;\n", []string{
			"2 bad 7.7|none|16\"\n3.9;\" ! f:2:3: core \"16\\\"\\n3.9;\\\"\": the quotes hold what looks like rows (the record has lines 2 to 3), want every quote closed in its own cell",
			"4 data 60.3||"}},
		{"a remark of three lines, the last of as many words between commas as a row has cells", "id,force,note\n1,5,\"torn,\n\n, at the edge, left\"\n", []string{"2 data 1|5|torn,\n\n, at the edge, left"}},
		{"rows within quotes, and text behind", "id,note\n1,\"see\n2,x\n3,12\" wide\n4,y\n", []string{
			"2 bad 1|see\n2,x\n3,12 ! f:2:2: note \"wide\": text after a closing quote (the record has lines 2 to 4), want a quote within quotes written twice: \"\"",
			"5 data 4|y"}},
		{"a remark of two lines", "id,force,note\n1,5,\"see page 3, left\nand 4\"\n", []string{"2 data 1|5|see page 3, left\nand 4"}},
		{"a remark of two lines, each of more words than a row has cells", "id,force,note\n1,5,\"torn, 3 mm, left\nwet, 4 mm, right\"\n", []string{"2 data 1|5|torn, 3 mm, left\nwet, 4 mm, right"}},
		{"cells too many and too few", "a,b,c\n1,2,3\n1,2,3,4\n1,2\n1,2,\n", []string{"2 data 1|2|3",
			"3 bad 1|2|3|4 ! f:3:4: \"4\": 4 cells, want 3 as in the heads of line 1",
			"4 bad 1|2 ! f:4:3: c: the row ends before this cell, want 3 cells as in the heads of line 1",
			"5 data 1|2|"}},
		{"heads and units come again", "id,force\n,N\nx,1.5\nid,force\n,N\ny,2.5\n,N\n",
			[]string{"3 data x|1.5", "4 head id|force", "5 units |N", "6 data y|2.5", "7 units |N"}},
		{"footers", "id,force\nx,1.5\nMean,1.5\n\"Std. dev.\",0.1\nn = 2,\nMittelwert:,1.5,\ns (n-1),0\nécart-type,1\nΣ,3\nAVERAGE,2\nZentralwert,2\nS,1.5\nMeanwood,1.5\n", []string{
			"2 data x|1.5", "3 footer Mean|1.5", "4 footer Std. dev.|0.1", "5 footer n = 2|", "6 footer Mittelwert:|1.5|", "7 footer s (n-1)|0",
			"8 footer écart-type|1", "9 footer Σ|3", "10 footer AVERAGE|2", "11 footer Zentralwert|2", "12 data S|1.5", "13 data Meanwood|1.5"}},
		{"footers of several words", "id;force\nx;1,5\nMean MD;1,5\nMean of 2;1,5\nMean, MD;1,5\nCV, %;3\nStandard dev.;0\nMin value;1\nMittelwert quer;2\nStd A;1,5\nMax Planck;1,5\n", []string{
			"2 data x|1,5", "3 footer Mean MD|1,5", "4 footer Mean of 2|1,5", "5 footer Mean, MD|1,5", "6 footer CV, %|3", "7 footer Standard dev.|0",
			"8 footer Min value|1", "9 footer Mittelwert quer|2", "10 data Std A|1,5", "11 data Max Planck|1,5"}},
		{"a statistic behind a name", "id;force\nMD 1;1,5\nMD 2;2,5\nMD mean;2\nMD s;0,7\nMD n;2\nMD max;2,5\n", []string{
			"2 data MD 1|1,5", "3 data MD 2|2,5", "4 footer MD mean|2",
			`5 bad MD s|0,7 ! f:5:1: id "MD s": may name a statistic, as no reading is named alike, want another name, if it is a reading`,
			`6 bad MD n|2 ! f:6:1: id "MD n": may name a statistic, as no reading is named alike, want another name, if it is a reading`,
			`7 bad MD max|2,5 ! f:7:1: id "MD max": may name a statistic, as no reading is named alike, want another name, if it is a reading`}},
		{"footers named where others have a number", "id;no;force [N]\nH7;1;1,5\nH7;2;2,5\nH7;Mean;2\nH7;s;0,7\n9;Max.;2,5\nH7;3;max\nH7;;1\n", []string{
			"2 data H7|1|1,5", "3 data H7|2|2,5", "4 footer H7|Mean|2", "5 footer H7|s|0,7", "6 footer 9|Max.|2,5", "7 data H7|3|max",
			"8 bad H7||1 ! f:8:2: no: no name, and a total or a mean may have none, want a name, if it is a reading"}},
		{"numbers that some rows lack", "id;no;force [N]\nH7;1;1,5\nH7;2;2,5\nH7;;2\nH9;1;2,5\nH9;2;3,5\nH9;;3\n", []string{
			"2 data H7|1|1,5", "3 data H7|2|2,5", "4 data H7||2", "5 data H9|1|2,5", "6 data H9|2|3,5", "7 data H9||3"}},
		{"readings that do not count, some of them missing", "id;temperature;force [N]\nA;23;1,5\nB;22;2,5\nC;;2\n", []string{"2 data A|23|1,5", "3 data B|22|2,5", "4 data C||2"}},
		{"ones that do not count, one of them missing", "id;plies;force [N]\nA;1;1,5\nB;1;2,5\nC;;2\n", []string{"2 data A|1|1,5", "3 data B|1|2,5", "4 data C||2"}},
		{"no readings in front of the names, and a mean without one", "thickness [mm];id;force [N]\n;A;1,5\n;B;2,5\n;;2\n", []string{"2 data |A|1,5", "3 data |B|2,5",
			"4 bad ||2 ! f:4:2: id: no name, and a total or a mean may have none, want a name, if it is a reading"}},
		{"a first column that was not measured in the last row", "temperature;force [N]\n23;1,5\n22;2,5\nn/a;2\n", []string{"2 data 23|1,5", "3 data 22|2,5", "4 data n/a|2"}},
		{"footers named behind", "no;force [N];note\n1;1,5;ok\n2;2,5;\n;2;Mean\n;0,7;s\n;2;2\n", []string{
			"2 data 1|1,5|ok", "3 data 2|2,5|", "4 footer |2|Mean", "5 footer |0,7|s", "6 bad |2|2 ! f:6:1: no: no name, and a total or a mean may have none, want a name, if it is a reading"}},
		{"a side and a person among others", "no;force [N];side;by\n1;1,5;s;Max\n2;2,5;n;Jo\n", []string{"2 data 1|1,5|s|Max", "3 data 2|2,5|n|Jo"}},
		{"a percentile named behind", "no;force [N];note\n1;1,5;ok\n2;2,5;\n3;2;Mean\n4;2,4;P95\n", []string{"2 data 1|1,5|ok", "3 data 2|2,5|", "4 footer 3|2|Mean",
			`5 bad 4|2,4|P95 ! f:5:3: note "P95": may name a percentile, as no reading is named alike, want another name, if it is a reading`}},
		{"a mean named behind, where half of the others have a number", "force [N];no\n81;1\n83;\n82;Mean\n", []string{"2 data 81|1", "3 data 83|", "4 footer 82|Mean"}},
		{"a column of what was computed", "id;kind;force [N]\nA;mean;1,5\nA;s;0,5\n", []string{"2 data A|mean|1,5", "3 data A|s|0,5"}},
		{"signs of statistics", "id;force [N]\nA;1,5\nx̅;1,5\nμ;1,5\nv [%];1,5\nV%;2\nV;1,5\nv;1,5\n%V;2\n", []string{
			"2 data A|1,5", "3 footer x̅|1,5", "4 footer μ|1,5", "5 footer v [%]|1,5", "6 footer V%|2", "7 data V|1,5", "8 data v|1,5", "9 footer %V|2"}},
		{"a rule below the heads", "id;force\n====;====\n;N\n----;---\nA;1,5\nid;force\n====;====\n;N\n----;---\nB;-\n--;--\n", []string{
			"5 data A|1,5", "6 head id|force", "7 head ====|====", "8 units |N", "9 head ----|---", "10 data B|-",
			`11 bad --|-- ! f:11:1: id "--": no name, and a total or a mean may have none, want a name, if it is a reading`}},
		{"a rule below an empty line", "id;force [N]\r\r\n----;--\r\r\nA;1,5\r\r\n", []string{"4 blank ", "5 data A|1,5", "6 blank "}},
		{"a rule of equals signs", "id;force [N]\n==;=====\nA;1,5\n", []string{"3 data A|1,5"}},
		{"a rule of underscores", "id;force [N]\n__;_____\nA;1,5\n", []string{"3 data A|1,5"}},
		{"a mean named behind, Media", "force [N];note\n1,5;ok\n2,5;\n2;Media\n0,7;s\n", []string{"2 data 1,5|ok", "3 data 2,5|", "4 footer 2|Media", "5 footer 0,7|s"}},
		{"no rule", "id;force\n--;---\nA;1,5\n", []string{"2 data --|---", "3 data A|1,5"}},
		{"no rule, as nothing stands in its first cell", "id;force\n;-----\nA;1,5\n", []string{"2 data |-----", "3 data A|1,5"}},
		{"no rule in one column", "force\n---\n1,5\n", []string{"2 data ---", "3 data 1,5"}},
		{"names that are no footers among others", "id;by;n;force [N]\nH7;Jo;x;1\nH7;Max;n;max\n", []string{"2 data H7|Jo|x|1", "3 data H7|Max|n|max"}},
		{"counts and limits below a footer", "id;force\nN;31\nMean;26,7\nN;14\nN;15\n95% CI;1,2\nUCL;30\nSpec;25\n95 A;1,5\n\"Mean\";1\nN;1,5\n", []string{
			`2 bad N|31 ! f:2:1: id "N": may name a statistic, as no reading is named alike, want another name, if it is a reading`,
			"3 footer Mean|26,7", "4 footer N|14", "5 footer N|15", "6 footer 95% CI|1,2", "7 footer UCL|30", "8 footer Spec|25",
			"9 data 95 A|1,5", "10 footer Mean|1",
			`11 bad N|1,5 ! f:11:1: id "N": may name a statistic, as no reading is named alike, want another name, if it is a reading`}},
		{"statistics named as specimens may be", "id;force\nA1;81\nA2;83\nMean;82\nQ1;81,5\nP95;82,9\n3s;4\ns2;2\n95 %;82,9\nS;1,4\nResult;82\nTotal A;164\n", []string{
			"2 data A1|81", "3 data A2|83", "4 footer Mean|82",
			`5 bad Q1|81,5 ! f:5:1: id "Q1": may name a quartile, as no reading is named alike, want another name, if it is a reading`,
			`6 bad P95|82,9 ! f:6:1: id "P95": may name a percentile, as no reading is named alike, want another name, if it is a reading`,
			`7 bad 3s|4 ! f:7:1: id "3s": may name a multiple of s, as no reading is named alike, want another name, if it is a reading`,
			`8 bad s2|2 ! f:8:1: id "s2": may name a variance, as no reading is named alike, want another name, if it is a reading`,
			`9 bad 95 %|82,9 ! f:9:1: id "95 %": may name a percentile, as no reading is named alike, want another name, if it is a reading`,
			`10 bad S|1,4 ! f:10:1: id "S": may name a statistic, as no reading is named alike, want another name, if it is a reading`,
			`11 bad Result|82 ! f:11:1: id "Result": may name a total or another result, as no reading is named alike, want another name, if it is a reading`,
			`12 bad Total A|164 ! f:12:1: id "Total A": may name a total or another result, as no reading is named alike, want another name, if it is a reading`}},
		{"specimens named as statistics may be", "id;force\nQ1;81\nQ4;83\nP95;82,9\nP12;81\n3s;4\n10s;5\ns2;2\ns3;2\n95 %;82,9\n12 %;81\nS;1,4\nA;81\nMean;82\n", []string{
			"2 data Q1|81", "3 data Q4|83", "4 data P95|82,9", "5 data P12|81", "6 data 3s|4", "7 data 10s|5", "8 data s2|2", "9 data s3|2",
			"10 data 95 %|82,9", "11 data 12 %|81", "12 data S|1,4", "13 data A|81", "14 footer Mean|82"}},
		{"numbers of specimens that are written as percentiles", "id;force\nP202611271;81\nP95;83\nMean;82\n", []string{
			"2 data P202611271|81", "3 data P95|83", "4 footer Mean|82"}},
		{"numbers of specimens longer than those of percentiles", "id;force\nP2026112701;81\nP95;83\nMean;82\n", []string{"2 data P2026112701|81",
			`3 bad P95|83 ! f:3:1: id "P95": may name a percentile, as no reading is named alike, want another name, if it is a reading`, "4 footer Mean|82"}},
		{"a multiple of s, written out", "id;force\nA1;81\nA2;83\n1.96 sigma;2\n", []string{"2 data A1|81", "3 data A2|83",
			`4 bad 1.96 sigma|2 ! f:4:1: id "1.96 sigma": may name a multiple of s, as no reading is named alike, want another name, if it is a reading`}},
		{"letters", "id;force\nS;81\nZ;83\nMean;82\n", []string{"2 data S|81", "3 data Z|83", "4 footer Mean|82"}},
		{"quarters alone", "id;force\nQ1;81\nQ2;83\nMean;82\n", []string{"2 data Q1|81", "3 data Q2|83", "4 footer Mean|82"}},
		{"quarters alone, with several rows each", "id;force\nQ1;81\n;82\nQ2;83\nMean;82\n", []string{"2 data Q1|81", "3 data |82", "4 data Q2|83", "5 footer Mean|82"}},
		{"sides of a sheet, where nothing was computed", "id;force\nA1;81\nS;83\nJo Max;82\n", []string{"2 data A1|81", "3 data S|83", "4 data Jo Max|82"}},
		{"a quartile among numbers", "lot;no;force [N]\nH7;1;81\nH7;2;83\nH7;Q1;81,5\n", []string{"2 data H7|1|81", "3 data H7|2|83",
			`4 bad H7|Q1|81,5 ! f:4:2: no "Q1": may name a quartile, as no reading is named alike, want another name, if it is a reading`}},
		{"a quartile among numbers of reels", "lot;reel;force [N]\nH7;311;81\nH7;318;83\nH7;Q1;81,5\n", []string{"2 data H7|311|81", "3 data H7|318|83",
			`4 bad H7|Q1|81,5 ! f:4:2: reel "Q1": may name a quartile, as no reading is named alike, want another name, if it is a reading`}},
		{"a reading with its unit, among numbers", "lot;moisture;force [N]\nA;5;81\nB;7;80\nC;5 %;82\n", []string{"2 data A|5|81", "3 data B|7|80", "4 data C|5 %|82"}},
		{"rows without a number below numbers", "no;force\n1;81\n2;83\nWidst;82\nno;force\n3;84\nBreidd;82\n", []string{"2 data 1|81", "3 data 2|83",
			`4 bad Widst|82 ! f:4:1: no "Widst": no number, as other rows have, and a total or a mean may be named so, want a number, if it is a reading`,
			"5 head no|force", "6 data 3|84",
			`7 bad Breidd|82 ! f:7:1: no "Breidd": no number, as other rows have, and a total or a mean may be named so, want a number, if it is a reading`}},
		{"numbers with marks below numbers", "no;force\n1;81\n2;83\n2R;82\n#4;82\n3a;82\n5*;83\n4;84\nWidst;82\n", []string{
			"2 data 1|81", "3 data 2|83", "4 data 2R|82", "5 data #4|82", "6 data 3a|82", "7 data 5*|83", "8 data 4|84",
			`9 bad Widst|82 ! f:9:1: no "Widst": no number, as other rows have, and a total or a mean may be named so, want a number, if it is a reading`}},
		{"a total named behind the readings", "force [N];bale\n81;B1\n83;B2\n164;Total\n82;P50\n82;\n", []string{"2 data 81|B1", "3 data 83|B2",
			`4 bad 164|Total ! f:4:2: bale "Total": may name a total or another result, as no reading is named alike, want another name, if it is a reading`,
			`5 bad 82|P50 ! f:5:2: bale "P50": may name a percentile, as no reading is named alike, want another name, if it is a reading`,
			"6 bad 82| ! f:6:2: bale: no name, and a total or a mean may have none, want a name, if it is a reading"}},
		{"a percentile behind the readings, fewer than half of them with a number", "force [N];roll\n81;B1\n83;B2\n82;7\n84;P95\n", []string{"2 data 81|B1", "3 data 83|B2", "4 data 82|7",
			`5 bad 84|P95 ! f:5:2: roll "P95": may name a percentile, as no reading is named alike, want another name, if it is a reading`}},
		{"settings behind the readings, half of them numbers", "force [N];roll\n81;B1\n83;9\n82;7\n84;P95\n", []string{"2 data 81|B1", "3 data 83|9", "4 data 82|7", "5 data 84|P95"}},
		{"remarks and sides behind the readings", "force [N];side;note\n81;s;\n83;n;Max\n82;s;\n", []string{"2 data 81|s|", "3 data 83|n|Max", "4 data 82|s|"}},
		{"a judgement that the last row lacks", "force [N];pass\n81;yes\n83;yes\n82;\n", []string{"2 data 81|yes", "3 data 83|yes", "4 data 82|"}},
		{"numbers among names", "no;force\n1;81\nBlank;83\n2;82\nRef;82\n", []string{"2 data 1|81", "3 data Blank|83", "4 data 2|82", "5 data Ref|82"}},
		{"a total and a mean without name", "id;force\nA1;81\nA2;83\nA3;82\n\n;246\nMean;82\n;82\n", []string{"2 data A1|81", "3 data A2|83", "4 data A3|82", "5 blank ",
			"6 bad |246 ! f:6:1: id: no name, and a total or a mean may have none, want a name, if it is a reading", "7 footer Mean|82",
			"8 bad |82 ! f:8:1: id: no name, and a total or a mean may have none, want a name, if it is a reading"}},
		{"a name for the rows below it, and a mean without one", "id;force\nA;81\n;83\nB;82\n;85\nMean;82,75\n;1,7\n", []string{
			"2 data A|81", "3 data |83", "4 data B|82", "5 data |85", "6 footer Mean|82,75",
			"7 bad |1,7 ! f:7:1: id: no name, and a total or a mean may have none, want a name, if it is a reading"}},
		{"names that some rows lack", "id;force\nA;81\n;83\nB;82\nC;85\nD;85\n;1\n", []string{"2 data A|81", "3 data |83", "4 data B|82", "5 data C|85", "6 data D|85", "7 data |1"}},
		{"means without name above heads", "id;force\nA;81\nB;83\n;82\nid;force\nC;82\nD;85\n;83,5\n", []string{"2 data A|81", "3 data B|83",
			"4 bad |82 ! f:4:1: id: no name, and a total or a mean may have none, want a name, if it is a reading",
			"5 head id|force", "6 data C|82", "7 data D|85",
			"8 bad |83,5 ! f:8:1: id: no name, and a total or a mean may have none, want a name, if it is a reading"}},
		{"a first column of nothing", ";id;force\n;A;81\n;B;83\n", []string{"2 data |A|81", "3 data |B|83"}},
		{"a footer with fewer cells", "id,b,c\nx,1.5,2\n\nTotal,3\n", []string{"2 data x|1.5|2", "3 blank ", "4 footer Total|3"}},
		{"a NUL", "a,b\n1,2\n1\x00,2\n3,4\n", []string{"2 data 1|2",
			"3 bad 1\x00|2 ! f:3:1: a \"1\\x00\": a NUL character in it, want UTF-8 text", "4 data 3|4"}},
		{"a NUL before all else", "a,b\n\x001,2\n3,4\n", []string{
			"2 bad \x001|2 ! f:2:1: a \"\\x001\": a NUL character in it, want UTF-8 text", "3 data 3|4"}},
		{"heads on each page, and the end as old programs write it", "id,force\n1,1.5\n\fid,force\n2,2.5\n\f\n\f\"3\",3.5\n\x1a", []string{
			"2 data 1|1.5", "3 head id|force", "4 data 2|2.5", "5 blank ", "6 data 3|3.5", "7 blank "}},
		{"one column, with blanks", "tensile  force\n34.5\n1 233.1\n", []string{"2 data 34.5", "3 data 1 233.1"}},
		{"one column of lists", "force of all\n34.5  35.1\n", []string{"2 data 34.5  35.1"}},
		{"one column", "force (N)\n34.5\n33.1\n", []string{"2 data 34.5", "3 data 33.1"}},
		{"one column, decimal comma", "force [N]\n34,5\n33,1\n", []string{"2 data 34,5", "3 data 33,1"}},
		{"minus behind a delimiter", "aaa,b\n1,-22222\n-1,,\n", []string{"2 data 1|-22222", "3 data -1|"}},
		{"two carriage returns before each line feed", "id;force\r\r\n;N\r\r\nA;1,5\r\r\nMean;1,5\r\r\nN;1\r\r\n", []string{
			"4 blank ", "5 data A|1,5", "6 blank ", "7 footer Mean|1,5", "8 blank ", "9 footer N|1", "10 blank "}},
		{"empty lines between heads and units", "id;force\n\n;\n;N\nA;1,5\n\nid;force\n\n;N\nB;2,5\n", []string{
			"5 data A|1,5", "6 blank ", "7 head id|force", "8 blank ", "9 units |N", "10 data B|2,5"}},
		{"heads in several lines", "id;force;mass\nno.;max.;of a sheet\n\n;at break;\n;N;g\nA;1,5;2\nid;force;mass\nno.;max.;of a sheet\n;at break;\n;N;g\nB;2,5;2\n", []string{
			"6 data A|1,5|2", "7 head id|force|mass", "8 head no.|max.|of a sheet", "9 head |at break|", "10 units |N|g", "11 data B|2,5|2"}},
		{"one file behind another, each with its mark", "\ufeffid;force\nA;1,5\n\ufeffid;force\nB;\ufeff2,5\n", []string{"2 data A|1,5", "3 head id|force", "4 data B|2,5"}},
		{"heads alone", "a,b\n", nil},
		{"heads and units alone", "a,b\nmm,N\n", nil},
		{"a test piece called as a unit", "id,force\nA,n/a\nB,1.5\n", []string{"2 data A|n/a", "3 data B|1.5"}},
		{"a row of units that says so", "id;date;time;force;note\nUnit:;dd.mm.yyyy;[hh:mm:ss];[N];text\nA;1.2.2026;12:30:00;1,5;x\nUnit:;dd.mm.yyyy;[hh:mm:ss];[N];text\n", []string{"3 data A|1.2.2026|12:30:00|1,5|x", "4 units Unit:|dd.mm.yyyy|[hh:mm:ss]|[N]|text"}},
		{"a unit that is unknown", "id;force;x;note\n;N;a.u.;\nA;1,5;7;\n;N;a.u.\n", []string{"3 data A|1,5|7|", "4 units |N|a.u."}},
		{"more units unknown than known", "id;force;x;y\n;N;a.u.;r.u.\nA;1,5;7;8\n", []string{"2 data |N|a.u.|r.u.", "3 data A|1,5|7|8"}},
		{"how times are written, beside one unit", "id;begin;end;force\n;hh:mm;hh:mm;N\nA;12:30;12:45;1,5\n", []string{"3 data A|12:30|12:45|1,5"}},
		{"a test piece of side N", "id;side;force\nx;N;torn\ny;N;1,5\n", []string{"2 data x|N|torn", "3 data y|N|1,5"}},
		{"a piece without name of side N", "id;side;force\n;N;torn\ny;N;1,5\n", []string{"2 data |N|torn", "3 data y|N|1,5"}},
		{"a test piece called unit", "id;note;force\nunit;text;torn\nA;x;1,5\n", []string{"2 data unit|text|torn", "3 data A|x|1,5"}},
		{"limits above the rows", "id;force [N]\nSoll;31\nTol.;2\nUntergrenze;29\nA;30,5\n", []string{"2 footer Soll|31", "3 footer Tol.|2", "4 footer Untergrenze|29", "5 data A|30,5"}},
		{"test pieces called as units, below heads that come again", "id;force\nA;1,5\nid;force\nC;2,5\nN;3,5\n", []string{"2 data A|1,5", "3 head id|force", "4 data C|2,5", "5 data N|3,5"}},
		{"two names called as units", "id,side,force\nA,T,-\nB,T,1.5\n", []string{"2 data A|T|-", "3 data B|T|1.5"}},
		{"a test piece called as a unit, alone", "id,force\nA,n/a\n", []string{"2 data A|n/a"}},
		{"units over numbers that begin late", "id,force\n-,N\nx,n/a\ny,1.5\n", []string{"3 data x|n/a", "4 data y|1.5"}},
		{"units over no numbers", "id,force\n,N\nx,n/a\n", []string{"3 data x|n/a"}},
		{"the unit of one column", "force\nN\nn/a\n", []string{"3 data n/a"}},
		{"one column in which nothing was measured", "force\nn/a\nn/a\n", []string{"2 data n/a", "3 data n/a"}},
		{"the delimiter named on top", "sep=;\na,x;b,y\n1,5;2,5\n", []string{"3 data 1,5|2,5"}},
		{"what was not measured is no head", "id,force [N]\nx,n/m\ny,1.5\n", []string{"2 data x|n/m", "3 data y|1.5"}},
		{"a last remark with a tab", "a,b\n1,2\n3,4\nRemark:\tchecked\n", []string{"2 data 1|2", "3 data 3|4",
			"4 bad Remark:\tchecked ! f:4:2: b: the row ends before this cell, want 2 cells as in the heads of line 1"}},
	} {
		got := parseText(test.text, Options{Name: "f"})
		if got.err != "" {
			t.Errorf("%s: error %s", test.name, got.err)
		}
		if diff := cmp.Diff(test.want, got.lines); diff != "" {
			t.Errorf("%s: records (-want +got):\n%s", test.name, diff)
		}
	}
}

// A name of a total or an extreme that is the only remark, in the last rows, may name them:
// a remark in other rows, or another word among them, is one (common-practice).
func TestRemarksThatName(t *testing.T) {
	const doubt = `may name a total or another result, as no reading is named alike, want another name, if it is a reading`
	for _, test := range []struct{ remarks, want string }{
		{";;total", "2 data 1|\n3 data 1|\n4 bad 1|total ! f:4:2: note \"total\": " + doubt},
		{";;min;max", "2 data 1|\n3 data 1|\n4 bad 1|min ! f:4:2: note \"min\": " + doubt + "\n5 bad 1|max ! f:5:2: note \"max\": " + doubt},
		{";total;", "2 data 1|\n3 data 1|total\n4 data 1|"},
		{"total;total;total", "2 data 1|total\n3 data 1|total\n4 data 1|total"},
		{";;R", "2 data 1|\n3 data 1|\n4 data 1|R"},
		{";;P95", "2 data 1|\n3 data 1|\n4 data 1|P95"},
	} {
		text := "force [N];note\n1;" + strings.ReplaceAll(test.remarks, ";", "\n1;") + "\n"
		got := parseText(text, Options{Name: "f"})
		if lines := strings.Join(got.lines, "\n"); lines != test.want || got.err != "" {
			t.Errorf("remarks %s: %s\n%s\nwant\n%s", test.remarks, got.err, lines, test.want)
		}
	}
	blocks := "force [N];note\n1;\n2;total\nforce [N];note\n1;\n2;total\n" // one total for each block
	if got := parseText(blocks, Options{Name: "f"}); strings.Count(strings.Join(got.lines, "\n"), doubt) != 2 {
		t.Errorf("%q, want both totals refused", got.lines)
	}
}

// A remark below the rows is no line of heads, where another has an expected name.
func TestRemarksAtTheEnd(t *testing.T) {
	got := parseText("id;force [N]\nA;1,5\n// jaws cleaned\n;;\n*** end ***\n", Options{Name: "f", Heads: []string{"force"}})
	want := []string{"2 data A|1,5",
		"3 bad // jaws cleaned ! f:3:2: force: the row ends before this cell, want 2 cells as in the heads of line 1", "4 blank ||",
		"5 bad *** end *** ! f:5:2: force: the row ends before this cell, want 2 cells as in the heads of line 1"}
	if diff := cmp.Diff(want, got.lines); diff != "" || got.err != "" {
		t.Errorf("records (-want +got), %s:\n%s", got.err, diff)
	}
}

// An expected name above the heads, or one that a head bears too, turns no table.
func TestNotTurned(t *testing.T) {
	for _, text := range []string{"force;34\nby;Jo\n\nid;Kraft;Breite\nA;34,5;15\n", "id;force;mass\nforce;34,5;2\n"} {
		if got := parseText(text, Options{Heads: []string{"force"}}); got.err != "" || len(got.lines) != 1 {
			t.Errorf("%q: %q, %s, want a row", text, got.lines, got.err)
		}
	}
	if got := parseText("id;force\n;34,5\n", Options{Heads: []string{""}}); got.err != "" || len(got.lines) != 1 { // no name is no name in front of a row
		t.Errorf("%q, %s, want a row", got.lines, got.err)
	}
}

// A column of readings, expected or with a unit, has no names.
func TestReadingsAreNoNames(t *testing.T) {
	want := []string{"2 data 3s|5 %", "3 data |6", "4 data 4|6"}
	for text, heads := range map[string][]string{"time;moisture\n3s;5 %\n;6\n4;6\n": {"time"}, "time [s];moisture\n3s;5 %\n;6\n4;6\n": nil} {
		if got := parseText(text, Options{Heads: heads}); !slices.Equal(got.lines, want) {
			t.Errorf("%q: %q, want %q", text, got.lines, want)
		}
	}
}

// Readings that are numbers of columns are no heads.
func TestNumbersAsHeads(t *testing.T) {
	got := parseText("id;1;2;3\nA;1;2;3\nid;1;2;3\nB;3;2;1\nid;2;1;3\n", Options{Head: 1})
	want := []string{"2 data A|1|2|3", "3 head id|1|2|3", "4 data B|3|2|1",
		"5 changed id|2|1|3 ! 5: other heads, or the same in another order or with other units, want the heads of line 1 again, or a file of its own for what follows"}
	if diff := cmp.Diff(want, got.lines); diff != "" {
		t.Errorf("records (-want +got):\n%s", diff)
	}
	got = parseText("piece;1;2\nA;N;-\nB;N;1.5\n", Options{Heads: []string{"1", "2"}})
	if want := []string{"2 data A|N|-", "3 data B|N|1.5"}; !slices.Equal(got.lines, want) {
		t.Errorf("marks that are units, below numbers: %q, want %q", got.lines, want)
	}
}

// Statistics have their names in many languages; those are the words of the trade in
// each (memory). No name of a test piece is among them.
func TestFootersInLanguages(t *testing.T) {
	for _, name := range []string{
		"Mittelwert", "Std.-Abweichung", "Streuung", "Größtwert", "Arithm. Mittel", "Coeff. de variation",
		"Medelvärde", "Standardavvikelse", "Variationskoefficient [%]", "Antal", "Största",
		"Gjennomsnitt", "Gjennomsnitt MD", "Standardavvik", "Variasjonskoeffisient", "Minste", "STØRSTE", "Antall",
		"Gennemsnit", "Standardafvigelse", "Mindste", "Maks.",
		"Keskiarvo", "Keskihajonta", "Variaatiokerroin", "Minimi", "Maksimi", "Lukumäärä:",
		"Média", "Desvio padrão", "Coef. de variação", "Contagem", "Número", "Deviazione standard", "Dev. standard", "Massimo", "Numero",
		"Gemiddelde", "Standaardafwijking", "Variatiecoëfficiënt", "Aantal",
		"Średnia", "Odchylenie standardowe", "Odch. std.", "Współczynnik zmienności", "Maksimum", "Liczba", "Průměr", "Směrodatná odchylka", "Počet",
		"Mittelw.", "Min. Wert", "Var (%)", "Valeur moyenne", "Nb mesures", "Lowest", "No. of tests", "MD mean", "Reel H average", "Probe A Mittelwert:", "Grand mean",
		"Std.avv.", "Medeltal", "Spredning", "Std.avvik", "Keskim.", "Hajonta", "Lkm", "Desv. típica", "Mín", "Dev. st.", "Scarto quadratico medio", "Valore medio",
		"Œrednia", "Œrednia MD", "Prùmìr", // windows-1250, for windows-1252
		"Gesamtmittelwert", "Tagesmittelwert:", "Razem", "Ogółem", "Wsp. zmienności", "Totalt", "Delsumma", "Yht.", "Celkem", "Subtotal L1", "Tot.", "∑", "s²", "Max-Min", "Cpk", "RMS", "Conf. int.", "Confidence (95 %)", "X quer", "Xmin", "Śr.", "Wsp. zm.", "Luottamusväli", "Valeur mini",
		"1. Quartil", "25%-Quantil", "95. Perzentil", "5th percentile", "Lower quartile", "Övre kvartil", "±3s", "+3s", "-3 s", "x+3s", "x̄ - 2s", "MW ± s", "Mean ± SD", "±3σ",
		"S:a", "s:a", "S:a:", "s:", "Genomsnitt", "Högsta", "Lägsta värde", "Variationsbredd", "Mellansumma", "Suurin", "Pienin arvo", "Varianssi", "Kpl",
		"Gemiddeld", "Mediaan", "Hoogste", "Kleinste", "Spreiding", "Średnio", "Odchylenie", "Największa", "Wartość minimalna", "Prům.", "Nejvyšší", "Směr. odch.", "Rozptyl", "Mezisoučet",
		"Genel toplam", "Ara toplam", "En büyük", "En düşük", "Medyan", "Std. sapma", "Değişim katsayısı", "Adet",
		"Najwiêksza", "Wartoœæ minimalna", "Smìr. odch.", "En düþük", "Deðiþim katsayýsý", // windows-1250 and -1254, for windows-1252
		"zentralwert", "MD-average", "95 % confianza", "95 % Konfidenz", "95 % CI ±", "99,73 % CI",
		"Среднее", "Итого", "平均", "標準偏差", "Ortalama", "Összesen", "Μέσος όρος",
	} {
		if got := parseText("id;force [N]\nA;1,5\n"+name+";1,5\n", Options{}); got.err != "" || got.lines[1] != "3 footer "+name+"|1,5" {
			t.Errorf("%s: %q, %s, want a footer", name, got.lines, got.err)
		}
	}
	for _, name := range []string{"Mediawood", "Antalya", "Maksim", "Snittberg", "Streu", "Početno", "Gem", "Som", "Amplitude", "Mean-Wood", "meaning", "Jo Meana", "Standard A", "A-3s", "A+B", "1. Rolle", "5th reel", "27.11.2026", "Minus", "Sa", "S:N", "S:ab", "Ort", "Sum-ba", "Averages Ltd"} {
		if got := parseText("id;force [N]\nA;1,5\n"+name+";1,5\n", Options{}); got.err != "" || got.lines[1] != "3 data "+name+"|1,5" {
			t.Errorf("%s: %q, %s, want a row", name, got.lines, got.err)
		}
	}
}

// Heads that the line below tells apart come again as written, and are found by their whole
// names only. A second row of units is none of symbols where the quantities are the same.
func TestHeadsToldApart(t *testing.T) {
	block := "id;Force;;mass\n;MD;CD;\n;N;N;g\nA;1,5;2;3\n"
	want := []string{"4 data A|1,5|2|3", "5 head id|Force||mass", "6 head |MD|CD|", "7 units |N|N|g", "8 data A|1,5|2|3"}
	if got := parseText(block+block, Options{}); !slices.Equal(got.lines, want) {
		t.Errorf("%q, want %q", got.lines, want)
	}
	r, err := Open(strings.NewReader(block), Options{})
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string][]int{"force": nil, "MD": nil, "Force MD": {1}, "force-cd": {2}, "mass": {3}} {
		if got := r.Layout().FindAll(name); !slices.Equal(got, want) {
			t.Errorf("FindAll(%q) = %v, want %v", name, got, want)
		}
	}
	for _, test := range []struct{ text, want string }{ // columns, or the error
		{";MD;;CD;\nid;force [N];width (mm);force (kN);width [mm]\nA;1,5;15;2;15\n", "id[] MD force[N] MD width[mm] CD force[kN] CD width[mm]"},
		{"id;Force [N];Force [N]\n;MD;CD [N]\nA;1,5;2\n", "id[] Force MD[N] Force CD[N]"},
		{"id;Force [N];\n;MD;CD\nA;1,5;2\n", "id[] Force MD[N] Force CD[N]"},
		{"id;Force;\n;MD (N);CD (kN)\nA;1,5;2\n", "id[] Force MD[N] Force CD[kN]"},
		{"id;Force [N];\n;MD;CD [kN]\nA;1,5;2\n", `f:2:3: Force "CD [kN]": another unit than [N] in the head, want one unit for a column`},
		{"id;Force;Force\n;MD;CD [kN]\n;N;N\nA;1,5;2\n", `f:2:3: Force "CD [kN]": another unit than [N] in the head, want one unit for a column`},
		{";force;width\nA;x;y\nB;1,5;15\n", "[] force[] width[]"}, // texts that no head needs are a row
	} {
		r, err := Open(strings.NewReader(test.text), Options{Name: "f", Head: 1})
		var got string
		if err != nil {
			got = err.Error()
		} else {
			for _, c := range r.Layout().Columns {
				got += " " + c.Head + "[" + c.Unit + "]"
			}
		}
		if strings.TrimSpace(got) != test.want {
			t.Errorf("%q: %s, want %s", test.text, got, test.want)
		}
	}
	got := parseText("force;width\nN;mm\nkN;in\n1,5;15\n", Options{Name: "f"})
	if want := "f:3: other units than above, want those of line 2"; got.err != want {
		t.Errorf("two rows of units: %s, want %s", got.err, want)
	}
}

func TestOtherHeadsEndTheTable(t *testing.T) {
	for _, test := range []struct{ name, row, want string }{
		{"another order", "force,id", "other heads"},
		{"another unit", "id,force [kN]", "other heads"},
		{"another column", "id,width", "other heads"},
		{"a column more", "id,force,width", "other heads"},
		{"another unit in the row of units", "id,force\n,kN", "other units than above, want those of line 2"},
		{"another unit below an empty line", "id,force\n,\n,mm", "f:6: other units than above, want those of line 2"},
		{"another unit without heads", ",kN", "other units than above, want those of line 2"},
		{"another table", "no.,thickness [um]", "other heads, in columns that have a unit"},
		{"another table, its head over a unit", "no.,thickness/um", "other heads, in columns that have a unit"},
		{"another table, its unit in round brackets", "no.,thickness (um)", "other heads, in columns that have a unit"},
		{"another table, a method of three letters over its unit", "no.,SCT/(kN/m)", "other heads, in columns that have a unit"},
	} {
		text := "id,force\n,N\nx,1.5\n" + test.row + "\ny,2\n"
		got := parseText(text, Options{Name: "f"})
		if !strings.Contains(got.err, test.want) {
			t.Errorf("%s: Next gives error %q, want one with %q", test.name, got.err, test.want)
		}
		if last := got.lines[len(got.lines)-1]; !strings.Contains(last, "changed") {
			t.Errorf("%s: last record %q, want the changed one", test.name, last)
		}
	}
}

func TestNotes(t *testing.T) {
	for _, test := range []struct {
		name, text string
		options    Options
		want       []string
	}{
		{"plain", "force [N],width (mm),side (wire)\n96.4,15,a\n", Options{}, []string{
			"encoding: UTF-8", "delimiter: comma", `decimal sign: point (line 2, "96.4")`, "line 1: heads",
			`column 1: "force" in N`, `column 2: "width" in mm`, `column 3: "side (wire)"`}},
		{"mark, preamble, units", "\xef\xbb\xbfReport\nNo\t7\n\nx\ty\n[mm]\t-\n1,5\t2\n2,5\t3\n2,5\t3\n", Options{}, []string{
			"encoding: UTF-8, with mark", "delimiter: tab", `decimal sign: comma (line 6, "1,5")`, "lines 1 to 3: preamble, not read",
			"line 4: heads; line 5: units", `column 1: "x" in mm`, `column 2: "y"`}},
		{"code page", "L\xe4nge;n\n1;2\n", Options{}, []string{
			"encoding: windows-1252, as the bytes are not UTF-8", "delimiter: semicolon", "decimal sign: none seen", "line 1: heads",
			`column 1: "Länge"`, `column 2: "n"`}},
		{"all given", "a;b\nc;d\n1.234;2\n", Options{Delimiter: ';', Decimal: ',', Encoding: "ISO-8859-1", Head: 2}, []string{
			"encoding: ISO 8859-1", "delimiter: semicolon", "decimal sign: comma, as given", "line 1: preamble, not read", "line 2: heads",
			`column 1: "c"`, `column 2: "d"`}},
		{"heads in several lines", "id;force\n;max.\n\n;at break\n;N\nA;1,5\n", Options{}, []string{
			"encoding: UTF-8", "delimiter: semicolon", `decimal sign: comma (line 6, "1,5")`,
			"line 1: heads; line 2: more on the heads, not read; line 4: more on the heads, not read; line 5: units",
			`column 1: "id"`, `column 2: "force" in N`}},
		{"heads told apart by the line below", "id;force;Force;width;mass;\n;MD;CD;min.;before;after\n;;;;drying;drying\n;N;N;mm;g;g\nA;1,5;2;15;1;2\n", Options{}, []string{
			"encoding: UTF-8", "delimiter: semicolon", `decimal sign: comma (line 5, "1,5")`,
			"line 1: heads; line 2: more on the heads; line 3: more on the heads; line 4: units", `column 1: "id"`, `column 2: "force MD" in N`,
			`column 3: "Force CD" in N`, `column 4: "width" in mm`, `column 5: "mass before drying" in g`, `column 6: "mass after drying" in g`}},
		{"one head over three columns, with the unit", "id;force [N];;;mass\n;MD;CD;diagonal;\nA;1,5;2;3;4\n", Options{}, []string{
			"encoding: UTF-8", "delimiter: semicolon", `decimal sign: comma (line 3, "1,5")`, "line 1: heads; line 2: more on the heads", `column 1: "id"`,
			`column 2: "force MD" in N`, `column 3: "force CD" in N`, `column 4: "force diagonal" in N`, `column 5: "mass"`}},
		{"a row of words under heads alike, and under others", "id;force [N];force [N]\nA;slip;torn\nB;1,5;2\n", Options{}, []string{
			"encoding: UTF-8", "delimiter: semicolon", `decimal sign: comma (line 3, "1,5")`, "line 1: heads", `column 1: "id"`,
			`column 2: "force" in N`, `column 3: "force" in N`}},
		{"no readings under heads alike", "id;force [N];force [N]\n;n/a;torn\nB;1,5;2\n", Options{}, []string{
			"encoding: UTF-8", "delimiter: semicolon", `decimal sign: comma (line 3, "1,5")`, "line 1: heads", `column 1: "id"`,
			`column 2: "force" in N`, `column 3: "force" in N`}},
		{"symbols that are units too, above the units", "Force;Width;Mass\nF;b;m\nN;mm;g\n1,5;15;2\n", Options{}, []string{
			"encoding: UTF-8", "delimiter: semicolon", `decimal sign: comma (line 4, "1,5")`, "line 1: heads; line 2: more on the heads, not read; line 3: units",
			`column 1: "Force" in N`, `column 2: "Width" in mm`, `column 3: "Mass" in g`}},
		{"units, above a piece called A without readings", "id;force\n-;N\nA;n/a\n1;5,5\n", Options{}, []string{
			"encoding: UTF-8", "delimiter: semicolon", `decimal sign: comma (line 4, "5,5")`, "line 1: heads; line 2: units", `column 1: "id"`, `column 2: "force" in N`}},
		{"unnamed column", "a;b;;\n1;2;x;\n", Options{}, []string{
			"encoding: UTF-8", "delimiter: semicolon", "decimal sign: none seen", "line 1: heads", `column 1: "a"`, `column 2: "b"`, "column 3: no head"}},
		{"preamble filled up", "Tester;SCT 12;;;\nHumidity;50;;;\nDate: 3.2.2026;;;;\npiece;force;width;;remark\nA;60,5;15;x;\nB;61,5;15;;y\n", Options{}, []string{
			"encoding: UTF-8", "delimiter: semicolon", `decimal sign: comma (line 5, "60,5")`, "lines 1 to 3: preamble, not read", "line 4: heads",
			`column 1: "piece"`, `column 2: "force"`, `column 3: "width"`, "column 4: no head", `column 5: "remark"`}},
		{"half the heads", "a;b;;\nx;y;;\n1;2;3;4\n", Options{}, []string{
			"encoding: UTF-8", "delimiter: semicolon", "decimal sign: none seen", "line 1: heads", `column 1: "a"`, `column 2: "b"`, "column 3: no head", "column 4: no head"}},
		{"names hoped for, with units and a delimiter within cells", "Operator,Site\nspecimen,force in N,note\nx,\"12,5\",kinked; torn\ny,13,bad,row\n", Options{Heads: []string{"force"}}, []string{
			"encoding: UTF-8", "delimiter: comma", `decimal sign: comma (line 3, "12,5")`, "line 1: preamble, not read", "line 2: heads",
			`column 1: "specimen"`, `column 2: "force" in N`, `column 3: "note"`}},
		{"names hoped for, with a unit", "Report\n\nKraft / N;Breite\n1,5;15;junk\n2,5;15\n", Options{Heads: []string{"Kraft [N]", "Breite"}}, []string{
			"encoding: UTF-8", "delimiter: semicolon", `decimal sign: comma (line 5, "2,5")`, "lines 1 to 2: preamble, not read", "line 3: heads",
			`column 1: "Kraft" in N`, `column 2: "Breite"`}},
		{"names hoped for", "Operator;Site\nRun;12\nForce;Width\n1;2\n", Options{Heads: []string{"force", "strip-width"}}, []string{
			"encoding: UTF-8", "delimiter: semicolon", "decimal sign: none seen", "lines 1 to 2: preamble, not read", "line 3: heads",
			`column 1: "Force"`, `column 2: "Width"`}},
	} {
		got := parseText(test.text, test.options)
		if got.err != "" {
			t.Errorf("%s: %s", test.name, got.err)
		}
		if diff := cmp.Diff(test.want, got.notes); diff != "" {
			t.Errorf("%s: notes (-want +got):\n%s", test.name, diff)
		}
	}
}

func TestDecimal(t *testing.T) {
	for _, test := range []struct {
		cells   string // one a line, in a column of a file with that delimiter
		between string
		want    string // sign and proof, or the error
	}{
		{"121,4", ";", `comma (line 2, "121,4")`},
		{"98.1", ";", `point (line 2, "98.1")`},
		{"1,234.5", "\t", `point (line 2, "1,234.5")`},
		{"1.234,5", ";", `comma (line 2, "1.234,5")`},
		{"0,123", ";", `comma (line 2, "0,123")`},
		{"0.123", ";", `point (line 2, "0.123")`},
		{"1234,567", ";", `comma (line 2, "1234,567")`},
		{"1,234,567", ";", `point (line 2, "1,234,567")`},
		{"1.234.567", ";", `comma (line 2, "1.234.567")`},
		{"1.234\n5,6", ";", `comma (line 3, "5,6")`},
		{"1,234\n-5,6 kg", ";", `comma (line 3, "-5,6 kg")`},
		{"<0,5", ";", `comma (line 2, "<0,5")`},
		{"[1.234 1.5] mm", ";", `point (line 2, "[1.234 1.5] mm")`},
		{"1.234E+01", "\t", `point (line 2, "1.234E+01")`},
		{"12", ";", "none seen"},
		{"14:05:33,120", ";", "none seen"},
		{"12.03.2025", ";", "none seen"},
		{"overload 1,5", ";", "none seen"},
		{"12", ",", "none seen"},
		{"-,", ";", "none seen"},
		{"121,4.", ";", `comma (line 2, "121,4.")`},
		{"121.4,", ";", `point (line 2, "121.4,")`},
		{"<121.4,", ";", `point (line 2, "<121.4,")`},
		{"3 -4,5", ";", `comma (line 2, "3 -4,5")`},
		{"4,5-", ";", `comma (line 2, "4,5-")`},
		{"4,5/l", ";", `comma (line 2, "4,5/l")`},
		{"4,5-6,5", ";", "none seen"},
		{"98.1", ",", `point (line 2, "98.1")`},
		{"1.234", ",", `point (line 2, "1.234")`},
		{`"1,234.5"`, ",", `point (line 2, "1,234.5")`},
		{`"34,5"`, ",", `comma (line 2, "34,5")`},
		{"1.234\n\"34,5\"", ",", `comma (line 3, "34,5")`},
		{"\" 1.234\"\n1.234", ",", `point (line 3, "1.234")`},
		{"\"1.234\"\n\"0.5\"", ",", `point (line 3, "0.5")`},
		{"12\n\"1.234\"", ",", `f:3:2: "1.234" is 1.234 with a decimal point, or 1234 with a decimal comma, and no other cell tells which, want Options.Decimal '.' or Options.Decimal ','`},
		{"\"1,234\"\n\"1.234\"", ",", `f:2:2: "1,234" is 1234 with a decimal point, or 1.234 with a decimal comma, and no other cell tells which, want Options.Decimal '.' or Options.Decimal ','`},
		{"1.234", ";", `f:2:2: "1.234" is 1.234 with a decimal point, or 1234 with a decimal comma, and no other cell tells which, want Options.Decimal '.' or Options.Decimal ','`},
		{"12,345", "\t", `f:2:2: "12,345" is 12345 with a decimal point, or 12.345 with a decimal comma, and no other cell tells which, want Options.Decimal '.' or Options.Decimal ','`},
		{"1.234\n\"1,234\"", ",", `f:2:2: "1.234" is 1.234 with a decimal point, or 1234 with a decimal comma, and no other cell tells which, want Options.Decimal '.' or Options.Decimal ','`},
		{"121,4\n12.03.", ";", `f:2:2: "121,4" has a decimal comma, but f:3:2: "12.03." has a decimal point, want one decimal sign in a file, or Options.Decimal ',' where "12.03." is a name or a date, Options.Decimal '.' where "121,4" is: a row with a number of the other sign is refused`},
		{"121,4\n98.1", ";", `f:2:2: "121,4" has a decimal comma, but f:3:2: "98.1" has a decimal point, want one decimal sign in a file, or Options.Decimal ',' where "98.1" is a name or a date, Options.Decimal '.' where "121,4" is: a row with a number of the other sign is refused`},
		{"98.1\n\"34,5\"", ",", `f:2:2: "98.1" has a decimal point, but f:3:2: "34,5" has a decimal comma, want one decimal sign in a file, or Options.Decimal ',' where "98.1" is a name or a date, Options.Decimal '.' where "34,5" is: a row with a number of the other sign is refused`},
	} {
		var text strings.Builder
		text.WriteString("id" + test.between + "x\n")
		for cell := range strings.SplitSeq(test.cells, "\n") {
			text.WriteString("a" + test.between + cell + "\n")
		}
		got := parseText(text.String(), Options{Name: "f"})
		if got.err == "" {
			got.err = strings.TrimPrefix(got.notes[2], "decimal sign: ")
		}
		if got.err != test.want {
			t.Errorf("cells %q between %q: %s, want %s", test.cells, test.between, got.err, test.want)
		}
	}
	// A command says what its own option is called.
	for text, want := range map[string]string{
		"a;b\n1.234;2\n":       "and no other cell tells which, want --decimal point or --decimal comma",
		"a;b\n1,25;2\n1.2;3\n": `or --decimal comma where "1.2" is a name or a date, --decimal point where "1,25" is`,
	} {
		if _, err := Open(strings.NewReader(text), Options{DecimalName: "--decimal"}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %s", text, err, want)
		}
	}
	var ambiguous *AmbiguousError
	if _, err := Open(strings.NewReader("a;b\n1.234;2\n"), Options{}); !errors.As(err, &ambiguous) || ambiguous.Line != 2 {
		t.Errorf("error %v, want an *AmbiguousError of line 2", err)
	}
	for text, want := range map[string]string{"a;b\n1,234;1.234\n": "1,234", "a;b\n1.234;1,234\n": "1.234", "a;b\n1;1,234\n1.234;2\n": "1,234"} {
		if _, err := Open(strings.NewReader(text), Options{}); !errors.As(err, &ambiguous) || ambiguous.Text != want {
			t.Errorf("%q: error %v, want one of the first such cell, %s", text, err, want)
		}
	}
	var mixed *MixedError
	if _, err := Open(strings.NewReader("a;b\n1.5;2,5\n"), Options{}); !errors.As(err, &mixed) || mixed.CommaColumn != 2 {
		t.Errorf("error %v, want a *MixedError with a comma in column 2", err)
	}
}

func TestNumber(t *testing.T) {
	for _, test := range []struct {
		cell    string
		decimal byte
		want    string
	}{
		{"1,234.5", '.', "1234.5"},
		{"-12,345,678", '.', "-12345678"},
		{"1,234 kg", '.', "1234 kg"},
		{"[1,234.5 2,000] kg", '.', "[1234.5 2000] kg"},
		{"9.5, 13.2", '.', "9.5, 13.2"},
		{"1.234,5", ',', "1234,5"},
		{"121,4", ',', "121,4"},
		{"1.234", ',', "1234"},
		{"1.234", '.', "1.234"},
		// Of another sign than the file's: left for the parser to refuse.
		{"121,4", '.', "121,4"},
		{"98.1", ',', "98.1"},
		{"0,123", '.', "0,123"},
		{"1234,567", '.', "1234,567"},
		{"1.234,5", '.', "1.234,5"},
		{"1,2.345", '.', "1,2.345"},
		{"1,234e3", '.', "1,234e3"},
		{"1,234", 0, "1,234"},
		{"1,2345", '.', "1,2345"},
		{"123,456", '.', "123456"},
		{"1,234, 5,678", '.', "1234, 5678"},
		{", 1,234", '.', ", 1234"},
		{",5 1,234", '.', ",5 1,234"},
		{",", '.', ","},
		{"1,234e", '.', "1234e"},
		{"1,234e+", '.', "1234e+"},
		{"1,234e+5", '.', "1,234e+5"},
		{"1,234.,5", '.', "1,234.,5"},
		{"1,234..5", '.', "1,234..5"},
		{".5,5", '.', ".5,5"},
	} {
		var l Layout
		if test.decimal != 0 {
			l.setDecimal(test.decimal)
		}
		if got := string(l.Number([]byte(test.cell), nil)); got != test.want {
			t.Errorf("Number(%q) with decimal sign %q = %q, want %q", test.cell, test.decimal, got, test.want)
		}
	}
	l := Layout{Decimal: '.', Thousands: ','}
	cell, scratch := []byte("1,234.5"), make([]byte, 0, 16)
	if n := testing.AllocsPerRun(100, func() { l.Number(cell, scratch) }); n != 0 {
		t.Errorf("Number allocates %v times, want 0", n)
	}
}

// TestNoWrongReading writes numbers with a point or a comma as the decimal
// sign, with thousands or without, and has the law that a file is refused or
// read as it was meant. Between commas a file of whole numbers with points for
// thousands, without quotes, is left out: there a point is taken for the decimal sign.
func TestNoWrongReading(t *testing.T) {
	rnd := rand.New(rand.NewPCG(6, 6))
	read := 0
	for range 5000 {
		sign := ".,"[rnd.IntN(2)]
		delimiter := ";\t,"[rnd.IntN(3)]
		text := []byte("id" + string(delimiter) + "x\n")
		var meant []float64
		decimals, quotes := false, rnd.IntN(2) == 0
		for range 1 + rnd.IntN(4) {
			thousandths, places := rnd.IntN(1000*int(math.Pow10(rnd.IntN(5)))), rnd.IntN(4)
			value := float64(thousandths) / 1000
			cell := groupedText(value, places, sign, rnd.IntN(2) == 0)
			value, _ = strconv.ParseFloat(strconv.FormatFloat(value, 'f', places, 64), 64)
			decimals = decimals || places > 0
			meant = append(meant, value)
			text = append(text, 'a', delimiter)
			if quotes {
				cell = `"` + cell + `"`
			} else {
				cell = string(AppendCSV(nil, delimiter, []byte(cell)))
			}
			text = append(append(text, cell...), '\n')
		}
		if delimiter == ',' && sign == ',' && !decimals && !quotes {
			continue
		}
		r, err := Open(bytes.NewReader(text), Options{})
		if err != nil {
			continue
		}
		var b Block
		var rec Record
		var got []float64
		for r.Next(&b) == nil {
			for b.Record(&rec) {
				got = append(got, strictNumber(t, r.Layout(), rec.Cell(1)))
			}
		}
		read++
		if !slices.Equal(got, meant) {
			t.Fatalf("%q, decimal sign %q: read as %v, meant are %v", text, sign, got, meant)
		}
	}
	if read < 2000 {
		t.Errorf("%d files of 5000 were read, want more", read)
	}
}

// groupedText writes a number with places decimals, and on request with its
// thousands parted.
func groupedText(value float64, places int, sign byte, group bool) string {
	whole, fraction, _ := strings.Cut(strconv.FormatFloat(value, 'f', places, 64), ".")
	if group {
		for i := len(whole) - 3; i > 0; i -= 3 {
			whole = whole[:i] + string(otherSign(sign)) + whole[i:]
		}
	}
	if places == 0 {
		return whole
	}
	return whole + string(sign) + fraction
}

// strictNumber reads a cell as a parser does that takes the file's decimal sign
// and no other.
func strictNumber(t *testing.T, l *Layout, cell []byte) float64 {
	t.Helper()
	text := string(l.Number(cell, nil))
	if i := strings.IndexAny(text, ".,"); i >= 0 && text[i] != l.Decimal {
		t.Fatalf("cell %q gives %q with decimal sign %q", cell, text, l.Decimal)
	}
	value, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
	if err != nil {
		t.Fatal(err)
	}
	return value
}

// TestLateSeparator has the first decimal sign behind the sample.
func TestLateSeparator(t *testing.T) {
	text := "a;b\n" + strings.Repeat("1;2\n", sampleSize/4) + "1.234;2\n3;4,5\n5;6\n"
	r, err := Open(strings.NewReader(text), Options{Name: "f"})
	if err != nil {
		t.Fatal(err)
	}
	var bad []string
	var b Block
	var rec Record
	for r.Next(&b) == nil {
		for b.Record(&rec) {
			if rec.Class == Bad {
				bad = append(bad, rec.Err.Error())
			}
		}
	}
	if len(bad) != 2 || !strings.HasPrefix(bad[0], `f:262146:1: a "1.234": a separator`) || !strings.HasPrefix(bad[1], `f:262147:2: b "4,5": a separator`) {
		t.Errorf("errors %q, want both rows with separators refused", bad)
	}
}

// A stroke in the one head, or in a list below it, parts no columns.
func TestStrokeInOneColumn(t *testing.T) {
	for _, text := range []string{"force |F|\n34.5\n", "force |F|\n\n34.5\n", "scan\n[1 2 | 3 4]\n", "a|b\n"} {
		if got := parseText(text, Options{}); got.err != "" {
			t.Errorf("%q: %s", text, got.err)
		}
	}
}

func TestOpenRefuses(t *testing.T) {
	long := strings.Repeat("x", maxCell+1)
	for _, test := range []struct {
		name, text string
		options    Options
		want       string
	}{
		{"nothing", "", Options{}, "f: nothing in it, want a line of heads and rows under it"},
		{"blanks", " \r\n\n", Options{}, "f: nothing in it, want a line of heads and rows under it"},
		{"numbers alone", "1,2\n3,4\n", Options{}, "f: no line of heads found, want a line of names above the rows of numbers, in as many cells as they have"},
		{"numbers behind names alone", "H1,34.5\nH2,35.1\n", Options{}, "f: no line of heads found, want a line of names above the rows of numbers, in as many cells as they have"},
		{"names in front of numbers", "specimen;A;B\nforce [N];34,5;35,1\n", Options{Heads: []string{"force"}},
			`f:2:1: "force [N]": a name of a column in front of a row, and none in a line of heads, want the names in one line, and the numbers of each below it`},
		{"names in front of numbers, under no heads", "force,34.5,35.1\ngrammage,120,120\n", Options{Heads: []string{"force"}},
			`f:1:1: "force": a name of a column in front of a row, and none in a line of heads, want the names in one line, and the numbers of each below it`},
		{"a name and a value in each line", "Sample:,K7\nForce:,81.5 N\n", Options{Heads: []string{"force"}},
			`f:2:1: "Force:": a name of a column in front of a row, and none in a line of heads, want the names in one line, and the numbers of each below it`},
		{"heads with fewer cells below", "id;force [N];note\nA;1,5;\nid;force [N]\nB;2,5\n", Options{Heads: []string{"force"}},
			"f:1: heads like those of line 3, with 3 cells for 2, want one line of heads, or the same again"},
		{"open quote", "\"a,b\n1,2\n", Options{}, "f:1: a quote in the record that begins here is never closed, want a closing quote"},
		{"open quote below", "a,b\n1,2\n\"3,4\n5,6\n", Options{}, "f:3: a quote in the record that begins here is never closed, want a closing quote"},
		{"strokes", "\nid|force [N]\n\nA|34,5\n", Options{}, "f:2: cells separated by |, want a comma, a semicolon or a tab between them"},
		{"strokes, in lines without a gap", "id|force [N]\nA|34,5\n", Options{}, "f:1: cells separated by |, want a comma, a semicolon or a tab between them"},
		{"blanks between cells", "id   force [N]   mass\n              N\nA         34,5    2\n", Options{}, "f:1: cells separated by blanks, want a comma, a semicolon or a tab between them"},
		{"blanks between two cells", "id   force [N]\nA    34,5\n", Options{}, "f:1: cells separated by blanks, want a comma, a semicolon or a tab between them"},
		{"blanks, above units, a rule and an empty line", "id   force   mass\n     N       g\n---  -----   ----\n\nA    34,5    2\n", Options{}, "f:1: cells separated by blanks, want a comma, a semicolon or a tab between them"},
		{"blanks, below a preamble and above a rule", "Report of the tester, lab 2\n\nid   force, N   mass\n---  ---\n1         34.5    2\n", Options{}, "f:3: cells separated by blanks, want a comma, a semicolon or a tab between them"},
		{"rows in quotes", "\n\"id;force [N]\"\n\"A;34,5\"\n", Options{}, "f:2: the whole line is in quotes, as one cell, want quotes around single cells, or none"},
		{"rows in quotes, from the first line", "\"id;force [N]\"\n\"A;34,5\"\n", Options{}, "f:1: the whole line is in quotes, as one cell, want quotes around single cells, or none"},
		{"inches in quotes, in all rows", "\"id\";\"mass\";\"roll\"\n\"A\";\"5,1\";\"12\"\"\n\"B\";\"5,2\";\"14\"\n", Options{},
			"f:2:3: \"B\\\"\": text after a closing quote (the record has lines 2 to 3), want a quote within quotes written twice: \"\""},
		{"inches in quotes, in a head", "\"id\",\"roll 12\"\",\"mass\"\n\"A\",\"1\",\"5.1\"\n", Options{},
			"f:1:2: \"mass\\\"\": text after a closing quote, want a quote within quotes written twice: \"\""},
		{"no heads, and quotes closed in their cells", "\"1\";\"5,1\"\n\"2\";\"5,2\"\n", Options{}, "f: no line of heads found, want a line of names above the rows of numbers, in as many cells as they have"},
		{"UTF-32", "\xff\xfe\x00\x00a\x00\x00\x00", Options{}, "f: the text is UTF-32, want UTF-8, UTF-16, windows-1252 or ISO 8859-1"},
		{"option encoding", "a\n1\n", Options{Encoding: "ebcdic"}, `f: encoding is "ebcdic", want utf-8, utf-16le, utf-16be, windows-1252 or iso-8859-1`},
		{"option delimiter", "a\n1\n", Options{Delimiter: '|'}, "delimiter is '|', want a comma, a semicolon or a tab"},
		{"option decimal", "a\n1\n", Options{Decimal: 'x'}, "decimal sign is 'x', want a point or a comma"},
		{"option head", "a\n1\n", Options{Head: -1}, "line of heads is -1, want 1 or more: a table without heads is not read, as nothing would say what its columns are"},
		{"option head behind the end", "a\n1\n", Options{Head: 9}, "f:9: no heads here, want a line of names above the rows of numbers, in as many cells as they have"},
		{"a million heads", strings.Repeat("a,", maxColumns) + "a\n" + strings.Repeat("1,", maxColumns) + "1\n", Options{}, "f:1:16385: 16385 cells, want at most 16384 in a line of heads"},
		{"units twice", "force [N],b\nkN,mm\n1,2\n", Options{}, `f:2:1: force "kN": another unit than [N] in the head, want one unit for a column`},
		{"heads in several lines, two alike", "id;force;Force\n;max.;max.\n;N;N\nA;1,5;2,5\n", Options{},
			"f:1:3: Force max.: a head that stands twice, and only line 2 may say which is which, want heads in one line, each with a name of its own"},
		{"standard input", "", Options{Name: "-"}, "standard input: nothing in it, want a line of heads and rows under it"},
	} {
		if test.options.Name == "" {
			test.options.Name = "f"
		}
		if got := parseText(test.text, test.options); got.err != test.want {
			t.Errorf("%s: error %q, want %q", test.name, got.err, test.want)
		}
	}
	got := parseText("a,b\n"+long+",1\n", Options{Name: "f"})
	if want := "f:2:1: a: more than 64 KiB of text, want a shorter cell"; !strings.HasSuffix(got.lines[0], want) {
		t.Errorf("long cell: no error %q", want)
	}
	broken := iotest.ErrReader(errors.New("cable pulled"))
	if _, err := Open(broken, Options{Name: "f"}); err == nil || err.Error() != "f: reading: cable pulled" {
		t.Errorf("broken source: error %v", err)
	}
}

// encode writes text in an encoding, without a mark. UTF-16 is written with
// the standard library, the code pages by hand.
func encode(text, name string) []byte {
	var out []byte
	for _, c := range text {
		switch name {
		case utf16leName:
			for _, unit := range utf16.AppendRune(nil, c) {
				out = binary.LittleEndian.AppendUint16(out, unit)
			}
		case utf16beName:
			for _, unit := range utf16.AppendRune(nil, c) {
				out = binary.BigEndian.AppendUint16(out, unit)
			}
		case windowsName, latin1Name:
			if c == '‰' {
				out = append(out, 0x89)
			} else {
				out = append(out, byte(c))
			}
		default:
			out = utf8.AppendRune(out, c)
		}
	}
	return out
}

func TestEncodings(t *testing.T) {
	const text = "Länge [µm];ph °C\n1,5;20\n\"2,5\nx\";21\n"
	marks := map[string]string{utf8Name: "\xef\xbb\xbf", utf16leName: "\xff\xfe", utf16beName: "\xfe\xff"}
	want := parseText(text, Options{})
	for _, name := range []string{utf8Name, utf16leName, utf16beName, windowsName, latin1Name} {
		for _, mark := range []string{"", marks[name]} {
			for _, given := range []string{"", name} {
				raw := mark + string(encode(text, name))
				got := parse(strings.NewReader(raw), Options{Encoding: given}, blockSize)
				if diff := cmp.Diff(want.lines, got.lines); diff != "" || got.err != "" {
					t.Errorf("%s, mark %q, given %q: error %q, records (-want +got):\n%s", name, mark, given, got.err, diff)
				}
				if got.raw != want.raw || got.notes[4] != want.notes[4] {
					t.Errorf("%s, mark %q, given %q: text %q under %s, want %q under %s", name, mark, given, got.raw, got.notes[4], want.raw, want.notes[4])
				}
				if marked := strings.Contains(got.notes[0], ", with mark"); marked != (mark != "") {
					t.Errorf("%s, mark %q, given %q: %s", name, mark, given, got.notes[0])
				}
			}
		}
	}
}

func TestBrokenEncoding(t *testing.T) {
	for _, test := range []struct{ name, raw, want string }{
		{"half a surrogate pair", string(encode("a;b\n1;x", utf16leName)) + "\x00\xd8" + string(encode("\n3;4\n", utf16leName)), "2:2: b \"x\uFFFD\": bytes that are not UTF-16 little endian"},
		{"half a character at the end", string(encode("a;b\n1;2\n3;x", utf16leName)) + "y", "bytes that are not UTF-16 little endian"},
		{"UTF-8 for sure", "\xef\xbb\xbfa;b\n1;\xe4\n3;4\n", "bytes that are not UTF-8"},
	} {
		got := parseText(test.raw, Options{})
		if len(got.lines) != 2 || !strings.Contains(strings.Join(got.lines, "\n"), test.want) {
			t.Errorf("%s: records %q, want one refused as %q", test.name, got.lines, test.want)
		}
	}
}

func TestFind(t *testing.T) {
	r, err := Open(strings.NewReader("Strip  width (mm),FORCE,mass,mass,span / mm,load [N],load [kN]\n1,2,3,4,5,6,7\n"), Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		name   string
		column int
		ok     bool
	}{
		{"strip-width", 0, true}, {"Strip_Width", 0, true}, {"force", 1, true}, {"width", 0, false}, {"mass", 0, false}, {"", 0, false},
		{"strip width (mm)", 0, true}, {"strip width (cm)", 0, false}, {"Span / mm", 4, true}, {"load", 0, false}, {"load [kN]", 6, true},
	} {
		if column, ok := r.Layout().Find(test.name); column != test.column || ok != test.ok {
			t.Errorf("Find(%q) = %d, %v, want %d, %v", test.name, column, ok, test.column, test.ok)
		}
	}
	if diff := cmp.Diff([]int{2, 3}, r.Layout().FindAll("mass")); diff != "" {
		t.Errorf("FindAll (-want +got):\n%s", diff)
	}
}

func TestMissingAndCensored(t *testing.T) {
	for _, cell := range []string{"", "n/a", "NA", "--", "-", ".", "nil", "NULL", "NaN", "#N/A", "–", "n.a.", "#NV"} {
		if !Missing([]byte(cell)) || Censored([]byte(cell)) {
			t.Errorf("Missing(%q), Censored = %v, %v, want true, false", cell, Missing([]byte(cell)), Censored([]byte(cell)))
		}
	}
	for _, cell := range []string{"<5", "> 100", "≤0,2", ">= .5"} {
		if Missing([]byte(cell)) || !Censored([]byte(cell)) {
			t.Errorf("Missing(%q), Censored = %v, %v, want false, true", cell, Missing([]byte(cell)), Censored([]byte(cell)))
		}
	}
	for _, cell := range []string{"0", "overload", "-5", "nano", "<", "<low", "12.", "5>3"} {
		if Missing([]byte(cell)) || Censored([]byte(cell)) {
			t.Errorf("Missing(%q), Censored = %v, %v, want false, false", cell, Missing([]byte(cell)), Censored([]byte(cell)))
		}
	}
}

// TestQuillbeck reads the files of the demonstration mill, each dirty in ways
// of its own.
func TestQuillbeck(t *testing.T) {
	for _, test := range []struct {
		file  string
		heads string
		notes string // some of the notes
		count map[Class]int
	}{
		{"deliveries.csv", "load|bale|mass[kg]|moisture[%]", "UTF-8, with mark; semicolon; comma (line 2",
			map[Class]int{Data: 30, Footer: 1}},
		{"grammage.csv", "Muster|Probe|Fl.-gew.[g/m²]|Feuchte[%]", `UTF-8; semicolon; comma (line 3, "121,4"); line 2: units`,
			map[Class]int{Data: 12, Blank: 2}},
		{"tensile.txt", "Specimen|Direction|Strip width[mm]|Force[N]|Elongation[mm]|Grammage[g/m²]",
			`windows-1252; tab; comma (line 11; lines 1 to 8: preamble; line 9: heads; line 10: units`,
			map[Class]int{Data: 40, Blank: 1, Head: 1, Units: 1}},
		{"short-span.csv", "Specimen|Force[N]|Strip width[mm]|Grammage[g/m²]|Clamping force[N]", "UTF-8; comma; point (line 3; line 2: units",
			map[Class]int{Data: 14, Footer: 2}},
		{"moisture.csv", "sample|dish-mass[g]|moist-dish-mass[g]|dry-dish-mass[g]", "UTF-16 little endian, with mark; comma; point (line 2",
			map[Class]int{Data: 10}},
	} {
		file, err := os.Open("../../examples/quillbeck/" + test.file)
		if err != nil {
			t.Fatal(err)
		}
		defer file.Close()
		r, err := Open(file, Options{Name: test.file})
		if err != nil {
			t.Errorf("%s: %v", test.file, err)
			continue
		}
		var heads []string
		for _, c := range r.Layout().Columns {
			head := c.Head
			if c.Unit != "" {
				head += "[" + c.Unit + "]"
			}
			heads = append(heads, head)
		}
		if got := strings.Join(heads, "|"); got != test.heads {
			t.Errorf("%s: heads %s, want %s", test.file, got, test.heads)
		}
		notes := strings.Join(r.Layout().Notes(), "; ")
		for want := range strings.SplitSeq(test.notes, "; ") {
			if !strings.Contains(notes, want) {
				t.Errorf("%s: notes %s, want %q among them", test.file, notes, want)
			}
		}
		count := map[Class]int{}
		var b Block
		var rec Record
		for r.Next(&b) == nil {
			for b.Record(&rec) {
				count[rec.Class]++
			}
		}
		if diff := cmp.Diff(test.count, count); diff != "" {
			t.Errorf("%s: records (-want +got):\n%s", test.file, diff)
		}
	}
}

// TestChunks has the law that neither the sizes in which the source gives its
// bytes nor those of the blocks change the result.
func TestChunks(t *testing.T) {
	rnd := rand.New(rand.NewPCG(4, 2))
	for range 600 {
		text := randomTable(rnd)
		if rnd.IntN(4) == 0 {
			text = string(encode(text, utf16leName))
		}
		checkChunks(t, []byte(text), rnd.IntN(64)+1)
	}
}

func checkChunks(t *testing.T, text []byte, block int) {
	t.Helper()
	o := Options{Name: "f", IsUnit: func(text string) bool { return text == "N" || text == "kN" }}
	want := parse(bytes.NewReader(text), o, blockSize)
	for name, source := range map[string]io.Reader{
		"whole": bytes.NewReader(text), "bytes": iotest.OneByteReader(bytes.NewReader(text)), "halves": iotest.HalfReader(bytes.NewReader(text)),
		"end with data": iotest.DataErrReader(bytes.NewReader(text)),
	} {
		got := parse(source, o, block)
		if diff := cmp.Diff(want, got, cmp.AllowUnexported(parsed{})); diff != "" {
			t.Fatalf("%q in %s, blocks of %d (-want +got):\n%s", text, name, block, diff)
		}
	}
}

// randomTable strings together what tables are made of, in any order.
func randomTable(rnd *rand.Rand) string {
	pieces := []string{"1", "2.5", "-3", "x", "id", ";", ";", ";", "\n", "\n", "\r\n", "\r", "\"", "\"\"", " ", "mean", "N", "\"a\nb\"", "\"c;d\"", "µ", "id;force\n", "\nid;force\n;kN\n", ";N\n", "\nmean;1\nN;12\nN;3\n", "\nmean;1\n\n \n", "\n95% CI;2\n", "\"\";\n", "\nQ1;2\n", "\nA1;2\nA2;3\n", "\nmean;1\n;2\n;3\n", "\nTotal A;1\n;2\n", "\n7;2\nS;3\n"}
	var b strings.Builder
	b.WriteString("id;force\n;N\n")
	for range rnd.IntN(60) {
		b.WriteString(pieces[rnd.IntN(len(pieces))])
	}
	return b.String()
}

func FuzzReader(f *testing.F) {
	for _, file := range []string{"deliveries.csv", "grammage.csv", "tensile.txt", "short-span.csv", "moisture.csv"} {
		text, err := os.ReadFile("../../examples/quillbeck/" + file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text, 100)
	}
	f.Add([]byte("a,b\n\"x\"\"y\",1\n\"\n"), 3)
	f.Add([]byte("a;b\r1;2\r\n\r\r\n3;\x00\n"), 1)
	f.Add([]byte("sep=;\na;b\n1;2\n"), 2)
	f.Fuzz(func(t *testing.T, text []byte, block int) {
		block = 1 + block&0xff
		checkChunks(t, text, block)
		r, err := Open(bytes.NewReader(text), Options{})
		if err != nil {
			return
		}
		body := string(r.text)
		got := parse(bytes.NewReader(text), Options{}, block)
		if got.err == "" && got.raw != body || !strings.HasPrefix(body, got.raw) {
			t.Fatalf("%q: records joined are %q, want %q", text, got.raw, body)
		}
	})
}

// TestConcurrentBlocks puts the blocks that several goroutines parse back in
// order by their index.
func TestConcurrentBlocks(t *testing.T) {
	text := plainTable(40_000)
	want := parse(bytes.NewReader(text), Options{}, blockSize)
	r, err := Open(bytes.NewReader(text), Options{})
	if err != nil {
		t.Fatal(err)
	}
	r.block = 16 << 10
	results := make([][]string, 100)
	blocks := make(chan *Block)
	var workers sync.WaitGroup
	for range 4 {
		workers.Go(func() {
			var rec Record
			for b := range blocks {
				for b.Record(&rec) {
					results[b.Index()] = append(results[b.Index()], fmt.Sprintf("%d %v %s", rec.Line, rec.Class, bytes.Join(rec.Fields, []byte{'|'})))
				}
			}
		})
	}
	for {
		b := new(Block)
		if err := r.Next(b); err != nil {
			break
		}
		blocks <- b
	}
	close(blocks)
	workers.Wait()
	var got []string
	for _, lines := range results {
		got = append(got, lines...)
	}
	if !slices.Equal(got, want.lines) {
		t.Errorf("%d records, not the %d of one goroutine in their order", len(got), len(want.lines))
	}
}

// endlessReader gives n bytes of x behind a start.
type endlessReader struct {
	start string
	n     int
}

func (r *endlessReader) Read(p []byte) (int, error) {
	if r.start != "" {
		n := copy(p, r.start)
		r.start = r.start[n:]
		return n, nil
	}
	if r.n == 0 {
		return 0, io.EOF
	}
	n := min(len(p), r.n)
	for i := range p[:n] {
		p[i] = 'x'
	}
	r.n -= n
	return n, nil
}

func TestBoundedMemory(t *testing.T) {
	const size = 64 << 20
	for _, test := range []struct {
		name, start string
		line        int
	}{
		{"open quote in the heads", "\"a", 1},
		{"open quote in a row", "a,b\n1,2\n3,\"4", 3},
		{"no line end", "a,b\n1,2\n3,", 3},
		{"open quote behind the sample", "a,b\n" + strings.Repeat("1,2\n", sampleSize/4) + "\"", sampleSize/4 + 2},
	} {
		source := &endlessReader{test.start, size}
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		r, err := Open(source, Options{Name: "f"})
		var b Block
		for err == nil {
			err = r.Next(&b)
		}
		runtime.ReadMemStats(&after)
		want := fmt.Sprintf("f:%d: the record that begins here has no end within 1 MiB", test.line)
		if !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%s: error %v, want %s", test.name, err, want)
		}
		if used := after.TotalAlloc - before.TotalAlloc; used > 16<<20 {
			t.Errorf("%s: %d bytes allocated, want few", test.name, used)
		}
		if read := size - source.n; read > 4<<20 {
			t.Errorf("%s: %d bytes read, want few", test.name, read)
		}
	}
}

func TestRecordDoesNotAllocate(t *testing.T) {
	text := plainTable(2000)
	var b Block
	var rec Record
	r, err := Open(bytes.NewReader(text), Options{})
	if err != nil {
		t.Fatal(err)
	}
	if err := r.Next(&b); err != nil {
		t.Fatal(err)
	}
	b.Record(&rec)
	if n := testing.AllocsPerRun(1000, func() { b.Record(&rec) }); n != 0 {
		t.Errorf("Record allocates %v times a row, want 0", n)
	}
}
