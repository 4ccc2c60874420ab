// Command millmaths calculates for pulp, paper and board mills on the command
// line. It computes nothing itself: package catalogue knows the calculations;
// this command parses, prints and draws.
package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"syscall"

	"github.com/spf13/pflag"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/plain"
	"millmaths.example/paperprop/catalogue"
	"millmaths.example/paperprop/making"
	"millmaths.example/paperprop/trim"
	"millmaths.example/stock/line"
)

func main() {
	// A write to a pipe that nobody reads becomes an error like others, so that
	// files are finished or removed before the end.
	signal.Ignore(syscall.SIGPIPE)
	p := new(process)
	var out io.Writer = os.Stdout
	if isTerminal(os.Stdout) {
		out = &screen{to: os.Stdout}
	}
	os.Exit(newTerminal(os.Stdin, out, os.Stderr, p).run(asked{context.Background(), p}, os.Args[1:]))
}

// isTerminal reports whether f is a terminal, watched by somebody.
func isTerminal(f *os.File) bool {
	info, err := f.Stat()
	if err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return false
	}
	null, err := os.Stat(os.DevNull)
	return err != nil || !os.SameFile(info, null)
}

// Exit statuses.
const (
	done        = 0
	failed      = 1   // bad data, no solution, a failed row, a full disk
	misused     = 2   // unknown command or flag, an input missing
	interrupted = 130 // as in shells, for an interrupt
	unread      = 141 // as in shells, if nobody reads the results
)

const interruptedText = "millmaths: interrupted\n"

// A terminal is where a command reads and writes. Results go to out,
// everything else to err.
type terminal struct {
	in   io.Reader
	out  *bufio.Writer
	err  *screen
	disk disk
}

func newTerminal(in io.Reader, out, err io.Writer, d disk) *terminal {
	return &terminal{in, bufio.NewWriterSize(namedWriter{out}, 32<<10), &screen{to: err}, d}
}

// say writes a line to err, after flushing the results so far.
func (t *terminal) say(format string, args ...any) {
	t.sayAll(oneLine(fmt.Sprintf(format, args...)))
}

// sayAll is say for our own text of several lines.
func (t *terminal) sayAll(text string) {
	t.out.Flush() // an error stays in the writer, and is reported at the end
	fmt.Fprintln(t.err, text)
}

// answer prints an answer for programs, unless making it has failed.
func (t *terminal) answer(data []byte, err error) error {
	if err == nil {
		_, err = fmt.Fprintf(t.out, "%s\n", data)
	}
	return err
}

// A usageError reports wrong usage.
type usageError struct{ error }

func (e usageError) Unwrap() error { return e.error }

// errReported ends a command whose failures have already been reported.
var errReported = errors.New("failed")

// run is the whole program except for the process. It returns the exit status.
func (t *terminal) run(ctx context.Context, args []string) int {
	problem := command(ctx, args, t)
	switch err := t.out.Flush(); { // once it has failed, it always does
	case err == nil || errors.Is(problem, err):
	case problem == nil, errors.Is(problem, errReported), errors.Is(err, errUnread):
		problem = err
	default:
		problem = errors.Join(problem, err)
	}
	return status(problem, t.err)
}

// errUnread ends a command whose results nobody reads any more.
var errUnread = errors.New("nobody reads the results")

// A namedWriter names standard output in its errors.
type namedWriter struct{ io.Writer }

func (w namedWriter) Write(p []byte) (int, error) {
	n, err := w.Writer.Write(p)
	switch {
	case errors.Is(err, syscall.EPIPE):
		err = errUnread
	case err != nil:
		err = fmt.Errorf("standard output: %w", err)
	}
	return n, err
}

// status reports an error and returns the exit status.
func status(err error, say io.Writer) int {
	var usage usageError
	var missing *calc.MissingError
	var choice *calc.ChoiceError
	var name *calc.NameError
	switch {
	case err == nil, errors.Is(err, pflag.ErrHelp):
		return done
	case errors.Is(err, errReported):
		return failed
	case errors.Is(err, errUnread):
		return unread
	case errors.Is(err, context.Canceled):
		io.WriteString(say, interruptedText)
		return interrupted
	}
	fmt.Fprintf(say, "millmaths: %s\n", linesOf(err))
	if errors.As(err, &usage) || errors.As(err, &missing) || errors.As(err, &choice) || errors.As(err, &name) {
		return misused
	}
	return failed
}

// A tool is a command that is not a calculation. One without usage is for scripts.
type tool struct {
	name, usage, help string
	run               func(ctx context.Context, args []string, t *terminal) error
	plain             bool                    // without help of its own
	tables            func() []calc.FileTable // keys of the file it takes; nil if there are none
}

func tools() []tool {
	return []tool{
		{name: "list", usage: "list [WORD]", help: "calculations, or those that have to do with a word", run: list, plain: true},
		{name: "explain", usage: "explain NAME", help: "what a calculation answers, its formula, limits and source", run: explain, plain: true},
		{name: "convert", usage: "convert VALUE UNIT...", help: "a value in other units", run: convert},
		{name: "batch", usage: "batch NAME [FILE]", help: "a calculation over the rows of a table", run: batchCommand},
		{name: "line", usage: "line FILE...", help: "the balance of a machine line described in a file", run: lineCommand, tables: line.Tables},
		{name: "trim", usage: "trim ORDERS", help: "slitting plans: the fewest sets for an order list, with a proof", run: trimCommand, tables: trim.Tables},
		{name: "making", usage: "making FILE", help: "an order book carried back to bales, water, steam, starch and hours", run: makingCommand, tables: making.Tables},
		{name: "verify", usage: "verify FILE...", help: "check tables against the calculations", run: verify},
		{name: "handbook", usage: "handbook DIR", help: "a static reference of all calculations, to read and to print", run: handbookCommand},
		{name: "schema", usage: "schema [NAME]", help: "JSON Schema of one calculation or of all", run: schema, plain: true},
		{name: "completion", usage: "completion bash|zsh|fish", help: "a script that completes commands, inputs and units", run: completion, plain: true},
		{name: "complete", run: complete},
	}
}

