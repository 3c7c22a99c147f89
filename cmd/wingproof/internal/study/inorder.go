package study

import (
	"cmp"
	"strings"
)

// inOrder compares names as people count: "flight 2" stands before "flight 10". Names that differ in nothing
// but leading zeros keep the order of their letters.
func inOrder(a, b string) int {
	restA, restB := a, b
	for restA != "" && restB != "" {
		numberA, numberB := leadingDigits(restA), leadingDigits(restB)
		if numberA != "" && numberB != "" {
			plainA, plainB := strings.TrimLeft(numberA, "0"), strings.TrimLeft(numberB, "0")
			if order := cmp.Or(cmp.Compare(len(plainA), len(plainB)), strings.Compare(plainA, plainB)); order != 0 {
				return order
			}
			restA, restB = restA[len(numberA):], restB[len(numberB):]
			continue
		}
		if restA[0] != restB[0] {
			return cmp.Compare(restA[0], restB[0])
		}
		restA, restB = restA[1:], restB[1:]
	}
	return cmp.Or(cmp.Compare(len(restA), len(restB)), strings.Compare(a, b))
}

// leadingDigits are the digits at the front of a text.
func leadingDigits(text string) string {
	end := strings.IndexFunc(text, func(r rune) bool { return r < '0' || r > '9' })
	if end < 0 {
		end = len(text)
	}
	return text[:end]
}
