/**
 * What the launcher has done once, before it makes the class archive: classes brought to a form that the archive takes, so that a start does not have to make
 * them up anew. Nothing of it runs in a usual run.
 */
package dev.pawl.cli.archive;
