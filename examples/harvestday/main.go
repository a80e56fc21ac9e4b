// Command harvestday plans one harvest night from a farm's folder and prints
// the run sheet. Without a folder it plans the invented farm Heron Flat.
//
//	harvestday [-out DIR] [FOLDER]
//
// With -out it also writes plan.json and plan.html into DIR. A folder that
// cannot be used gives one line for each problem, exit code 1, and writes
// nothing.
package main

import (
	"bytes"
	"embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"pondwright.example/examples/harvestday/farm"
	"pondwright.example/examples/harvestday/page"
	"pondwright.example/examples/harvestday/plan"
	"pondwright.example/examples/harvestday/sheet"
	"pondwright.example/examples/internal/strictjson"
)

//go:embed heronflat
var embedded embed.FS

func main() {
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr, isTerminal(os.Stderr)))
}

func run(args []string, stdout, stderr io.Writer, terminal bool) int {
	flags := flag.NewFlagSet("harvestday", flag.ContinueOnError)
	flags.SetOutput(stderr)
	out := flags.String("out", "", "write plan.json and plan.html into this `folder`")
	flags.Usage = func() {
		fmt.Fprintln(stderr, "harvestday [-out DIR] [FOLDER] plans the harvest night described in FOLDER;\nwithout one, of the invented farm Heron Flat.")
		flags.PrintDefaults()
	}
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		return 0
	} else if err != nil {
		return 2
	}
	if flags.NArg() > 1 {
		flags.Usage()
		return 2
	}
	folder, err := fs.Sub(embedded, "heronflat")
	if flags.NArg() == 1 {
		folder = os.DirFS(flags.Arg(0))
		if info, statErr := os.Stat(flags.Arg(0)); statErr != nil || !info.IsDir() {
			err = fmt.Errorf("%s is not a folder that can be read", flags.Arg(0))
		}
	}
	if err != nil {
		fmt.Fprintln(stderr, err)
		return 1
	}
	stop := progress(stderr, terminal)
	files, text, err := render(folder)
	stop()
	if err == nil && *out != "" {
		err = write(*out, files)
	}
	if err != nil {
		report(stderr, err)
		return 1
	}
	fmt.Fprint(stdout, text)
	return 0
}

// render plans the folder's night and renders it; nothing is written yet.
func render(folder fs.FS) (files map[string][]byte, text string, err error) {
	in, remarks, err := farm.Read(folder)
	if err != nil {
		return nil, "", err
	}
	night, err := plan.Make(in)
	if err != nil {
		return nil, "", err
	}
	night.AddNotices(remarks...)
	data, err := strictjson.Encode(night)
	if err != nil {
		return nil, "", err
	}
	return map[string][]byte{"plan.json": data, "plan.html": []byte(page.HTML(night))}, sheet.Text(night), nil
}

func write(dir string, files map[string][]byte) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	for name, data := range files {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// report prints one line for each problem.
func report(w io.Writer, err error) {
	lines := bytes.Split([]byte(err.Error()), []byte("\n"))
	for _, l := range lines {
		fmt.Fprintf(w, "%s\n", l)
	}
	what := "problems"
	if len(lines) == 1 {
		what = "problem"
	}
	fmt.Fprintf(w, "%d %s; nothing was planned or written\n", len(lines), what)
}

// progress shows on a terminal that work goes on, once it takes over a second.
func progress(w io.Writer, terminal bool) (stop func()) {
	if !terminal {
		return func() {}
	}
	done, gone := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(gone)
		start := time.Now()
		tick := time.NewTicker(time.Second)
		defer tick.Stop()
		shown := false
		for {
			select {
			case <-done:
				if shown {
					fmt.Fprint(w, "\r\x1b[K")
				}
				return
			case <-tick.C:
				shown = true
				fmt.Fprintf(w, "\rplanning the night, %d s", int(time.Since(start).Seconds()))
			}
		}
	}()
	return func() { close(done); <-gone }
}

func isTerminal(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
