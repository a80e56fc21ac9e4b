package main

import (
	"bytes"
	"flag"
	"fmt"
	"go/format"
	"log"
	"os"
	"path/filepath"
	"text/template"
)

func main() {
	log.SetFlags(0)
	log.SetPrefix("unitgen: ")
	dir := flag.String("dir", ".", "directory of package units")
	flag.Parse()
	files, err := generate(*dir)
	if err != nil {
		log.Fatal(err)
	}
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(*dir, name), text, 0o644); err != nil {
			log.Fatal(err)
		}
	}
}

// generate returns the text of every generated file of the package in dir by
// its name.
func generate(dir string) (map[string][]byte, error) {
	model, err := build(dir)
	if err != nil {
		return nil, err
	}
	files := map[string][]byte{}
	for name, text := range map[string]string{
		"types_gen.go":   typesTemplate,
		"methods_gen.go": methodsTemplate,
		"records_gen.go": recordsTemplate,
		"UNITS.md":       markdownTemplate,

		"cases_gen_test.go":      casesTemplate,
		"testdata/uncovered.txt": uncoveredTemplate,
	} {
		t, err := template.New(name).Parse(text)
		if err != nil {
			return nil, err
		}
		var b bytes.Buffer
		if err := t.Execute(&b, model); err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		out := b.Bytes()
		if filepath.Ext(name) == ".go" {
			if out, err = format.Source(out); err != nil {
				return nil, fmt.Errorf("%s: %w", name, err)
			}
		}
		files[name] = out
	}
	return files, nil
}
