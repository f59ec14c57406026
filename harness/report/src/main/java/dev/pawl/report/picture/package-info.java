/**
 * The course of the signals around the findings that are kept. The findings say where to look, and a second pass over
 * the trace, which ends at the last of them, fills the pictures: the first pass, in which everything is judged, pays
 * nothing for it.
 */
package dev.pawl.report.picture;
