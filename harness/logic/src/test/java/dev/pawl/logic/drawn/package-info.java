/**
 * Drawn logic, from a sketch of a few lines to XML and from there to a running machine, beside what the standard says
 * by hand and beside an interpreter that goes along the wires.
 */
package dev.pawl.logic.drawn;
