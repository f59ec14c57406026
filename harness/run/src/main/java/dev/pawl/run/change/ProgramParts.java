package dev.pawl.run.change;

import dev.pawl.grammar.source.Source;
import dev.pawl.logic.ProgramLine;
import dev.pawl.report.model.ProgramPlace;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** One file of a program in parts that can be compared with those of another version: its lines, or what is drawn. */
interface ProgramParts {

  /** A file that is not there. */
  ProgramParts EMPTY = new ProgramText(new Source("", ""), Set.of());

  Source source();

  /** For each part what is the same where the program is; parts count from 0. */
  List<String> keys();

  /** Whether a part says anything. */
  boolean isSpoken(int part);

  /** A part with the unit that it is in. */
  ProgramPlace place(int part);

  /** What a part begins with: the variable that gets a value, the block that is called, the element. */
  String head(int part);

  /** What kind of element a part is; empty for a line of text. */
  default String kind(int part) {
    return "";
  }

  /** The line of a part in the program's own terms. */
  ProgramLine programLine(int part);

  /** The part at which the statement, condition or argument begins by which one sees what a part does. */
  Optional<Integer> beginning(int part);

  /** The same as a line of the program. */
  default Optional<ProgramLine> statement(int part) {
    return beginning(part).map(this::programLine);
  }

  /** The name of the file, without its folder. */
  default String name() {
    return source().name().substring(Math.max(source().name().lastIndexOf('/'), source().name().lastIndexOf('\\')) + 1);
  }

  /**
   * Whether nothing of a part itself has changed, though what leads to it has.
   *
   * @param partner by part of this file, that of the later version; -1 for none
   */
  default boolean isOnlyLedToOtherwise(int part, ProgramParts later, int laterPart, int[] partner) {
    return false;
  }
}
