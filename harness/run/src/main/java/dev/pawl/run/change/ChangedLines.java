package dev.pawl.run.change;

import dev.pawl.logic.ProgramLine;
import dev.pawl.report.model.ProgramPlace;
import dev.pawl.run.files.LogicFiles;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/**
 * The lines by which two versions of a program differ, remarks left out.
 *
 * @param changes each changed line, in order
 */
public record ChangedLines(List<Change> changes) {

  /**
   * A changed line.
   *
   * @param before where it was; empty for a new line
   * @param after where it is; empty for one that is gone
   * @param statementBefore the line at which the statement began that it was part of, empty where there was none
   * @param statementAfter the same in the later version; also that of an unchanged line which began the statement
   */
  public record Change(Optional<ProgramPlace> before, Optional<ProgramPlace> after,
      Optional<ProgramLine> statementBefore, Optional<ProgramLine> statementAfter) {}

  public ChangedLines {
    changes = List.copyOf(changes);
  }

  /** Compares two versions: file by file of one name, or the only file of each. */
  public static ChangedLines of(LogicFiles before, LogicFiles after) {
    List<Change> changes = new ArrayList<>();
    List<ProgramParts> left = ProgramText.of(before);
    List<ProgramParts> later = ProgramText.of(after);
    boolean single = left.size() == 1 && later.size() == 1;
    for (ProgramParts text : later) {
      ProgramParts old = left.stream().filter(each -> single || each.name().equals(text.name())).findFirst()
          .orElse(ProgramParts.EMPTY);
      left.remove(old);
      changes.addAll(new FilePair(old, text).changes());
    }
    left.forEach(text -> changes.addAll(new FilePair(text, ProgramParts.EMPTY).changes()));
    return new ChangedLines(changes);
  }

  /** The lines to be watched in the earlier version. */
  public List<ProgramLine> watchedBefore() {
    return watched(Change::statementBefore);
  }

  /** The lines to be watched in the later version. */
  public List<ProgramLine> watchedAfter() {
    return watched(Change::statementAfter);
  }

  private List<ProgramLine> watched(Function<Change, Optional<ProgramLine>> statement) {
    return changes.stream().map(statement).flatMap(Optional::stream).distinct().toList();
  }
}
