/**
 * The report as lines of text that a person can act on in a terminal or a build log. Uses the result model and words.
 */
package dev.pawl.report.text;
