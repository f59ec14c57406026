package dev.pawl.grammar.source;

/** How bad a diagnostic is: an error stops the run, a warning does not. */
public enum Severity {
  ERROR,
  WARNING
}
