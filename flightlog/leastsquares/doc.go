// Package leastsquares fits curves to data: which parameters leave the smallest sum of squares, and how far may chance have moved
// them?
//
// Linear and Nonlinear answer for models that are linear in their parameters and for those that are not. Every fit of a recording
// rests on these two.
package leastsquares
