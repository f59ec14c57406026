package dev.pawl.grammar.logic;

import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;

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
  /** An input of a call with nothing behind its {@code :=}, as if it were not named. */
  EMPTY_ARGUMENTS("empty-arguments"),
  /** Blocks and functions with a body of another language that nothing uses; they are left out. */
  UNUSED_FOREIGN_BODIES("unused-foreign-bodies"),
  /** Durations with a blank behind their {@code #}. */
  BLANKS_IN_DURATIONS("blanks-in-durations"),
  /** VAR_GLOBAL inside a unit, as if it stood before it. */
  INNER_GLOBALS("inner-globals"),
  /** Names with letters beyond A to Z. */
  OTHER_LETTERS("other-letters"),
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

  private static final Pattern REFUSED = Pattern.compile(" not supported( \\(and at |$)");

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

  /**
   * The same diagnostics, with all that is refused by name and all that could be allowed told in one of them, which has
   * all remedies; where there are other errors only, what could be allowed is told with the first.
   *
   * @param drawn the files in which things are drawn, where what is refused is told for each element
   */
  public static List<Diagnostic> joined(List<Diagnostic> diagnostics, Set<String> drawn) {
    List<Diagnostic> refused = diagnostics.stream().filter(each -> each.isError() && !allows(each)
        && REFUSED.matcher(each.message()).find() && !drawn.contains(each.position().file())).toList();
    List<Diagnostic> allowable = diagnostics.stream().filter(Allowance::allows).toList();
    List<Diagnostic> homes = diagnostics.stream().filter(each -> each.isError() && !allows(each)
        && (refused.isEmpty() || refused.contains(each))).limit(1).toList();
    List<Diagnostic> found = Stream.of(homes, refused, allowable).flatMap(List::stream).distinct().toList();
    if (found.size() < 2) {
      return diagnostics;
    }
    Diagnostic first = found.get(0);
    String message = first.message() + found.stream().skip(1).map(each -> "; in " + place(first, each) + ": "
        + each.message()).collect(Collectors.joining());
    List<String> remedies = new ArrayList<>(found.stream().filter(each -> !allows(each)).map(Diagnostic::hint)
        .filter(hint -> !hint.isEmpty()).distinct().toList());
    String words = allowable.stream().flatMap(each -> ALLOWING.matcher(each.hint()).results()).flatMap(each ->
        Arrays.stream(each.group(1).split("--allow "))).map(String::strip).filter(word -> !word.isEmpty()).distinct()
        .map(word -> "--allow " + word).collect(Collectors.joining(" "));
    if (!words.isEmpty()) {
      remedies.add((remedies.isEmpty() ? "mend these, or read them" : "mend the rest, or read it")
          + " all the same with " + words);
    }
    Diagnostic all = new Diagnostic(first.severity(), first.position(), message, String.join("; ", remedies));
    return diagnostics.stream().filter(each -> each == first || !found.contains(each)).map(each -> each == first ? all
        : each).toList();
  }

  private static String place(Diagnostic home, Diagnostic other) {
    String file = other.position().file();
    return "line " + other.position().line() + (file.equals(home.position().file()) ? ""
        : " of " + Path.of(file).getFileName());
  }
}
