// Package identify finds stability and control derivatives from manoeuvres: how does the model answer its controls, and how sure
// is that?
package identify
