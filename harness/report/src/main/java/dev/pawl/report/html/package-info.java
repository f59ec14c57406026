/**
 * report.html: one file that stands alone, reads without scripts, in print, in the dark and without seeing colours.
 * Everything that comes from outside goes through {@link dev.pawl.report.html.Markup}, which escapes it. Uses the
 * result model and words.
 */
package dev.pawl.report.html;
