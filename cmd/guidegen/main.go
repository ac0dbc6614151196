// Guidegen makes a fishing club's hatch guide of the accounts and records in a folder.
package main

import "os"

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }
