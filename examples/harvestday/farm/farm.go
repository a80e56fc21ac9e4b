// Package farm reads the folder in which a farm keeps the papers of one
// harvest: harvest.json and the tables beside it. It reads what people really
// write, and refuses the rest with file, line and path: every problem of every
// file in one run.
//
//	harvest.json    everything that is one number
//	survey.csv      x, y, z soundings of the bottom (or pond.stages in harvest.json)
//	shore.csv       x, y, z of the pond's edge in order; may be left out
//	casts.csv       count, net area
//	weights.csv     weight of single animals
//	pump.csv        flow, head, speed off the pump's data sheet
//	hose.csv        part, bore, length, roughness, loss K
//	tide.csv        time, height, high or low water
//	containers.csv  the bins
//	trucks.csv      the trucks
package farm

import (
	"errors"
	"io/fs"
	"strings"

	"pondwright.example/examples/harvestday/plan"
	"pondwright.example/examples/internal/strictjson"
	"pondwright.example/units"
)

// Read reads the folder. The notices say what was read by a rule the farm may
// want to know of. The error joins every problem found; there is no plan to be
// made beside an error.
func Read(folder fs.FS) (plan.Input, []units.Notice, error) {
	r := reader{folder: folder}
	r.json()
	r.survey()
	r.casts()
	r.weights()
	r.pump()
	r.hose()
	r.tide()
	r.containers()
	r.trucks()
	r.meaning()
	return r.in, r.notices, errors.Join(r.errs...)
}

type reader struct {
	folder  fs.FS
	in      plan.Input
	notices []units.Notice
	errs    []error
	// bad holds the paths that could not be read, so that their zero values are
	// not blamed a second time.
	bad []string
}

const mainFile = "harvest.json"

func (r *reader) json() {
	data, err := fs.ReadFile(r.folder, mainFile)
	if err != nil {
		r.errs = append(r.errs, errors.New(mainFile+": cannot be read: "+reason(err)))
		r.bad = append(r.bad, "")
		return
	}
	err = strictjson.Decode([]byte(strings.TrimPrefix(string(data), "\ufeff")), &r.in)
	for _, e := range split(err) {
		var f *strictjson.Fault
		if errors.As(e, &f) {
			r.bad = append(r.bad, f.Path)
		}
		r.errs = append(r.errs, &fileError{mainFile, e})
	}
}

// meaning checks the values that could be read against what the packages can
// use, and leaves out what hangs on a value that could not be read.
func (r *reader) meaning() {
	for _, e := range split(r.in.Validate()) {
		var in *units.InputError
		if errors.As(e, &in) && r.unreadable(in.Field) {
			continue
		}
		if in == nil && len(r.bad) > 0 {
			continue
		}
		r.errs = append(r.errs, &fileError{home(in), e})
	}
}

// home is the file a field's value stands in.
func home(in *units.InputError) string {
	if in != nil {
		for table, prefixes := range tableFields {
			for _, p := range prefixes {
				if strings.HasPrefix(in.Field, p) {
					return table
				}
			}
		}
	}
	return mainFile
}

var tableFields = map[string][]string{
	"survey.csv":     {"pond.survey"},
	"shore.csv":      {"pond.shore"},
	"casts.csv":      {"stock.casts"},
	"weights.csv":    {"stock.weights"},
	"pump.csv":       {"pump.points"},
	"hose.csv":       {"hose.parts"},
	"tide.csv":       {"tide.waters"},
	"containers.csv": {"haul.containers"},
	"trucks.csv":     {"haul.trucks"},
}

func (r *reader) unreadable(field string) bool {
	for _, b := range r.bad {
		if b == "" || strings.HasPrefix(field, b) || strings.HasPrefix(b, field) {
			return true
		}
	}
	return false
}

func (r *reader) remark(code, field, message string) {
	r.notices = append(r.notices, units.Notice{Code: code, Severity: units.Info, Field: field, Message: message})
}

// fileError puts the file's name before an error.
type fileError struct {
	file string
	err  error
}

func (e *fileError) Error() string { return e.file + " " + e.err.Error() }
func (e *fileError) Unwrap() error { return e.err }

// split returns the errors joined in err, at any depth.
func split(err error) []error {
	if err == nil {
		return nil
	}
	if j, ok := err.(interface{ Unwrap() []error }); ok {
		var all []error
		for _, e := range j.Unwrap() {
			all = append(all, split(e)...)
		}
		return all
	}
	return []error{err}
}

func reason(err error) string {
	if errors.Is(err, fs.ErrNotExist) {
		return "there is no such file in the folder"
	}
	return err.Error()
}
