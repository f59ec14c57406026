package dev.pawl.report.json;

/**
 * Says that a file is not a report that this tool can read; the message names the file, the place and what was
 * expected.
 */
public final class ReportFormatException extends Exception {

  private static final long serialVersionUID = 1L;

  ReportFormatException(String message) {
    super(message);
  }
}
