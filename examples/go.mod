module pondwright.example/examples

go 1.26.0

require pondwright.example v0.0.0

replace pondwright.example => ../
