/** Significance levels of all tests on an adjustment, in one place. */
import { normalQuantile } from '../uncertainty/coverage.ts';

/** Chance that the global chi-square test fails though all readings are as good as stated. Common practice. */
export const GLOBAL_ALPHA = 0.05;

/** Chance that a good reading is suspected (Baarda 1968, A testing procedure for use in geodetic networks): 0.1 %. */
export const SNOOPING_ALPHA = 0.001;

/** Chance that an error of the minimal detectable size is found: 80 % (Baarda 1968). */
export const POWER = 0.8;

/** Standardised residuals beyond this are suspected: 3.29. */
export const CRITICAL = normalQuantile(1 - SNOOPING_ALPHA / 2);

/** Minimal detectable error in units of u / sqrt(redundancy): 4.13. */
export const DETECTABLE = CRITICAL + normalQuantile(POWER);

/** Above this correlation two tests answer the same question and the readings are named together. */
export const TOO_ALIKE = 0.9;

/** A reading with less redundancy than this is not controlled by the others: rounding would decide its test. */
export const UNCONTROLLED = 1e-6;
