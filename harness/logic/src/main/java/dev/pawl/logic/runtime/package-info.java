/**
 * What compiled programs run on: their memory, the standard functions and function blocks, and faults. Public only
 * because compiled code calls it; uses nothing of the rest.
 */
package dev.pawl.logic.runtime;
