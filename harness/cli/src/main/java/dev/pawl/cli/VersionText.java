package dev.pawl.cli;

import dev.pawl.grammar.rules.parse.LanguageVersion;
import dev.pawl.report.json.JsonReportFormat;
import dev.pawl.run.Version;

/** What {@code pawl --version} says: the version, which build of it, and what it reads and writes. */
public final class VersionText {

  public static final String TEXT = "pawl " + Version.TEXT + "\n"
      + "build      " + Version.BUILD + "\n"
      + "language   version " + LanguageVersion.KNOWN + " of the rule language\n"
      + "reports    report.json version " + JsonReportFormat.VERSION + ", reads versions "
      + JsonReportFormat.OLDEST_READ + " to " + JsonReportFormat.VERSION + "; comparisons version "
      + JsonReportFormat.COMPARISON_VERSION + "\n";

  private VersionText() {}
}
