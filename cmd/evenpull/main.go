// Evenpull computes the run-down of a spring-driven clock with a fusee.
package main

import "os"

func main() {
	os.Exit(Main(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}
