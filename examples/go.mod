module pondwright.example/examples

go 1.26.0

require (
	github.com/google/go-cmp v0.7.0
	pondwright.example v0.0.0
)

require (
	go.yaml.in/yaml/v3 v3.0.6 // indirect
	gonum.org/v1/gonum v0.17.0 // indirect
)

replace pondwright.example => ../