func command(ctx context.Context, args []string, t *terminal) error {
	if len(args) == 0 || args[0] == "--help" || args[0] == "-h" || args[0] == "help" && len(args) == 1 {
		overview(t.out)
		return nil
	}
	if args[0] == "--version" || args[0] == "version" {
		_, err := t.out.WriteString("millmaths " + calc.Version + "\n")
		return err
	}
	if args[0] == "help" {
		return command(ctx, []string{args[1], "--help"}, t)
	}
	for _, tool := range tools() {
		if tool.name == args[0] && tool.plain && len(args) > 1 && (args[1] == "--help" || args[1] == "-h") {
			fmt.Fprintf(t.out, "  millmaths %s   %s\n", tool.usage, plain.WrappedAt(tool.help, len("  millmaths    ")+len(tool.usage)))
			return nil
		}
		if tool.name == args[0] {
			return tool.run(ctx, args[1:], t)
		}
	}
	if c, ok := catalogue.Find(args[0]); ok {
		if tool, ok := c.(*calc.Tool); ok {
			return runTool(tool, args[1:], t)
		}
		return calculate(ctx, c, args[1:], t)
	}
	return usageError{unknown("command", args[0], commandNames())}
}

func commandNames() []string {
	names := catalogue.Names()
	for _, tool := range tools() {
		if tool.usage != "" {
			names = append(names, tool.name)
		}
	}
	return names
}

// unknown returns an error that names the nearest names, and the list of
// calculations in which the word turns up. For outputs it names all if none is
// near.
func unknown(what, name string, names []string) error {
	told := fmt.Sprintf("unknown %s %q", what, name)
	near := calc.Nearest(name, names)
	if len(near) > 0 {
		told += ", near: " + strings.Join(near, ", ")
	}
	switch {
	case what != "output" && turnsUp(name):
		told += "; millmaths list " + name + " shows what has to do with it"
	case len(near) == 0 && what == "output":
		told += ", want one of " + strings.Join(names, ", ")
	case len(near) == 0:
		told += "; millmaths list shows all calculations"
	}
	return errors.New(told)
}

func overview(out io.Writer) {
	fmt.Fprint(out, `millmaths calculates for pulp, paper and board mills.

  millmaths dilution --mass-flow "300 t/h" --consistency-in "4.6 %" \
      --consistency-out "0.92 %"

  millmaths NAME [--INPUT "VALUE UNIT"]...
                                      one calculation; leave an input out and
                                      give an output to solve for it
`)
	for _, tool := range tools() {
		if tool.usage != "" {
			fmt.Fprintf(out, "  millmaths %-25s %s\n", tool.usage, plain.WrappedAt(tool.help, 38))
		}
	}
	fmt.Fprint(out, `
millmaths NAME --help tells the inputs of a calculation, and what can be asked
of most: --steps, --json, --csv, --full, --plot FILE, an uncertain input
"4.0 ± 0.1 %" (one standard uncertainty), a list "[9.5 13.2] %", a range
"3..5 %". millmaths --version tells the version.
`)
}

// newFlags returns a set of flags whose errors we report.
func newFlags(name string) *pflag.FlagSet {
	flags := pflag.NewFlagSet(name, pflag.ContinueOnError)
	flags.SetOutput(io.Discard)
	flags.Usage = func() {}
	flags.SortFlags = false
	return flags
}

// A onceFlag is a text that may be given once, where somebody who gives two wants both.
type onceFlag struct {
	text  *string
	given bool
}

func (f *onceFlag) String() string { return "" }
func (f *onceFlag) Type() string   { return "string" }

func (f *onceFlag) Set(text string) error {
	if f.given {
		return fmt.Errorf("given twice: %q and %q, want one", *f.text, text)
	}
	*f.text, f.given = text, true
	return nil
}

// parseFlags suggests the nearest flag if one is unknown.
func parseFlags(flags *pflag.FlagSet, args []string) error {
	err := flags.Parse(args)
	var absent *pflag.NotExistError
	switch {
	case err == nil || errors.Is(err, pflag.ErrHelp):
		return err
	case errors.As(err, &absent):
		dashes := "--"
		if absent.GetSpecifiedShortnames() != "" {
			dashes = "-"
		}
		var names []string
		flags.VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
		near := calc.Nearest(absent.GetSpecifiedName(), names)
		for i := range near {
			near[i] = "--" + near[i]
		}
		if len(near) == 0 {
			return usageError{fmt.Errorf("%s has no flag %s%s; see millmaths %s --help", flags.Name(), dashes, absent.GetSpecifiedName(), flags.Name())}
		}
		return usageError{fmt.Errorf("%s has no flag %s%s, near: %s", flags.Name(), dashes, absent.GetSpecifiedName(), strings.Join(near, ", "))}
	}
	return badFlag(flags.Name(), err)
}

// badFlag says which flag of a command has which bad value, as the person wrote both.
func badFlag(command string, err error) error {
	if invalid := (*pflag.InvalidValueError)(nil); errors.As(err, &invalid) {
		return usageError{fmt.Errorf("%s: --%s %q: %w", command, invalid.GetFlag().Name, invalid.GetValue(), invalid.Unwrap())}
	}
	return usageError{fmt.Errorf("%s: %w", command, err)}
}
