/** Options: how they are named and explained, and what their words mean. */
package dev.pawl.cli.option;
