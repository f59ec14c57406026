package dev.pawl.run.change;

import dev.pawl.logic.ProgramLine;
import dev.pawl.report.model.ProgramPlace;
import dev.pawl.run.change.ChangedLines.Change;
import dev.pawl.run.change.LineMatch.Hunk;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Two versions of one file, and which of their changed lines belong together. */
final class FilePair {

  private final ProgramParts before;
  private final ProgramParts after;
  private final LineMatch match;
  /** By part before, the part that it is now; -1 for none. */
  private final int[] partner;
  /** By part of the later version, the part before of an element whose turn is another now. */
  private final Map<Integer, Integer> moved = new HashMap<>();
  private final List<Change> changes = new ArrayList<>();

  FilePair(ProgramParts before, ProgramParts after) {
    this.before = before;
    this.after = after;
    this.match = LineMatch.of(before.keys(), after.keys());
    this.partner = match.partner().clone();
  }

  List<Change> changes() {
    List<List<int[]>> pairs = match.hunks().stream().map(hunk -> pairs(spoken(before, hunk.before()),
        spoken(after, hunk.after()))).toList();
    pairs.forEach(found -> found.forEach(pair -> partner[pair[0]] = pair[1]));
    findMoved();
    for (int i = 0; i < pairs.size(); i++) {
      add(match.hunks().get(i), pairs.get(i));
    }
    return changes;
  }

  /** Drawn elements that are gone in one place and come in another, just as they were. */
  private void findMoved() {
    Map<String, Deque<Integer>> gone = new HashMap<>();
    match.hunks().forEach(hunk -> hunk.before().stream().filter(part -> partner[part] < 0 && !before.kind(part)
        .isEmpty()).forEach(part -> gone.computeIfAbsent(before.keys().get(part), unused -> new ArrayDeque<>())
            .add(part)));
    Set<Integer> paired = new HashSet<>();
    for (int part : partner) {
      paired.add(part);
    }
    match.hunks().forEach(hunk -> hunk.after().stream().filter(part -> !paired.contains(part)).forEach(part -> {
      Deque<Integer> same = gone.getOrDefault(after.keys().get(part), new ArrayDeque<>());
      if (!same.isEmpty()) {
        moved.put(part, same.remove());
        partner[moved.get(part)] = part;
      }
    }));
  }

  /** In the order of the lines, those that are gone first where one has come in their place. */
  private void add(Hunk hunk, List<int[]> pairs) {
    List<Integer> lost = spoken(before, hunk.before());
    List<Integer> come = spoken(after, hunk.after());
    for (int[] pair : pairs) {
      while (!lost.isEmpty() && lost.get(0) < pair[0]) {
        gone(lost.remove(0));
      }
      while (come.get(0) < pair[1]) {
        isNew(come.remove(0));
      }
      int from = lost.remove(0);
      int to = come.remove(0);
      if (!before.isOnlyLedToOtherwise(from, after, to, partner)) {
        changes.add(new Change(Optional.of(before.place(from)), Optional.of(after.place(to)), before.statement(from),
            after.statement(to)));
      }
    }
    lost.forEach(this::gone);
    come.forEach(this::isNew);
  }

  /** What does something in its turn may do something else in another; a contact has no turn of its own. */
  private void turned(int from, int to) {
    if (before.beginning(from).filter(part -> part == from).isPresent()) {
      ProgramPlace place = after.place(to);
      changes.add(new Change(Optional.of(before.place(from)), Optional.of(new ProgramPlace(place.file(), place.line(),
          place.text() + ", evaluated in another order")), before.statement(from), after.statement(to)));
    }
  }

  private static List<Integer> spoken(ProgramParts text, List<Integer> parts) {
    return new ArrayList<>(parts.stream().filter(text::isSpoken).toList());
  }

  /** Lines that begin alike belong together, in order; so do those of one kind, as many of each, between them. */
  private List<int[]> pairs(List<Integer> lost, List<Integer> come) {
    if (lost.size() == 1 && come.size() == 1) {
      return List.of(new int[] {lost.get(0), come.get(0)});
    }
    List<int[]> pairs = new ArrayList<>();
    int next = 0;
    int between = 0;
    for (int at = 0; at < lost.size(); at++) {
      for (int i = next; i < come.size(); i++) {
        if (before.head(lost.get(at)).equalsIgnoreCase(after.head(come.get(i)))) {
          pairs.addAll(replaced(lost.subList(between, at), come.subList(next, i)));
          pairs.add(new int[] {lost.get(at), come.get(i)});
          next = i + 1;
          between = at + 1;
          break;
        }
      }
    }
    pairs.addAll(replaced(lost.subList(between, lost.size()), come.subList(next, come.size())));
    return pairs;
  }

  /** Drawn elements that others of their kind have replaced, one by one. */
  private List<int[]> replaced(List<Integer> lost, List<Integer> come) {
    List<int[]> pairs = new ArrayList<>();
    for (int i = 0; i < lost.size() && lost.size() == come.size(); i++) {
      String kind = before.kind(lost.get(i));
      if (kind.isEmpty() || !kind.equals(after.kind(come.get(i)))) {
        return List.of();
      }
      pairs.add(new int[] {lost.get(i), come.get(i)});
    }
    return pairs;
  }

  /** What began a statement of which a line is gone may be there still. */
  private void gone(int line) {
    if (moved.containsValue(line)) {
      return;
    }
    Optional<ProgramLine> now = before.beginning(line).filter(beginning -> partner[beginning] >= 0)
        .map(beginning -> after.programLine(partner[beginning]));
    changes.add(new Change(Optional.of(before.place(line)), Optional.empty(), before.statement(line), now));
  }

  private void isNew(int line) {
    if (moved.containsKey(line)) {
      turned(moved.get(line), line);
      return;
    }
    Optional<ProgramLine> then = after.beginning(line).flatMap(this::partnerBefore).map(before::programLine);
    changes.add(new Change(Optional.empty(), Optional.of(after.place(line)), then, after.statement(line)));
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
