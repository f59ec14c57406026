package dev.pawl.run.change;

import dev.pawl.grammar.logic.LogicLanguage;
import dev.pawl.grammar.logic.model.Code;
import dev.pawl.grammar.logic.model.Step;
import dev.pawl.grammar.source.Source;
import dev.pawl.logic.ProgramLine;
import dev.pawl.report.model.ProgramPlace;
import dev.pawl.run.files.LogicFiles;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** One file of Structured Text, line by line; lines count from 0 here. */
final class ProgramText implements ProgramParts {

  /** A program, function or function block begins; the instance of a program is none. */
  private static final Pattern UNIT =
      Pattern.compile("(?i)(?:PROGRAM|FUNCTION|FUNCTION_BLOCK) (\\w+)(?!\\w| WITH| : \\w+ [;(]).*");
  private static final Pattern UNIT_END = Pattern.compile("(?i)END_(?:PROGRAM|FUNCTION|FUNCTION_BLOCK)\\b.*");

  private final Source source;
  private final List<String> words;
  private final List<String> lines;
  private final Set<Integer> beginnings;

  ProgramText(Source source, Set<Integer> beginnings) {
    this.source = source;
    this.words = LogicLanguage.words(source);
    this.lines = source.text().lines().toList();
    this.beginnings = beginnings;
  }

  /** The parts of each file of a program. */
  static List<ProgramParts> of(LogicFiles files) {
    List<ProgramParts> parts = new ArrayList<>();
    for (Source source : files.sources()) {
      Set<Integer> beginnings = new TreeSet<>();
      files.program().units().stream().filter(unit -> unit.position().file().equals(source.name()))
          .forEach(unit -> unit.body().forEach(step -> step.walk(part -> note(part, beginnings))));
      parts.add(files.legends().containsKey(source.name())
          ? new DrawnParts(source, files.legends().get(source.name()).items(), beginnings)
          : new ProgramText(source, beginnings));
    }
    return parts;
  }

  private static void note(Code part, Set<Integer> beginnings) {
    if (part instanceof Step step) {
      beginnings.add(step.position().line() - 1);
    }
    if (part instanceof Step.If branching) {
      branching.branches().forEach(branch -> beginnings.add(branch.position().line() - 1));
    }
  }

  @Override
  public Source source() {
    return source;
  }

  @Override
  public List<String> keys() {
    return words;
  }

  @Override
  public boolean isSpoken(int line) {
    return !words.get(line).isEmpty();
  }

  @Override
  public ProgramPlace place(int line) {
    ProgramPlace place = new ProgramPlace(source.name(), line + 1, lines.get(line).strip());
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

  @Override
  public ProgramLine programLine(int line) {
    return new ProgramLine(source.name(), line + 1);
  }

  @Override
  public Optional<Integer> beginning(int line) {
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

  @Override
  public String head(int line) {
    return words.get(line).split(" (:=|=>|\\()| ", 2)[0];
  }
}
