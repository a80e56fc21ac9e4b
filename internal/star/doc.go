// Package star holds the test of the module's shape: which package may import
// which, what the top level holds, and what the root module depends on.
package star
