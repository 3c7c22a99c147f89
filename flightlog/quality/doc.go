// Package quality looks for what is wrong with a recording before anybody trusts it: gaps, channels that freeze, spikes,
// wrong units and signs, channels that physics ties together and that disagree.
package quality
