package dev.pawl.run.change;

import dev.pawl.grammar.logic.LogicLanguage;
import dev.pawl.grammar.logic.drawn.Legend;
import dev.pawl.grammar.logic.model.Code;
import dev.pawl.grammar.logic.model.Step;
import dev.pawl.grammar.source.Source;
import dev.pawl.logic.ProgramLine;
import dev.pawl.report.model.ProgramPlace;
import dev.pawl.run.files.LogicFiles;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** One file of a program, line by line; lines count from 0 here. */
final class ProgramText {

  /** A program, function or function block begins; the instance of a program is none. */
  private static final Pattern UNIT =
      Pattern.compile("(?i)(?:PROGRAM|FUNCTION|FUNCTION_BLOCK) (\\w+)(?!\\w| WITH| : \\w+ [;(]).*");
  private static final Pattern UNIT_END = Pattern.compile("(?i)END_(?:PROGRAM|FUNCTION|FUNCTION_BLOCK)\\b.*");

  private final Source source;
  private final Optional<Legend> legend;
  private final List<String> words;
  private final List<String> lines;
  private final Set<Integer> beginnings = new TreeSet<>();

  /** A file that is not there. */
  static final ProgramText EMPTY = new ProgramText(new Source("", ""), Optional.empty());

  private ProgramText(Source source, Optional<Legend> legend) {
    this.source = source;
    this.legend = legend;
    this.words = LogicLanguage.words(source);
    this.lines = source.text().lines().toList();
  }

  /** One of the files of a program. */
  static ProgramText of(LogicFiles files, Source source) {
    ProgramText text = new ProgramText(source, Optional.ofNullable(files.legends().get(source.name())));
    files.program().units().stream().filter(unit -> unit.position().file().equals(source.name()))
        .forEach(unit -> unit.body().forEach(step -> step.walk(text::note)));
    return text;
  }

  private void note(Code part) {
    if (part instanceof Step step) {
      beginnings.add(step.position().line() - 1);
    }
    if (part instanceof Step.If branching) {
      branching.branches().forEach(branch -> beginnings.add(branch.position().line() - 1));
    }
  }

  /** The words of each line; where these are the same, the program is. */
  List<String> words() {
    return words;
  }

  /** The name of the file, without its folder. */
  String name() {
    return source.name().substring(Math.max(source.name().lastIndexOf('/'), source.name().lastIndexOf('\\')) + 1);
  }

  /** A line with its text; of what is drawn, with where it is drawn, and the words that mean the same. */
  ProgramPlace place(int line) {
    String text = legend.map(it -> it.at(line + 1).map(drawn -> drawn + ": ").orElse("") + words.get(line))
        .orElseGet(() -> lines.get(line).strip());
    return new ProgramPlace(source.name(), line + 1, text);
  }

  /** The same, behind the name of the unit that the line is in. */
  ProgramPlace inUnit(int line) {
    ProgramPlace place = place(line);
    return unit(line).map(unit -> new ProgramPlace(place.file(), place.line(), unit + ": " + place.text()))
        .orElse(place);
  }

  /** The program, function or function block that a line is in; empty outside of any. */
  private Optional<String> unit(int line) {
    for (int above = line; above >= 0; above--) {
      Matcher begins = UNIT.matcher(words.get(above));
      if (begins.matches()) {
        return Optional.of(begins.group(1));
      }
      if (above < line && UNIT_END.matcher(words.get(above)).matches()) {
        return Optional.empty();
      }
    }
    return Optional.empty();
  }

  ProgramLine programLine(int line) {
    return new ProgramLine(source.name(), line + 1);
  }

  /** The line at which the statement, condition or argument begins that a line is part of; empty for none. */
  Optional<Integer> beginning(int line) {
    if (words.get(line).matches("(?i)(END_\\w+|ELSE)( ;)?")) {
      return Optional.empty();
    }
    for (int above = line; above >= 0; above--) {
      if (beginnings.contains(above)) {
        return Optional.of(above);
      }
      if (above < line && words.get(above).contains(";")) {
        return Optional.empty();
      }
    }
    return Optional.empty();
  }

  /** The same in the program's own terms. */
  Optional<ProgramLine> statement(int line) {
    return beginning(line).map(this::programLine);
  }

  /** What a line begins with: the variable that gets a value, the block that is called, or the statement's word. */
  String head(int line) {
    return words.get(line).split(" (:=|=>|\\()| ", 2)[0];
  }
}
