/** The standard function blocks against the table of check values, row by row. */
package dev.pawl.logic.blocks;
