package dev.pawl.report.model;

/**
 * A file that went into a check.
 *
 * @param role what it was used as
 * @param path as the user gave it
 * @param bytes its size
 * @param sha256 64 lower-case hexadecimal digits, or the empty string where it was not worked out
 */
public record Input(Role role, String path, long bytes, String sha256) {

  /** What a file was used as. */
  public enum Role {
    RULES("rules"),
    TRACE("trace"),
    BINDINGS("bindings"),
    LOGIC("logic"),
    /** A ride in motion, and what happens on it. */
    RIDE("ride"),
    /** Which findings persons accept, and what they have looked at. */
    DECISIONS("decisions"),
    /** A report since which this one says what changed. */
    EARLIER("earlier report");

    private final String label;

    Role(String label) {
      this.label = label;
    }

    public String label() {
      return label;
    }
  }
}
