package dev.pawl.cli.option;

import dev.pawl.run.files.DecisionFiles;
import java.util.List;
import picocli.CommandLine.ParseResult;

/**
 * What persons have decided, and what that does to the exit status.
 *
 * @param files files of decisions
 * @param acceptedPass whether accepted findings end with status 0
 */
public record DecisionOptions(List<String> files, boolean acceptedPass) {

  static final DecisionOptions NONE = new DecisionOptions(List.of(), false);

  public static final Option<List<String>> DECISIONS = Option.list("FILE",
      "What persons have decided: findings that they accept until a day, and what they have reviewed. Verdicts stay as"
          + " they are; the report shows both. Can be given several times.", "--decisions");
  public static final Option<Boolean> ACCEPTED_PASS = Option.flag("Exit with status 0 instead of 4 where all that is"
      + " broken is accepted, no acceptance is expired or about nothing and no review is of another report.",
      "--accepted-pass");

  static DecisionOptions of(ParseResult words) {
    return new DecisionOptions(DECISIONS.of(words), ACCEPTED_PASS.of(words));
  }

  /** Reads the files. */
  public DecisionFiles load() {
    return files.isEmpty() ? DecisionFiles.NONE : DecisionFiles.load(files);
  }
}
