// Trimbench plans all slitting problems in a folder and prints, class by class,
// how many it proved, how many sets they take above the fewest known, and how
// long that took.
//
//	go run ./examples/trimbench -limit 10s FOLDER [CLASS...]
//
// A class is a file CLASS.csv with the columns instance, capacity, width and
// demand. Beside it, best-known.csv (instance, fewest_sets) has the figures to
// compare with, and CLASS-limits.csv the limits of a slitter and the number of
// patterns in a plan to be bettered. -factors shows how much longer each limit of
// a slitter takes than none.
package main

import (
	"context"
	"encoding/csv"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/trim"
)

func main() {
	limit := flag.Duration("limit", 10*time.Second, "for an instance")
	only := flag.String("only", "", "instances with this in their name")
	verbose := flag.Bool("v", false, "a line for every instance")
	compare := flag.Bool("factors", false, "how much longer each limit of a slitter takes")
	flag.Parse()
	if err := run(flag.Args(), *limit, *only, *verbose, *compare); err != nil {
		fmt.Fprintln(os.Stderr, "trimbench:", err)
		os.Exit(1)
	}
}

// An instance is a problem with what is known of it.
type instance struct {
	name            string
	job             trim.Job
	known, patterns int // 0: not known
}

func run(args []string, limit time.Duration, only string, verbose, compare bool) error {
	if len(args) == 0 {
		return errors.New("want a folder of instance files, and classes to take of it")
	}
	folder, classes := args[0], args[1:]
	if len(classes) == 0 {
		files, err := filepath.Glob(filepath.Join(folder, "*.csv"))
		if err != nil {
			return err
		}
		for _, f := range files {
			classes = append(classes, strings.TrimSuffix(filepath.Base(f), ".csv"))
		}
	}
	known, err := rows(filepath.Join(folder, "best-known.csv"))
	if err != nil && !os.IsNotExist(err) {
		return err
	}
	if compare {
		return compareLimits(folder, classes, limit, only)
	}
	fmt.Printf("%-14s %9s %7s %6s %10s %10s %10s  %s\n", "class", "instances", "proven", "above", "median", "90 %", "worst", "patterns of start plans")
	for _, class := range classes {
		instances, err := read(folder, class, known)
		if err != nil {
			return err
		}
		if len(instances) > 0 {
			tell(class, instances, limit, only, verbose)
		}
	}
	return nil
}

// compareLimits prints the factors of every class.
func compareLimits(folder string, classes []string, limit time.Duration, only string) error {
	for _, class := range classes {
		instances, err := read(folder, class, nil)
		if err != nil {
			return err
		}
		instances = slices.DeleteFunc(instances, func(in *instance) bool { return !strings.Contains(in.name, only) })
		if len(instances) > 0 {
			factors(class, instances, limit)
		}
	}
	return nil
}

// rows of a CSV file by head.
func rows(name string) ([]map[string]string, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil || len(all) == 0 {
		return nil, fmt.Errorf("%s: no table: %v", name, err)
	}
	var out []map[string]string
	for _, cells := range all[1:] {
		row := map[string]string{}
		for i, head := range all[0] {
			row[head] = cells[i]
		}
		out = append(out, row)
	}
	return out, nil
}

// read gives no instances for a file that holds none.
func read(folder, class string, known []map[string]string) ([]*instance, error) {
	table, err := rows(filepath.Join(folder, class+".csv"))
	if err != nil || len(table) == 0 || table[0]["capacity"] == "" {
		return nil, err
	}
	number := func(text string) int {
		n, convErr := strconv.Atoi(text)
		if convErr != nil && text != "" && err == nil {
			err = fmt.Errorf("%s: %q is no whole number", class, text)
		}
		return n
	}
	var out []*instance
	at := map[string]*instance{}
	for _, row := range table {
		in := at[row["instance"]]
		if in == nil {
			in = &instance{name: row["instance"]}
			in.job.AnyPatterns = true
			in.job.Parents = []trim.Parent{{Deckle: paperprop.Length(number(row["capacity"])) * paperprop.Millimetre}}
			at[in.name] = in
			out = append(out, in)
		}
		in.job.Orders = append(in.job.Orders, trim.Order{
			Width: paperprop.Length(number(row["width"])) * paperprop.Millimetre, Reels: number(row["demand"]),
		})
	}
	for _, row := range known {
		if in := at[row["instance"]]; in != nil {
			in.known = number(row["fewest_sets"])
		}
	}
	limits, limitsErr := rows(filepath.Join(folder, class+"-limits.csv"))
	if limitsErr != nil && !os.IsNotExist(limitsErr) {
		return nil, limitsErr
	}
	for _, row := range limits {
		in := at[row["instance"]]
		if in == nil {
			continue
		}
		in.job.Parents[0].Deckle = paperprop.Length(number(row["max_width"])) * paperprop.Millimetre
		in.job.Slitter = trim.Slitter{
			LeastUsed:  paperprop.Length(number(row["min_used_width"])) * paperprop.Millimetre,
			MostReels:  number(row["max_pieces"]),
			MostWidths: number(row["max_distinct_widths"]), SetMultiple: number(row["set_multiple"]),
			LeastSets: number(row["min_sets_per_pattern"]),
		}
		in.job.AnyPatterns = false
		in.patterns = number(row["start_patterns"])
	}
	return out, err
}

// tell plans the instances of a class and prints its line.
func tell(class string, instances []*instance, limit time.Duration, only string, verbose bool) {
	var times []time.Duration
	proven, above, failed := 0, 0, 0
	var share float64
	shares := 0
	for _, in := range instances {
		if !strings.Contains(in.name, only) {
			continue
		}
		ctx, cancel := context.WithTimeout(context.Background(), limit)
		start := time.Now()
		p, err := in.job.Plan(ctx)
		cancel()
		took := time.Since(start)
		times = append(times, took)
		if err != nil {
			failed++
			fmt.Printf("  %s: %v\n", in.name, err)
			continue
		}
		if p.Certificate.Proven {
			proven++
		}
		if in.known > 0 {
			above += p.Sets - in.known
		}
		if in.patterns > 0 {
			share += float64(len(p.Patterns)) / float64(in.patterns)
			shares++
		}
		if verbose {
			fmt.Printf("  %-28s sets %d (known %d), bound %d by %s, %d patterns (start %d), %v\n", in.name, p.Sets, in.known,
				p.Certificate.Bound, p.Certificate.Proof, len(p.Patterns), in.patterns, took.Round(time.Millisecond))
		}
	}
	if len(times) == 0 {
		return
	}
	slices.Sort(times)
	at := func(part float64) time.Duration {
		return times[int(part*float64(len(times)-1)+0.5)].Round(10 * time.Microsecond)
	}
	note := ""
	if shares > 0 {
		note = fmt.Sprintf("%.1f %% on average of %d", 100*share/float64(shares), shares)
	}
	if failed > 0 {
		note += fmt.Sprintf(" %d failed", failed)
	}
	fmt.Printf("%-14s %9d %7d %6d %10v %10v %10v  %s\n", class, len(times), proven, above, at(0.5), at(0.9), at(1), note)
}
