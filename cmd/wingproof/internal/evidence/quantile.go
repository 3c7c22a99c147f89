package evidence

// Normal95 is the two-sided 95 % quantile of the normal distribution: what a 95 % interval is wide on either side, in standard deviations.
const Normal95 = 1.959963984540054
