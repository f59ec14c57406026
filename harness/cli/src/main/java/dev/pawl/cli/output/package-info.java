/** What commands that judge say on the console, while they do and after. */
package dev.pawl.cli.output;
