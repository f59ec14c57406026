/** The standard function blocks scan by scan, edge cases included. */
package dev.pawl.logic.blocks;
