// Package leastsquares fits curves to data: which parameters leave the smallest sum of squares, and how far may chance have moved
// them?
//
// Linear and Nonlinear answer for models that are linear in their parameters and for those that are not. Every fit of a recording
// rests on these two. Both give the covariance of independent rows; ClusterCovariance gives that of rows that are
// independent only between flights. Columns, parameters and responses may be in any units: answers do not depend on their
// scale, and scales that are powers of two change no digit.
//
// How well a design tells its parameters apart is its condition number after its columns have been brought to length one, in
// Frobenius norms: the number of parameters when all stand at right angles, and one over the relative change of the
// columns that would make them collinear, roughly. Centring is left to the caller.
//
// Left out: bounds on parameters, robust weights, errors in the columns themselves.
package leastsquares
