package dev.pawl.grammar.logic;

import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * What is not of the standard, is found in programs all the same, and does no harm: read with a warning where it is
 * allowed, and refused by one message otherwise.
 */
public enum Allowance {
  /** {@code END_IF}, {@code END_STRUCT} and the like without {@code ;}. */
  MISSING_SEMICOLONS("missing-semicolons"),
  /** A file that ends without {@code END_PROGRAM} and the like. */
  MISSING_ENDS("missing-ends"),
  /** Statements without a unit, as a PROGRAM by the name of the file; VAR without statements, as VAR_GLOBAL. */
  MISSING_UNITS("missing-units"),
  /** Lines that are meant as remarks, and are none. */
  COMMENT_LINES("comment-lines"),
  /** A name as a statement, for a call without arguments. */
  CALLS_WITHOUT_BRACKETS("calls-without-brackets"),
  /** Inputs that are written: they keep that until the next call, or run of a task, gives them another value. */
  WRITTEN_INPUTS("written-inputs"),
  /** PROGRAM _INIT, which runs once before the first scan, and _EXIT, which never runs. */
  INIT_PROGRAMS("init-programs"),
  /** An ACTION behind the END of its unit. */
  ACTIONS_BEHIND("actions-behind"),
  /** The length of a STRING in round brackets. */
  ROUND_STRING_LENGTHS("round-string-lengths"),
  /** Variables written {@code "name"} or {@code #name}. */
  QUOTED_NAMES("quoted-names"),
  /** A text that is not UTF-8, read as Windows-1252. */
  CODE_PAGES("code-pages"),
  /** TITLE, VERSION and the like above the variables of a unit, and BEGIN below them. */
  BLOCK_HEADERS("block-headers"),
  /** REGION and END_REGION, which only fold the text. */
  REGIONS("regions"),
  /** A PROGRAM that is called by its name, which then runs by that alone, and its variables named behind it. */
  PROGRAM_NAMES("program-names"),
  /** The integer type of an enumeration behind its members. */
  BASE_TYPES_BEHIND("base-types-behind"),
  /** Enumerations beside integers, which count as their values. */
  ENUMERATION_NUMBERS("enumeration-numbers"),
  /** Types, variables, units and resources that an export holds in additional data, in the form of the format. */
  ADDITIONAL_DATA("additional-data"),
  /** A unit that is an exchange file by itself, without the project around it. */
  LONE_UNITS("lone-units"),
  /** Inputs and outputs that are drawn without a variable, as though they were not there. */
  EMPTY_BOXES("empty-boxes");

  private static final Pattern ALLOWING = Pattern.compile("all the same with ((?:--allow \\S+ ?)+)$");

  private final String word;

  Allowance(String word) {
    this.word = word;
  }

  /** How the command line calls it. */
  public String word() {
    return word;
  }

  /** A warning where it is allowed, else an error that names the way to allow it. */
  public Diagnostic found(LanguageChoices choices, Position position, String message, String remedy) {
    boolean allowed = choices.allowed().contains(this);
    String hint = allowed ? remedy : remedy + ", or read it all the same with --allow " + word;
    return allowed ? Diagnostic.warning(position, message, hint) : Diagnostic.error(position, message, hint);
  }

  /** Whether that is an error that could be allowed. */
  public static boolean allows(Diagnostic diagnostic) {
    return diagnostic.isError() && ALLOWING.matcher(diagnostic.hint()).find();
  }

  /** The same diagnostics, with all that could be allowed told in one of them, which names all words for it. */
  public static List<Diagnostic> joined(List<Diagnostic> diagnostics) {
    List<Diagnostic> found = diagnostics.stream().filter(Allowance::allows).toList();
    if (found.size() < 2) {
      return diagnostics;
    }
    Diagnostic first = found.get(0);
    String message = first.message() + found.stream().skip(1).map(each -> "; in " + place(first, each) + ": "
        + each.message()).collect(Collectors.joining());
    String words = found.stream().flatMap(each -> ALLOWING.matcher(each.hint()).results()).flatMap(each ->
        Arrays.stream(each.group(1).split("--allow "))).map(String::strip).filter(word -> !word.isEmpty()).distinct()
        .map(word -> "--allow " + word).collect(Collectors.joining(" "));
    Diagnostic all = new Diagnostic(first.severity(), first.position(), message,
        "mend these, or read them all the same with " + words);
    return diagnostics.stream().filter(each -> each == first || !found.contains(each)).map(each -> each == first ? all
        : each).toList();
  }

  private static String place(Diagnostic home, Diagnostic other) {
    String file = other.position().file();
    return "line " + other.position().line() + (file.equals(home.position().file()) ? ""
        : " of " + Path.of(file).getFileName());
  }
}
