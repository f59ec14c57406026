/**
 * Two runs side by side: what changed for every rule and margin, and for every edge of an output. Uses the result model
 * and words.
 */
package dev.pawl.report.compare;
