package main

import (
	"context"
	"io"
	"io/fs"
	"os"
	"os/signal"
	"sync"
	"syscall"
	"time"
)

// A disk holds the files that commands read and write. There are two: that of the
// process and, in tests, one that fails.
type disk interface {
	open(name string) (io.ReadCloser, error)
	openIn(folder, name string) (io.ReadCloser, error) // but nothing outside the folder
	stat(name string) (fs.FileInfo, error)
	readDir(name string) ([]fs.DirEntry, error)
	makeFolder(name string) error                           // unless it exists
	create(name string, mode fs.FileMode) (diskFile, error) // fails if it exists
	openDevice(name string) (diskFile, error)               // or a pipe, to write to
	rename(from, to string) error
	remove(name string) error
}

type diskFile interface {
	io.WriteCloser
	Sync() error
}

// A process is the machine as a command sees it: its files, and interrupts. It
// listens for an interrupt only when it must: listening takes threads, and would be
// most of the work of a short command. Until then an interrupt ends the program at
// once, and there is nothing to clean up.
type process struct {
	once sync.Once
	ctx  context.Context

	changing   sync.Mutex
	unfinished map[string]bool // files that must not be left behind
}

// grace is the time that a command has to end by itself after an interrupt. One
// that hangs in a read or a write is not waited for.
const grace = 50 * time.Millisecond

// listen returns a context that an interrupt ends.
func (p *process) listen() context.Context {
	p.once.Do(func() {
		ctx, cancel := context.WithCancel(context.Background())
		p.ctx = ctx
		signals := make(chan os.Signal, 1)
		signal.Notify(signals, os.Interrupt, syscall.SIGTERM)
		go func() {
			<-signals
			cancel()
			time.Sleep(grace)
			p.clear()
			io.WriteString(os.Stderr, interruptedText)
			os.Exit(interrupted)
		}()
	})
	return p.ctx
}

// clear removes unfinished files, and keeps any from being finished later.
func (p *process) clear() {
	p.changing.Lock() // and never unlocks
	for name := range p.unfinished {
		os.Remove(name)
	}
}

func (p *process) open(name string) (io.ReadCloser, error) { return os.Open(name) }

func (p *process) openIn(folder, name string) (io.ReadCloser, error) {
	return os.OpenInRoot(folder, name)
}

func (p *process) stat(name string) (fs.FileInfo, error) { return os.Stat(name) }

func (p *process) readDir(name string) ([]fs.DirEntry, error) { return os.ReadDir(name) }

func (p *process) makeFolder(name string) error { return os.MkdirAll(name, 0o777) }

func (p *process) create(name string, mode fs.FileMode) (diskFile, error) {
	p.listen()
	p.changing.Lock()
	defer p.changing.Unlock()
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return nil, err
	}
	if p.unfinished == nil {
		p.unfinished = map[string]bool{}
	}
	p.unfinished[name] = true
	return f, nil
}

func (p *process) openDevice(name string) (diskFile, error) {
	return os.OpenFile(name, os.O_WRONLY, 0)
}

func (p *process) rename(from, to string) error {
	p.changing.Lock()
	defer p.changing.Unlock()
	err := os.Rename(from, to)
	if err == nil {
		delete(p.unfinished, from)
	}
	return err
}

func (p *process) remove(name string) error {
	p.changing.Lock()
	defer p.changing.Unlock()
	delete(p.unfinished, name)
	return os.Remove(name)
}

// asked is the context of a process that listens for interrupts from the first time
// somebody asks.
type asked struct {
	context.Context
	*process
}

func (a asked) Err() error            { return a.listen().Err() }
func (a asked) Done() <-chan struct{} { return a.listen().Done() }
