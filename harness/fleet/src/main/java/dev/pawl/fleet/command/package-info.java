/** What {@code pawl fleet} does, for the command line to find. */
package dev.pawl.fleet.command;
