package dev.pawl.run.change;

import dev.pawl.logic.ProgramLine;
import dev.pawl.run.change.ChangedLines.Change;
import dev.pawl.run.change.LineMatch.Hunk;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Two versions of one file, and which of their changed lines belong together. */
final class FilePair {

  private final ProgramText before;
  private final ProgramText after;
  private final LineMatch match;
  /** By line before, the line that it is now; -1 for none. */
  private final int[] partner;
  private final List<Change> changes = new ArrayList<>();

  FilePair(ProgramText before, ProgramText after) {
    this.before = before;
    this.after = after;
    this.match = LineMatch.of(before.words(), after.words());
    this.partner = match.partner().clone();
  }

  List<Change> changes() {
    match.hunks().forEach(this::add);
    return changes;
  }

  /** In the order of the lines, those that are gone first where one has come in their place. */
  private void add(Hunk hunk) {
    List<Integer> lost = spoken(before, hunk.before());
    List<Integer> come = spoken(after, hunk.after());
    List<int[]> pairs = pairs(lost, come);
    pairs.forEach(pair -> partner[pair[0]] = pair[1]);
    for (int[] pair : pairs) {
      while (!lost.isEmpty() && lost.get(0) < pair[0]) {
        gone(lost.remove(0));
      }
      while (come.get(0) < pair[1]) {
        isNew(come.remove(0));
      }
      changes.add(new Change(Optional.of(before.inUnit(lost.get(0))), Optional.of(after.inUnit(come.get(0))),
          before.statement(lost.remove(0)), after.statement(come.remove(0))));
    }
    lost.forEach(this::gone);
    come.forEach(this::isNew);
  }

  private static List<Integer> spoken(ProgramText text, List<Integer> lines) {
    return new ArrayList<>(lines.stream().filter(line -> !text.words().get(line).isEmpty()).toList());
  }

  /** Lines that begin alike belong together, in order; so does one line with the one that has come in its place. */
  private List<int[]> pairs(List<Integer> lost, List<Integer> come) {
    if (lost.size() == 1 && come.size() == 1) {
      return List.of(new int[] {lost.get(0), come.get(0)});
    }
    List<int[]> pairs = new ArrayList<>();
    int next = 0;
    for (int line : lost) {
      for (int i = next; i < come.size(); i++) {
        if (before.head(line).equalsIgnoreCase(after.head(come.get(i)))) {
          pairs.add(new int[] {line, come.get(i)});
          next = i + 1;
          break;
        }
      }
    }
    return pairs;
  }

  /** What began a statement of which a line is gone may be there still. */
  private void gone(int line) {
    Optional<ProgramLine> now = before.beginning(line).filter(beginning -> partner[beginning] >= 0)
        .map(beginning -> after.programLine(partner[beginning]));
    changes.add(new Change(Optional.of(before.inUnit(line)), Optional.empty(), before.statement(line), now));
  }

  private void isNew(int line) {
    Optional<ProgramLine> then = after.beginning(line).flatMap(this::partnerBefore).map(before::programLine);
    changes.add(new Change(Optional.empty(), Optional.of(after.inUnit(line)), then, after.statement(line)));
  }

  private Optional<Integer> partnerBefore(int line) {
    for (int i = 0; i < partner.length; i++) {
      if (partner[i] == line) {
        return Optional.of(i);
      }
    }
    return Optional.empty();
  }
}
