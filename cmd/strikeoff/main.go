// Command strikeoff reads print requests, plans how to print them, and keeps each job until its test print is signed off.
package main

func main() {}
