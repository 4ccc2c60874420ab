// Command service offers the calculations over HTTP: the name in the path, a
// JSON object of inputs in, a JSON object of results out.
//
//	service -listen 127.0.0.1:8080
//	curl -d '{"mass-flow":"300 t/h","consistency-in":"4.6 %","consistency-out":"0.92 %"}' \
//		-H 'Content-Type: application/json' http://127.0.0.1:8080/calculations/dilution
//
// It knows no calculation by name: paths, schemas and the OpenAPI document come
// from the descriptions. After an interrupt or SIGTERM it answers what it has
// begun, then stops.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"os"
	"os/signal"
	"runtime"
	"syscall"
	"time"

	"millmaths.example/paperprop/catalogue"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // a second signal ends the program at once
	if err := run(ctx, os.Args[1:]); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return
		}
		fmt.Fprintln(os.Stderr, "service:", err)
		os.Exit(1)
	}
}

// run reads the flags and serves until ctx ends.
func run(ctx context.Context, args []string) error {
	flags := flag.NewFlagSet("service", flag.ContinueOnError)
	listen := flags.String("listen", "127.0.0.1:8080", "address; only this machine can reach 127.0.0.1")
	grace := flags.Duration("grace", 15*time.Second, "how long what was begun may take when the service is stopped")
	var l limits
	flags.Int64Var(&l.body, "body", 1<<20, "most bytes of a request")
	flags.IntVar(&l.working, "working", 2*runtime.GOMAXPROCS(0), "calculations at once")
	flags.IntVar(&l.inside, "inside", 256, "requests at once, with those that wait for their turn")
	flags.DurationVar(&l.time, "time", 5*time.Second, "longest wait for a turn, and longest calculation")
	if err := flags.Parse(args); err != nil {
		return err
	}
	if flags.NArg() > 0 {
		return fmt.Errorf("%q is no flag; service -help tells them", flags.Arg(0))
	}
	if err := l.check(); err != nil {
		return err
	}
	if *grace < 0 {
		return fmt.Errorf("-grace is %v, want 0s or more", *grace)
	}
	listener, err := net.Listen("tcp", *listen)
	if err != nil {
		return err
	}
	handler, err := newService(catalogue.Groups(), l)
	if err != nil {
		return err
	}
	slog.Info("listening", "address", listener.Addr().String())
	return serve(ctx, listener, handler, l, *grace)
}

// serve answers until ctx ends. Then it takes no new connection, answers what it
// has begun, and returns nil if that was done within grace.
func serve(ctx context.Context, listener net.Listener, handler http.Handler, l limits, grace time.Duration) error {
	server := &http.Server{
		Handler:           handler,
		ReadHeaderTimeout: 5 * time.Second,
		ReadTimeout:       10 * time.Second,
		WriteTimeout:      10*time.Second + 2*l.time + 10*time.Second, // to read, to wait and calculate, to write
		IdleTimeout:       time.Minute,
		MaxHeaderBytes:    16 << 10,
		ErrorLog:          slog.NewLogLogger(slog.Default().Handler(), slog.LevelWarn),
	}
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(listener) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	slog.Info("stopping: no new connections, what was begun is answered")
	// Not from ctx, which has ended.
	closing, cancel := context.WithTimeout(context.Background(), grace)
	defer cancel()
	if err := server.Shutdown(closing); err != nil {
		server.Close()
		return fmt.Errorf("stopped after %v with requests unanswered: %w", grace, err)
	}
	slog.Info("stopped")
	return nil
}
