/** Times, durations, values and findings in words, the same in every report. Uses the result model only. */
package dev.pawl.report.words;
