/** The commands: what each is asked, and how it is done with what the rooms below can do. */
package dev.pawl.cli.command;
